import { cropsSheet, speciesSheet } from '../plan/sheets/table-sheets';
import { isoText } from '../core/serial-date';
import { blankWithout, call, type Formula } from '../plan/formula-parts';
import { type FormulaMode, gillFor } from '../plan/live-or-plain';
import {
  converts,
  metricFormula,
  type QuantityId,
  shownFormula,
  shownIn,
  toShown,
  type UnitSystem,
} from '../plan/quantities';
import { cellRef, columnRef, fixedRef, rowRef } from '../plan/references';
import { renamedPlan } from '../plan/renamed-plan';
import { area, SheetBuilder } from '../plan/sheet-builder';
import { onPaperFor, type SheetModel, type WorkbookModel } from '../plan/workbook-model';
import { all } from '../plan/formula-parts';
import { MONTH_NAMES } from '../core/month-names';
import type { At, Place, VariantLine, VariantPart } from './variant-line';
import { MAX_CROPS } from './variant-line';
import { variantParts } from './variant-lines';
import { OPEN_WATER } from './water-size';
import type { Variants } from './variants';

/** Up to five farms side by side: typed above, computed below, what differs from the first marked. */

export const VARIANTS = 'Variants';
export const VARIANT_HEAD = 'Variant';
export const FARM_NAME = 'Name of the farm';
export const MAX_VARIANTS = 5;
export const FIRST = 2;
/** Widths of the labels, which stay in sight, and of a variant: a small telephone shows one beside them. */
const LABEL = 20;
const FIGURE = 16;
/** Columns that hold what is in metric units, folded away. */
const TWINS = 8;
const HEAD = 2;
/** From the place to its months. */
const MONTHS_BELOW = 6;

interface Placed {
  readonly line: VariantLine;
  readonly row: number;
}

/** Rows of all parts, from `row` on: a heading, the lines, a blank row. */
function rowsOf(parts: readonly VariantPart[], from: number): [Placed[], number] {
  let row = from;
  const placed: Placed[] = [];
  for (const { lines, remark } of parts) {
    row += remark === undefined ? 1 : 2;
    for (const line of lines) placed.push({ line, row: row++ });
    row += 1;
  }
  return [placed, row];
}

export function variantsSheet(variants: Variants, mode: FormulaMode): SheetModel {
  const { units: system, currency } = variants;
  const gill = gillFor(mode);
  const columns = Array.from({ length: MAX_VARIANTS }, (_, i) => FIRST + i);
  const sheet = new SheetBuilder(VARIANTS, {
    title: 'Variants',
    question: 'Which of these farms is it to be? What differs from the first is marked.',
    widths: [LABEL, 14, ...columns.map(() => FIGURE), 3, 14, 14, 14, 14, 14],
    landscape: false,
    headRows: HEAD + 1,
    headColumns: 1,
  });
  sheet.fold(TWINS - 1);
  const crops = Math.min(MAX_CROPS, variants.crops);

  // Formulas are made once everything has its place.
  let placeRow = 0;
  const monthRow = (): number => placeRow + MONTHS_BELOW;
  const shared = (row: number, column: number, rows = 1): Formula =>
    fixedRef(area(row, column, rows));
  const ofMonth = (column: number) => (month: number) => shared(monthRow() + month, column);
  const place: Place = {
    latitude: () => shared(placeRow, FIRST),
    altitude: () => shared(placeRow + 1, TWINS),
    date: () => shared(placeRow + 2, FIRST),
    high: ofMonth(TWINS),
    low: ofMonth(TWINS + 1),
    mean: ofMonth(TWINS + 2),
    means: () => shared(monthRow(), TWINS + 2, 12),
    open: ofMonth(TWINS + 3),
    opens: () => shared(monthRow(), TWINS + 3, 12),
    thirsts: () => shared(monthRow(), TWINS + 4, 12),
  };
  const parts = variantParts({
    mode,
    gill,
    system,
    currency,
    place,
    crops,
    remarks: variants.remarks,
  });
  const main = [...parts.typed, ...parts.outcome];
  const [first, afterMain] = rowsOf(main, HEAD + 1);
  placeRow = afterMain + 1;
  const later = [parts.water, ...parts.steps];
  const afterMonths = monthRow() + 13;
  const [second] = rowsOf(later, afterMonths);
  const printed = afterMonths + parts.water.lines.length + 2;
  const rows = new Map([...first, ...second].map(({ line, row }) => [line.id, { line, row }]));

  const atOf =
    (variant: number): At =>
    (id) => {
      const found = rows.get(id);
      if (found === undefined) throw new Error(`no line ${id}`);
      const { quantity } = found.line;
      const twin = quantity !== undefined && converts(quantity, system);
      return cellRef(found.row, (twin ? TWINS : FIRST) + variant);
    };

  sheet.put(HEAD, 0, { value: VARIANT_HEAD, look: 'columnHead' });
  sheet.put(HEAD, 1, { value: 'Unit', look: 'columnHead' });
  columns.forEach((column, v) => {
    const name = variants.list[v]?.name;
    sheet.put(HEAD, column, {
      ...(name !== undefined && { value: name }),
      look: 'input',
      format: 'text',
    });
  });

  writePlace(sheet, variants, placeRow);
  writeMonths(sheet, variants, { monthRow: monthRow(), mode, place });
  const write = (written: readonly VariantPart[], from: number): void => {
    let row = from;
    for (const { title, lines, remark } of written) {
      heading(sheet, row, title);
      if (remark !== undefined) sheet.text(row + 1, 1, remark, 'source');
      row += remark === undefined ? 1 : 2;
      for (const line of lines) {
        writeLine(sheet, { variants, line, row, system, atOf });
        row += 1;
      }
      row += 1;
    }
  };
  write(main, HEAD + 1);
  write(later, afterMonths);
  // What differs from the first variant.
  const marked = [...first, ...second.slice(0, parts.water.lines.length)].filter(
    ({ line }) => line.words !== true,
  );
  for (const { row: at } of marked)
    sheet.mark(
      area(at, FIRST + 1, 1, MAX_VARIANTS - 1),
      all(columnRef(HEAD, FIRST + 1).isFilled, cellRef(at, FIRST + 1).isNot(rowRef(at, FIRST))),
      'watch',
    );
  const model = sheet.model();
  const tall = first.flatMap(({ line: { lines }, row: at }) =>
    lines === undefined ? [] : [[at, lines] as const],
  );
  return {
    ...model,
    minLines: Object.fromEntries(tall),
    print: { ...model.print, areas: [area(0, 0, printed, FIRST + MAX_VARIANTS)] },
  };
}

