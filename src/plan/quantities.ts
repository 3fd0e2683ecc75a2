import { unitWord } from '../functions/unit-word';
import type { UnitId } from '../functions/units';
import { blankWithout, type Formula, joined, written } from './formula-parts';
import type { FormatId } from './workbook-model';

/** How the grower reads and types figures; the functions always get metric ones. */
export type UnitSystem = 'metric' | 'US';

interface Shown {
  readonly unit: string;
  readonly format: FormatId;
  /** One shown unit in metric units; 1 where both are the same. */
  readonly factor: number;
  /** Subtracted from a shown figure before the factor (32 for degF). */
  readonly offset: number;
}

interface Quantity {
  /** The unit that text such as "1100 gal" is turned into. */
  readonly reads: UnitId;
  readonly metric: Shown;
  readonly US: Shown;
}

const shown = (unit: string, format: FormatId, factor = 1, offset = 0): Shown => ({
  unit: unitWord(unit),
  format,
  factor,
  offset,
});

const same = (reads: UnitId, unit: string, format: FormatId): Quantity => ({
  reads,
  metric: shown(unit, format),
  US: shown(unit, format),
});

// Exact by definition: US liquid gallon, avoirdupois pound, international foot.
const GALLON = 3.785411784;
const POUND = 453.59237;
const FOOT = 0.3048;

const both = (reads: UnitId, metric: Shown, US: Shown): Quantity => ({ reads, metric, US });

/** What the plan measures, with its unit in each system. */
export const quantities = {
  volume: both('L', shown('L', 'whole'), shown('gal', 'whole', GALLON)),
  fishWeight: both('g', shown('g', 'whole'), shown('lb', 'two', POUND)),
  mass: both('kg', shown('kg', 'one'), shown('lb', 'one', POUND / 1000)),
  plantYield: both('kg', shown('kg', 'two'), shown('lb', 'two', POUND / 1000)),
  massPerArea: both('', shown('kg/m2', 'two'), shown('lb/ft2', 'two', POUND / 1000 / FOOT ** 2)),
  dose: both('g', shown('g', 'whole'), shown('lb', 'two', POUND)),
  feedDay: both('g/day', shown('g/day', 'whole'), shown('lb/day', 'two', POUND)),
  feedRatio: both(
    'g/m2/day',
    shown('g/m2/day', 'whole'),
    shown('lb/100 ft2/day', 'two', POUND / (100 * FOOT ** 2)),
  ),
  length: both('m', shown('m', 'two'), shown('ft', 'one', FOOT)),
  altitude: both('m', shown('m', 'whole'), shown('ft', 'whole', FOOT)),
  spacing: both('cm', shown('cm', 'one'), shown('in', 'one', 2.54)),
  bore: both('mm', shown('mm', 'whole'), shown('in', 'two', 25.4)),
  area: both('m2', shown('m2', 'one'), shown('ft2', 'whole', FOOT ** 2)),
  temperature: both('degC', shown('degC', 'one'), shown('degF', 'one', 5 / 9, 32)),
  houseVolume: both('m3', shown('m3', 'whole'), shown('ft3', 'whole', FOOT ** 3)),
  airFlow: both('m3/h', shown('m3/h', 'whole'), shown('cfm', 'whole', 60 * FOOT ** 3)),
  flow: both('L/h', shown('L/h', 'whole'), shown('gal/h', 'whole', GALLON)),
  density: both('kg/m3', shown('kg/m3', 'one'), shown('lb/gal', 'two', POUND / GALLON)),
  plantsPerArea: both('', shown('plants/m2', 'one'), shown('plants/ft2', 'two', 1 / FOOT ** 2)),
  concentration: same('mg/L', 'mg/L', 'two'),
  alkalinity: same('mg/L as CaCO3', 'mg/L CaCO3', 'whole'),
  salinity: same('g/kg', 'g/kg', 'one'),
  ph: same('pH', 'pH', 'one'),
  share: same('share', '%', 'percent'),
  count: same('', 'fish', 'whole'),
  plants: same('', 'plants', 'whole'),
  days: same('day', 'days', 'whole'),
  weeks: same('week', 'weeks', 'one'),
  hours: same('h', 'h', 'one'),
  degrees: same('degrees', 'degrees', 'one'),
  power: same('W', 'W', 'whole'),
  energy: same('kWh', 'kWh', 'whole'),
  surface: both('m2', shown('m2', 'whole'), shown('ft2', 'whole', FOOT ** 2)),
  specificSurface: both('m2/m3', shown('m2/m3', 'whole'), shown('ft2/ft3', 'whole', 1 / FOOT)),
  perHour: same('', 'per hour', 'one'),
  pricePerMass: both('', shown('a kg', 'money'), shown('a lb', 'money', 1000 / POUND)),
  pricePerVolume: both('', shown('a L', 'money'), shown('a gal', 'money', 1 / GALLON)),
  pricePerArea: both('', shown('a m2', 'money'), shown('a ft2', 'money', 1 / FOOT ** 2)),
  hoursPerArea: both('', shown('h a m2', 'three'), shown('h a ft2', 'three', 1 / FOOT ** 2)),
  massMonth: both('', shown('kg a month', 'whole'), shown('lb a month', 'whole', POUND / 1000)),
  moneyPerArea: both(
    '',
    shown('a m2 and week', 'money'),
    shown('a ft2 and week', 'money', 1 / FOOT ** 2),
  ),
  number: same('', '', 'general'),
} satisfies Record<string, Quantity>;

