import { blankWithout, call, part, when, type Formula, type Part } from '../plan/formula-parts';
import { MONTH_NAMES } from '../core/month-names';
import { type Gill, plainSpillCell } from '../plan/live-or-plain';
import { nth } from '../plan/names';
import { span } from '../plan/references';
import { type QuantityId, shownIn, type UnitSystem } from '../plan/quantities';
import { type At, cropIds, type Place, type VariantLine, type WishRemarks } from './variant-line';

export const places = MONTH_NAMES.map((_, i) => i);

/** Two digits up in the units that are shown, of a cell in metric units; metric again. */
export function upShown(cell: Formula, quantity: QuantityId, system: UnitSystem): Formula {
  const { factor } = shownIn(quantity, system);
  const shown = factor === 1 ? cell : cell.over(factor);
  const up = call(
    'ROUNDUP',
    shown.times(1 - 1e-11),
    part(1).minus(call('INT', call('LOG10', shown))),
  );
  return when(cell.atMost(0), 0, factor === 1 ? up : up.times(factor));
}

/** The ten figures of a rotation, in the order of STOCK.ROTATION. */
export const rotationIds = [
  'days',
  'weeks',
  'stocked',
  'sold',
  'batch',
  'litres',
  'standing',
  'feed',
  'peak',
  'fingerlings',
] as const;
export const rotationPlace = (id: (typeof rotationIds)[number]): number => rotationIds.indexOf(id);

export interface LinesOf {
  readonly mode: 'live' | 'plain';
  readonly gill: Gill;
  readonly system: UnitSystem;
  readonly currency: string;
  readonly place: Place;
  readonly crops: number;
  readonly remarks: WishRemarks;
}

export const month = (id: string, i: number): string => `${id}${i + 1}`;

export const eats = (gill: Gill, at: At, degrees: Formula): Formula =>
  gill('FEED.DAY', 1000, at('start').plus(at('harvest')).over(2), at('species'), degrees);

/** What the lines of a sheet of variants are made with. */
export function toolsFor({ mode, gill, system, currency, place, crops: count }: LinesOf) {
  const crops = cropIds(count);
  const allMonths = (at: At, id: string): Formula => span(at(month(id, 0)), at(month(id, 11)));
  const total = (at: At, step: string): Formula => {
    const cells = crops.map((id) => at(`${id}_${step}`).orZero);
    return cells.slice(1).reduce((all, cell) => all.plus(cell), cells[0] as Formula);
  };
  const ofKind = (at: At, kind: string): Formula =>
    blankWithout(
      [at('species')],
      crops
        .map((id) => when(at(`${id}_bed`).is(kind), at(`${id}_area`).orZero, 0))
        .reduce((all, amount) => all.plus(amount)),
    );
  const fact = (at: At, name: Parameters<typeof nth>[0]): Formula => nth(name, at('line'));
  /** Nothing where the fish cannot be reckoned with. */
  const fish = (at: At, formula: Part): Formula => blankWithout([at('days')], formula);
  /** A figure of the rotation, with growth and conversion of the farm's own as fish-size.ts has them. */
  const rotation = (at: At, kilos: Part, row: number, cell: (row: number) => Formula): Formula => {
    const args = (wanted: Part): Part[] => [
      wanted,
      at('harvest'),
      at('start'),
      at('mean'),
      at('species'),
      at('lives'),
      at('density'),
      at('tanks'),
    ];
    const id = rotationIds[row];
    const fed = (usual: Formula): Formula =>
      id === 'feed' || id === 'peak' ? usual.times(at('ration')) : usual;
    if (mode === 'plain') {
      // All but days and feed follow from the cells above.
      const usual = plainSpillCell('STOCK.ROTATION', args(kilos), row, 1, (of) => cell(of).text);
      return id === 'days' ? usual.times(at('slow')) : fed(usual);
    }
    const wanted = part(kilos).times(at('slow'));
    const usual = call('INDEX', gill('STOCK.ROTATION', ...args(wanted)), row + 1, 2);
    if (id === 'fingerlings') return usual.over(at('slow'));
    return id === 'days' || id === 'weeks' ? usual.times(at('slow')) : fed(usual);
  };
  const line = (
    id: string,
    label: string,
    quantity: QuantityId,
    formula: (at: At) => Formula,
    more: Partial<VariantLine> = {},
  ): VariantLine => ({ id, label, quantity, look: 'computed', formula, ...more });
  const moneyLine = (
    id: string,
    label: string,
    formula: (at: At) => Formula,
    more: Partial<VariantLine> = {},
  ): VariantLine =>
    line(id, label, 'number', formula, { format: 'money', unit: `${currency} a year`, ...more });
  const words = (id: string, label: string, formula: (at: At) => Formula): VariantLine => ({
    id,
    label,
    look: 'verdict',
    words: true,
    formula,
  });
  return {
    gill,
    system,
    currency,
    place,
    crops,
    total,
    ofKind,
    fact,
    fish,
    rotation,
    line,
    moneyLine,
    words,
    allMonths,
  };
}

export type LineTools = ReturnType<typeof toolsFor>;