/** Beside the labels, whose column cuts off what runs over its edge. */
function heading(sheet: SheetBuilder, row: number, title: string): void {
  sheet.put(row, 0, { look: 'heading' });
  sheet.heading(row, 1, FIRST + MAX_VARIANTS - 1, title);
}

interface LineAt {
  readonly variants: Variants;
  readonly line: VariantLine;
  readonly row: number;
  readonly system: UnitSystem;
  readonly atOf: (variant: number) => At;
}

function writeLine(sheet: SheetBuilder, { variants, line, row, system, atOf }: LineAt): void {
  const { id, label, quantity, unit, figure, look, formula, rule } = line;
  const shown = quantity && shownIn(quantity, system);
  const format = line.format ?? shown?.format ?? 'general';
  const named = line.labelOf?.(atOf(0), atOf(MAX_VARIANTS - 1));
  if (named === undefined) sheet.text(row, 0, label, 'label');
  else sheet.put(row, 0, { formula: named, look: 'label' });
  const says = unit ?? (format === 'percent' ? '' : (shown?.unit ?? ''));
  if (figure !== undefined) sheet.put(row, 1, { value: figure, look: 'unit' });
  else if (says !== '') sheet.text(row, 1, says, 'unit');
  for (let v = 0; v < MAX_VARIANTS; v++) {
    const column = FIRST + v;
    const value = variants.list[v]?.typed.get(id);
    const common = { look, format };
    const twin = quantity !== undefined && converts(quantity, system);
    const metric = formula?.(atOf(v));
    if (line.wish === undefined || value === undefined) {
      if (twin && metric !== undefined && line.wish === undefined) {
        sheet.put(row, TWINS + v, {
          formula: metric,
          look: 'computed',
          format: shownIn(quantity, 'metric').format,
        });
        sheet.put(row, column, {
          ...common,
          formula: shownFormula(cellRef(row, TWINS + v), quantity, system),
        });
        continue;
      }
      sheet.put(row, column, {
        ...common,
        ...(metric && {
          formula: twin ? wrapped(metric, quantity, system) : metric,
        }),
      });
    } else
      sheet.put(row, column, {
        ...common,
        value: typeof value === 'number' && quantity ? toShown(value, quantity, system) : value,
      });
    // What is typed over it counts: the metric figure follows the shown one.
    if (twin)
      sheet.put(row, TWINS + v, {
        formula: metricFormula(cellRef(row, column), quantity, system),
        look: 'computed',
        format: shownIn(quantity, 'metric').format,
      });
  }
  if (rule) sheet.rule(area(row, FIRST, 1, MAX_VARIANTS), rule.rule, rule.message);
}

const wrapped = (metric: Formula, quantity: QuantityId, system: UnitSystem): Formula =>
  shownFormula(metric, quantity, system);

