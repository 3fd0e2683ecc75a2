import type { CautionId } from '../functions/cautions';
import { fullAddress, rowAddress } from './addresses';
import type { PlanContext } from './context';
import type { FormatId, LookId, ValidationModel } from './model';
import {
  converts,
  metricFormula,
  type QuantityId,
  shownFormula,
  shownIn,
  toShown,
} from './quantities';
import { area, type SheetBuilder } from './sheet-builder';

/** A column of a register. Formulas are about metric figures; what is shown follows the farm's units. */
export interface RegisterColumn<R> {
  readonly id: string;
  readonly head: string;
  readonly width: number;
  readonly look: LookId;
  readonly quantity?: QuantityId;
  readonly format?: FormatId;
  /** What the farm file says, in metric units; absent for computed columns. */
  readonly value?: (entry: R) => number | string | undefined;
  /** `at(id)` is the same row's cell of another column, in metric units; `row` counts from 0 in the sheet. */
  readonly formula?: (at: (id: string) => string, row: number) => string;
  /** Whether a row without its first column stays blank; true where left out. */
  readonly blankWithout?: boolean;
  readonly rule?: { readonly rule: ValidationModel['rule']; readonly message: string };
  readonly note?: string;
  /** Serves formulas alone: folded away with the metric twins. Such columns are the last. */
  readonly helper?: true;
  /** Sum or other figure of the whole farm, above the head; `column` is the column's metric cells. */
  readonly total?: (column: string) => string;
}

interface RegisterSpec<R> {
  /** Part of the names: Tanks gives Tanks_volume. At least four letters. */
  readonly prefix: string;
  readonly headRow: number;
  readonly columns: readonly RegisterColumn<R>[];
  readonly entries: readonly R[];
  /** Prepared empty rows. */
  readonly spare: number;
  /** What to beware of, in the row before the totals. */
  readonly cautions?: readonly CautionId[];
}

/** Characters side by side that even a small screen shows at once: cautions go no further. */
const SEEN_AT_ONCE = 115;

/** Rows below the prepared ones that still count, for rows added by hand. */
const ROOM = 200;

export interface Register {
  readonly firstRow: number;
  /** Prepared rows: filled and spare. */
  readonly rows: number;
  /** Column as shown; what conditions and charts look at. */
  readonly column: (id: string) => number;
  /** Column that holds the metric figure. */
  readonly metricColumn: (id: string) => number;
  /** Cell of one entry (from 0), metric, from any sheet. */
  readonly cell: (id: string, entry: number) => string;
}

/** Smallest and largest typed figure of a rule are metric in the spec; cells hold shown ones. */
function shownRule<R>(
  { rule, quantity }: RegisterColumn<R>,
  ctx: PlanContext,
): ValidationModel['rule'] | undefined {
  if (!rule) return undefined;
  if (!quantity || rule.rule.kind !== 'number') return rule.rule;
  const { min, max } = rule.rule;
  return {
    kind: 'number',
    ...(min !== undefined && { min: toShown(min, quantity, ctx.system) }),
    ...(max !== undefined && { max: toShown(max, quantity, ctx.system) }),
  };
}

/**
 * Writes a register: a head row, the farm's entries, empty prepared rows. In US units each figure that
 * converts has a second column at the right end, which holds it in metric for the functions.
 * A register is the last thing on its sheet: names run on below it, so that rows added by hand count.
 */