export type QuantityId = keyof typeof quantities;

export const shownIn = (id: QuantityId, system: UnitSystem): Shown => quantities[id][system];

export const converts = (id: QuantityId, system: UnitSystem): boolean =>
  shownIn(id, system).factor !== 1;

/** A metric figure as it is shown; ten digits hide the rounding of the way there and back. */
export function toShown(value: number, id: QuantityId, system: UnitSystem): number {
  const { factor, offset } = shownIn(id, system);
  return factor === 1 ? value : Number((value / factor + offset).toPrecision(10));
}

export function toMetric(value: number, id: QuantityId, system: UnitSystem): number {
  const { factor, offset } = shownIn(id, system);
  return factor === 1 ? value : (value - offset) * factor;
}

/** A factor as a formula holds it: twelve digits, so that every spreadsheet shows the same text. */
const inFormula = (factor: number): number => Number(factor.toPrecision(12));

/** A shown cell in metric; nothing stays nothing. */
export function metricFormula(cell: Formula, id: QuantityId, system: UnitSystem): Formula {
  const { factor, offset } = shownIn(id, system);
  const moved = offset === 0 ? cell : cell.minus(offset);
  return blankWithout([cell], moved.times(inFormula(factor)));
}

/** A metric figure as it is shown. */
export function inShownUnits(figure: Formula, id: QuantityId, system: UnitSystem): Formula {
  const { factor, offset } = shownIn(id, system);
  if (factor === 1) return figure;
  const divided = figure.over(inFormula(factor));
  return offset === 0 ? divided : divided.plus(offset);
}

/** A metric cell as it is shown; nothing stays nothing. */
export const shownFormula = (cell: Formula, id: QuantityId, system: UnitSystem): Formula =>
  blankWithout([cell], inShownUnits(cell, id, system));

const textFormats: Partial<Record<FormatId, string>> = { one: '#,##0.0', two: '#,##0.00' };

/** A metric figure in words of the farm's units: "1,250 L". */
export function figureInWords(
  figure: Formula,
  id: QuantityId,
  system: UnitSystem,
  { decimals }: { readonly decimals?: string } = {},
): Formula {
  const { unit, format } = shownIn(id, system);
  return joined(
    written(inShownUnits(figure, id, system), decimals ?? textFormats[format] ?? '#,##0'),
    ` ${unit}`,
  );
}