/** What the variants share. */
function writePlace(sheet: SheetBuilder, variants: Variants, row: number): void {
  const { units: system } = variants;
  heading(sheet, row - 1, 'The place, for all variants');
  const altitude = shownIn('altitude', system);
  const lines = [
    ['Latitude', 'degrees', variants.latitude, 'one'],
    ['Altitude', altitude.unit, toShown(variants.altitude, 'altitude', system), 'whole'],
    ['Day of the plan', '', variants.asOf, 'date'],
    [FARM_NAME, '', variants.name, 'text'],
  ] as const;
  lines.forEach(([label, unit, value, format], i) => {
    sheet.text(row + i, 0, label, 'label');
    if (unit !== '') sheet.text(row + i, 1, unit, 'unit');
    sheet.put(row + i, FIRST, { ...(value !== undefined && { value }), look: 'input', format });
  });
  sheet.put(row + 1, TWINS, {
    formula: converts('altitude', system)
      ? metricFormula(cellRef(row + 1, FIRST), 'altitude', system)
      : cellRef(row + 1, FIRST),
    look: 'computed',
    format: 'whole',
  });
  sheet.rule(
    area(row, FIRST),
    { kind: 'number', min: -90, max: 90 },
    'Type the latitude, -90 to 90.',
  );
  sheet.rule(area(row + 2, FIRST), { kind: 'date' }, 'Type a date.');
}

function writeMonths(
  sheet: SheetBuilder,
  variants: Variants,
  {
    monthRow,
    mode,
    place,
  }: { readonly monthRow: number; readonly mode: FormulaMode; readonly place: Place },
): void {
  const { units: system } = variants;
  const gill = gillFor(mode);
  const { unit } = shownIn('temperature', system);
  sheet.heads(monthRow - 1, 0, ['Air of the months', 'Unit', 'By day', 'By night', 'Humidity']);
  sheet.heads(monthRow - 1, TWINS, [
    'High, °C',
    'Low, °C',
    'Mean, °C',
    'Open water, L/m²',
    'Beds, L/m²',
  ]);
  MONTH_NAMES.forEach((month, i) => {
    const row = monthRow + i;
    const { high, low, humidity } = variants.months[i] ?? {};
    sheet.text(row, 0, month, 'label');
    sheet.text(row, 1, unit, 'unit');
    const put = (column: number, value: number | undefined, format: 'one' | 'percent'): void =>
      sheet.put(row, column, { ...(value !== undefined && { value }), look: 'input', format });
    const degrees = (value: number | undefined): number | undefined =>
      value === undefined ? undefined : toShown(value, 'temperature', system);
    put(FIRST, degrees(high), 'one');
    put(FIRST + 1, degrees(low), 'one');
    put(FIRST + 2, humidity, 'percent');
    const metric = (column: number): Formula => {
      const cell = cellRef(row, column);
      return converts('temperature', system)
        ? metricFormula(cell, 'temperature', system)
        : blankWithout([cell], cell);
    };
    const helper = (column: number, formula: Formula): void =>
      sheet.put(row, column, { formula, look: 'computed', format: 'one' });
    helper(TWINS, metric(FIRST));
    helper(TWINS + 1, metric(FIRST + 1));
    const [highest, lowest] = [place.high(i), place.low(i)];
    const said = (formula: Formula): Formula => blankWithout([highest, lowest], formula);
    helper(TWINS + 2, said(call('ROUND', highest.plus(lowest).over(2), 6)));
    const day = call('DATE', call('YEAR', place.date()), i + 1, 15);
    const loss = (crop?: number): Formula =>
      blankWithout(
        [highest, lowest, place.latitude()],
        gill('WATER.USE', 1, highest, lowest, place.latitude(), day, crop),
      );
    helper(TWINS + 3, loss(OPEN_WATER));
    helper(TWINS + 4, loss());
  });
  const degrees = system === 'US' ? { min: -76, max: 140 } : { min: -60, max: 60 };
  sheet.rule(
    area(monthRow, FIRST, 12, 2),
    { kind: 'number', ...degrees },
    `Type a temperature in ${unit}.`,
  );
  sheet.rule(
    area(monthRow, FIRST + 2, 12),
    { kind: 'number', min: 0, max: 1 },
    'Type a share from 0 % to 100 %.',
  );
}

/**
 * The tables have names of their own: those of a plan that stands in the same workbook are its own, with the figures
 * that its grower types, and whoever reads the plan finds them by their names.
 */
function withOwnTables(workbook: WorkbookModel): WorkbookModel {
  const [, ...tables] = workbook.sheets;
  const named = [...workbook.names, ...tables.flatMap((table) => table.tables)];
  return renamedPlan(
    workbook,
    new Map(tables.map(({ name }) => [name.toLowerCase(), `${name} for variants`])),
    new Map(named.map(({ name }) => [name.toLowerCase(), `Variants_${name}`])),
  );
}

/** The workbook: the variants, and the tables that they look up. */
export function variantsWorkbook(variants: Variants, mode: FormulaMode): WorkbookModel {
  const crops = cropsSheet();
  const species = speciesSheet();
  return withOwnTables({
    title: `${variants.name ?? 'Farm'}: variants`,
    formulas: mode,
    made: isoText(variants.asOf),
    sheets: onPaperFor(variants.units, [variantsSheet(variants, mode), crops.sheet, species.sheet]),
    names: [...crops.names, ...species.names],
  });
}