export function register<R>(
  sheet: SheetBuilder,
  ctx: PlanContext,
  { prefix, headRow, columns, entries, spare, cautions }: RegisterSpec<R>,
): Register {
  const { system } = ctx;
  const firstRow = headRow + 1;
  const rows = entries.length + spare;
  const converting = columns.filter(({ quantity }) => quantity && converts(quantity, system));
  const shownColumn = new Map(columns.map(({ id }, i) => [id, i]));
  const metricColumn = new Map(shownColumn);
  converting.forEach(({ id }, i) => metricColumn.set(id, columns.length + i));
  const indexIn = (map: ReadonlyMap<string, number>, id: string): number => {
    const index = map.get(id);
    if (index === undefined) throw new Error(`${prefix} has no column ${id}`);
    return index;
  };
  const metric = (id: string): number => indexIn(metricColumn, id);
  const first = columns[0] as RegisterColumn<R>;
  const seen = columns.filter(({ helper }) => !helper).length;
  if (columns.slice(0, seen).some(({ helper }) => helper))
    throw new Error(`${prefix}: helper columns come last`);
  sheet.fold(seen);

  if (cautions) {
    // Beside the column that stays in sight, which would cut them off.
    let width = 0;
    const fitting = columns.slice(0, seen).filter((one) => (width += one.width) <= SEEN_AT_ONCE);
    sheet.cautions(headRow - 2, 1, Math.max(1, fitting.length - 1), cautions);
  }

  const heads = columns.map(({ head, quantity }) => {
    const unit =
      quantity && !['count', 'plants'].includes(quantity) ? shownIn(quantity, system).unit : '';
    return unit === '' ? head : `${head}, ${unit}`;
  });
  const metricHeads = converting.map(
    ({ head, quantity }) =>
      `${head}, ${shownIn(quantity as QuantityId, 'metric').unit} (for the functions)`,
  );
  [...heads, ...metricHeads].forEach((value, c) => {
    const note = columns[c]?.note;
    sheet.put(headRow, c, { value, look: 'columnHead', ...(note && { note }) });
  });

  columns.forEach((column, c) => {
    const { id, quantity, look, value, formula } = column;
    const shown = quantity && shownIn(quantity, system);
    const format = column.format ?? shown?.format ?? 'general';
    const twin = metric(id);
    sheet.width(c, column.width);
    if (twin !== c) sheet.width(twin, 13);
    ctx.name(`${prefix}_${id}`, sheet.name, area(firstRow, twin, rows + ROOM));
    if (column.total) {
      const total = column.total(`${prefix}_${id}`);
      const { factor, offset } = shown ?? { factor: 1, offset: 0 };
      sheet.put(headRow - 1, c, {
        formula:
          factor === 1
            ? total
            : `(${total})/${Number(factor.toPrecision(12))}${offset ? `+${offset}` : ''}`,
        look: 'result',
        format,
      });
    }
    const rule = shownRule(column, ctx);
    if (rule && column.rule) sheet.rule(area(firstRow, c, rows), rule, column.rule.message);
    for (let i = 0; i < rows; i++) {
      const row = firstRow + i;
      const here = rowAddress(row, c);
      const there = rowAddress(row, twin);
      const metricFormat = quantity ? shownIn(quantity, 'metric').format : 'general';
      if (formula) {
        const own = formula((other) => rowAddress(row, metric(other)), row);
        const guarded =
          column.blankWithout === false || column === first
            ? own
            : `IF(${rowAddress(row, 0)}="","",${own})`;
        if (twin === c) {
          sheet.put(row, c, { formula: guarded, look, format });
        } else {
          sheet.put(row, c, {
            formula: shownFormula(there, quantity as QuantityId, system),
            look,
            format,
          });
          sheet.put(row, twin, { formula: guarded, look: 'computed', format: metricFormat });
        }
        continue;
      }
      const entry = entries[i];
      const given = entry === undefined ? undefined : value?.(entry);
      const typed =
        typeof given === 'number' && quantity ? toShown(given, quantity, system) : given;
      sheet.put(row, c, {
        ...(typed !== undefined && { value: typed }),
        look,
        format: typeof typed === 'string' ? 'text' : format,
      });
      if (twin !== c) {
        sheet.put(row, twin, {
          formula: metricFormula(here, quantity as QuantityId, system),
          look: 'computed',
          format: metricFormat,
        });
      }
    }
  });
  sheet.table({
    name: `${prefix}_register`,
    area: area(headRow, 0, rows + 1, columns.length + converting.length),
    heads: [...heads, ...metricHeads],
  });
  return {
    firstRow,
    rows,
    column: (id) => indexIn(shownColumn, id),
    metricColumn: metric,
    cell: (id, entry) => fullAddress(sheet.name, area(firstRow + entry, metric(id))),
  };
}
