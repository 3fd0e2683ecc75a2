import type { CautionId } from '../functions/cautions';
import type { PlanContext } from './context';
import { blankUnless, blankWithout, call, type Formula } from './formula-parts';
import type { Area, FormatId, LookId, ValidationModel } from './workbook-model';
import { named, type PlanName, type RegisterColumns, type RegisterPrefix } from './names';
import {
  converts,
  inShownUnits,
  metricFormula,
  type QuantityId,
  shownFormula,
  shownIn,
  toShown,
  type UnitSystem,
} from './quantities';
import { lookOfTyped } from './preset-fields';
import { fixedRef, rowRef, span } from './references';
import { area, type CellSpec, SheetBuilder } from './sheet-builder';
import type { FarmList, TypedColumn } from './typed-cells';

/** The cell of a column in the row that a formula stands in, in metric units. */
export interface At<P extends RegisterPrefix> {
  (id: RegisterColumns[P]): Formula;
  /** The same column's cell in the first row, whatever row the formula stands in. */
  readonly first: (id: RegisterColumns[P]) => Formula;
  /** The same column's cell in the row above. */
  readonly above: (id: RegisterColumns[P]) => Formula;
  /** The place of the row among the register's rows, from 1. */
  readonly place: Formula;
  /** The figure of the whole column, above its head. */
  readonly total: (id: RegisterColumns[P]) => Formula;
  /** The shown cells of the row from one column to another. */
  readonly shown: (from: RegisterColumns[P], to: RegisterColumns[P]) => Formula;
}

/** A column of a register. Formulas are about metric figures; what is shown follows the farm's units. */
export interface RegisterColumn<R, P extends RegisterPrefix> {
  readonly head: string;
  readonly width: number;
  readonly look: LookId;
  /** The look of an entry's typed cell, where it is not that of all. */
  readonly lookOf?: (entry: R) => LookId;
  readonly quantity?: QuantityId;
  readonly format?: FormatId;
  /** The field of an entry that the column holds; absent for computed columns. */
  readonly field?: keyof R & string;
  /** A field that stood here as typed figures in earlier versions, and may be typed over the formula. */
  readonly typedBefore?: keyof R & string;
  /** `row` counts from 0 among the register's rows; a row for which there is none stays blank. */
  readonly formula?: (at: At<P>, row: number) => Formula | undefined;
  /** What the plan itself puts into an entry's cell, in place of a formula. */
  readonly given?: (entry: R) => number | string | undefined;
  readonly rule?: { readonly rule: ValidationModel['rule']; readonly message: string } | undefined;
  readonly note?: string;
  /** Words and numbers may stand side by side in the column, each as it was typed. */
  readonly mixed?: true;
  /** Shown even where the row's first cell is blank: the formula itself says when it is empty. */
  readonly always?: true;
  /** Columns of the sheet that it takes, where it is the last that is shown of a register amid a sheet. */
  readonly across?: number;
  /** Serves formulas alone: folded away with the metric twins. Such columns are the last. */
  readonly helper?: true;
  /** Sum or other figure of the whole farm, above the head; `column` is the column's metric cells. */
  readonly total?: (column: Formula) => Formula;
}

/** A column that serves formulas alone. */
export const helperColumn = <R, P extends RegisterPrefix>(
  head: string,
  formula: NonNullable<RegisterColumn<R, P>['formula']>,
): RegisterColumn<R, P> => ({
  helper: true,
  always: true,
  head,
  width: 9,
  look: 'source',
  formula,
});

/** Every column that the register's names promise, from left to right. */
export type Columns<R, P extends RegisterPrefix> = Readonly<
  Record<RegisterColumns[P], RegisterColumn<R, P>>
>;

interface RegisterSpec<R, P extends RegisterPrefix> {
  /** Part of the names: Tanks gives Tanks_volume. */
  readonly prefix: P;
  readonly headRow: number;
  readonly columns: Columns<R, P>;
  /** The list of the farm whose entries it holds. */
  readonly list: FarmList;
  /** Prepared empty rows. */
  readonly spare: number;
  /**
   * A column that every row has, of a register that is written every day and whose rows say what is to be put right:
   * lines typed below the prepared ones either count or are named.
   */
  readonly diary?: RegisterColumns[P];
  /**
   * It stands amid a sheet, its rows those of another register: no table, and none of its columns wider than those of
   * the sheet. What serves formulas alone stands from this column on.
   */
  readonly amid?: number;
  /** What to beware of, in the row before the totals. */
  readonly cautions?: readonly CautionId[];
}

/** Characters side by side that even a small screen shows at once: cautions go no further. */
const VISIBLE_WIDTH = 165;

/** Rows below the prepared ones that still count, for rows added by hand: more where rows are written every day. */
const ROWS_BELOW = 200;
const ROWS_BELOW_DIARY = 1000;
/** Rows below the prepared ones in which typed lines are looked for. */
const ROWS_WATCHED = 20_000;

/** Said where lines were typed below the prepared ones and have no formulas. */
const UNCOUNTED = 'Lines below count nowhere: copy the formulas down';

/** Prepared empty rows of a register that is written every day: more where there are many, not so many that edits wait for them. */
export const spareRows = (filled: number): number =>
  Math.min(100, Math.max(60, Math.ceil(filled / 10)));

export interface Register<P extends RegisterPrefix> {
  readonly firstRow: number;
  /** Prepared rows: filled and spare. */
  readonly rows: number;
  /** Columns of it, those for the functions among them. */
  readonly columns: number;
  /** Columns of it that are shown. */
  readonly shown: number;
  /** Column as shown; what conditions and charts look at. */
  readonly column: (id: RegisterColumns[P]) => number;
  /** The shown cells of a column. */
  readonly cells: (id: RegisterColumns[P]) => Area;
  /** The metric cell of a column in the first row, for conditions. */
  readonly first: At<P>;
}

/** Smallest and largest typed figure of a rule are metric in the spec; cells hold shown ones. */
function shownRule<R, P extends RegisterPrefix>(
  { rule, quantity }: RegisterColumn<R, P>,
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

function holds<R, P extends RegisterPrefix>({
  quantity,
  format,
  rule,
  mixed,
}: RegisterColumn<R, P>): TypedColumn['holds'] {
  if (format === 'date') return 'date';
  return mixed || quantity || rule?.rule.kind === 'number' || rule?.rule.kind === 'whole'
    ? 'number'
    : 'text';
}

const shownFormat = <R, P extends RegisterPrefix>(
  { format, quantity }: RegisterColumn<R, P>,
  system: UnitSystem,
): FormatId => format ?? (quantity ? shownIn(quantity, system).format : 'general');

const metricFormat = <R, P extends RegisterPrefix>({ quantity }: RegisterColumn<R, P>): FormatId =>
  quantity ? shownIn(quantity, 'metric').format : 'general';

/** Place of a register's heads on a sheet of its own: title, question, cautions and totals stand above. */
export const HEAD_ROW = 4;

/** A sheet that is a register: its heads and the names of its rows stay in sight. */
export const registerSheet = (name: string, question: string, landscape = true): SheetBuilder =>
  new SheetBuilder(name, {
    title: name,
    question,
    widths: [],
    landscape,
    headRows: HEAD_ROW + 1,
    headColumns: 1,
  });

/** Where a register's columns, rows and cells stand. */
function registerLayout<R, P extends RegisterPrefix>(
  sheet: SheetBuilder,
  ctx: PlanContext,
  spec: RegisterSpec<R, P>,
) {
  const { headRow, columns: columnsById, list, spare, diary, amid } = spec;
  type Id = RegisterColumns[P];
  const { system } = ctx;
  const columns = Object.entries<RegisterColumn<R, P>>(columnsById).map(([id, column]) => ({
    id: id as Id,
    ...column,
  }));
  const firstRow = headRow + 1;
  const entries = ctx.farm[list] as readonly unknown[] as readonly R[];
  const rows = entries.length + spare;
  const below = amid !== undefined ? 0 : diary === undefined ? ROWS_BELOW : ROWS_BELOW_DIARY;
  const converting = columns.filter(({ quantity }) => quantity && converts(quantity, system));
  const seen = columns.filter(({ helper }) => !helper).length;
  /** Where the columns behind those that are shown begin. */
  const work = amid ?? seen;
  const placeOf = (i: number): number => (i < seen ? i : work + i - seen);
  const shownColumn = new Map<Id, number>(columns.map(({ id }, i) => [id, placeOf(i)]));
  const metricColumn = new Map(shownColumn);
  converting.forEach(({ id }, i) => metricColumn.set(id, placeOf(columns.length + i)));
  const metric = (id: Id): number => metricColumn.get(id) as number;
  const shown = (id: Id): number => shownColumn.get(id) as number;
  const atFirst = (id: Id): Formula => fixedRef(area(firstRow, metric(id)));
  const atRow = (row: number): At<P> =>
    Object.assign((id: Id) => rowRef(row, metric(id)), {
      first: atFirst,
      above: (id: Id) => rowRef(row - 1, metric(id)),
      place: call('ROW', rowRef(row, 0)).minus(call('ROW', fixedRef(area(headRow, 0)))),
      total: (id: Id) => fixedRef(area(headRow - 1, shown(id))),
      shown: (from: Id, to: Id) => span(rowRef(row, shown(from)), rowRef(row, shown(to))),
    });
  const heads = columns.map(({ head, quantity }) => {
    const unit =
      quantity && !['count', 'plants'].includes(quantity) ? shownIn(quantity, system).unit : '';
    return unit === '' ? head : `${head}, ${unit}`;
  });
  const metricHeads = converting.map(
    ({ head, quantity }) =>
      `${head}, ${shownIn(quantity as QuantityId, 'metric').unit} (for the functions)`,
  );
  /** A cell of a column, over as many as it takes. */
  const putCell = (row: number, i: number, cell: CellSpec): void => {
    const across = columns[i]?.across;
    if (across === undefined) sheet.put(row, placeOf(i), cell);
    else sheet.wide(row, placeOf(i), across, cell);
  };
  return {
    sheet,
    ctx,
    spec,
    columns,
    converting,
    entries,
    firstRow,
    rows,
    /** Rows below the prepared ones to which names reach. */
    below,
    /** How many columns are shown. */
    seen,
    placeOf,
    metric,
    shown,
    atRow,
    heads,
    metricHeads,
    putCell,
  };
}
type RegisterLayout<R, P extends RegisterPrefix> = ReturnType<typeof registerLayout<R, P>>;
type LaidColumn<R, P extends RegisterPrefix> = RegisterLayout<R, P>['columns'][number];

/** Beside the column that stays in sight, which would cut them off. */
function putCautions<R, P extends RegisterPrefix>({
  sheet,
  spec,
  columns,
  seen,
}: RegisterLayout<R, P>): void {
  const { headRow, cautions } = spec;
  if (!cautions) return;
  let width = 0;
  const fitting = columns
    .slice(0, seen)
    .filter((column) => (width += column.width) <= VISIBLE_WIDTH);
  sheet.cautions(headRow - 2, 1, Math.max(1, fitting.length - 1), cautions);
}

function putHeads<R, P extends RegisterPrefix>(layout: RegisterLayout<R, P>): void {
  const { spec, columns, heads, metricHeads, putCell } = layout;
  const { headRow } = spec;
  [...heads, ...metricHeads].forEach((value, i) => {
    const note = columns[i]?.note;
    putCell(headRow, i, { value, look: 'columnHead', ...(note && { note }) });
  });
}

/** What the farm file holds for a cell that is typed, in the units that are shown. */
function typedCell<R, P extends RegisterPrefix>(
  { ctx, spec, entries }: RegisterLayout<R, P>,
  column: LaidColumn<R, P>,
  n: number,
): CellSpec {
  const { system } = ctx;
  const { list } = spec;
  const { quantity, look, field } = column;
  const format = shownFormat(column, system);
  const entry = entries[n];
  const given =
    entry == null || field === undefined
      ? undefined
      : (entry[field] as number | string | undefined);
  const typed = typeof given === 'number' && quantity ? toShown(given, quantity, system) : given;
  return {
    ...(typed !== undefined && { value: typed }),
    look:
      field === undefined
        ? look
        : lookOfTyped(
            ctx.farm,
            `${list}[].${field}`,
            typed,
            entry === undefined ? look : (column.lookOf?.(entry) ?? look),
          ),
    format: typeof typed === 'string' ? 'text' : format,
  };
}

/** A computed cell, and in US units the metric one behind it. */
function putComputed<R, P extends RegisterPrefix>(
  { sheet, ctx, columns, placeOf, metric, putCell }: RegisterLayout<R, P>,
  i: number,
  row: number,
  own: Formula,
): void {
  const { system } = ctx;
  const column = columns[i] as LaidColumn<R, P>;
  const { id, quantity, look } = column;
  const format = shownFormat(column, system);
  const [c, twin] = [placeOf(i), metric(id)];
  const isGuarded = id !== columns[0]?.id && !column.always;
  const guarded = isGuarded ? blankWithout([rowRef(row, 0)], own) : own;
  if (twin === c) {
    putCell(row, i, { formula: guarded, look, format });
    return;
  }
  const shownThere = shownFormula(rowRef(row, twin), quantity as QuantityId, system);
  putCell(row, i, { formula: shownThere, look, format });
  sheet.put(row, twin, { formula: guarded, look: 'computed', format: metricFormat(column) });
}

function putRow<R, P extends RegisterPrefix>(
  layout: RegisterLayout<R, P>,
  i: number,
  n: number,
): void {
  const { sheet, ctx, columns, entries, firstRow, placeOf, metric, atRow, putCell } = layout;
  const { system } = ctx;
  const column = columns[i] as LaidColumn<R, P>;
  const { look } = column;
  const format = shownFormat(column, system);
  const row = firstRow + n;
  const brought = entries[n] === undefined ? undefined : column.given?.(entries[n] as R);
  if (brought !== undefined) {
    putCell(row, i, { value: brought, look, format });
    return;
  }
  if (column.formula) {
    const own = column.formula(atRow(row), n);
    if (own === undefined) putCell(row, i, { look, format });
    else putComputed(layout, i, row, own);
    return;
  }
  putCell(row, i, typedCell(layout, column, n));
  const [c, twin] = [placeOf(i), metric(column.id)];
  if (twin !== c) {
    sheet.put(row, twin, {
      formula: metricFormula(rowRef(row, c), column.quantity as QuantityId, system),
      look: 'computed',
      format: metricFormat(column),
    });
  }
}

function putColumn<R, P extends RegisterPrefix>(layout: RegisterLayout<R, P>, i: number): void {
  const { sheet, ctx, spec, columns, firstRow, rows, below, placeOf, metric } = layout;
  const { system } = ctx;
  const column = columns[i] as LaidColumn<R, P>;
  const { id, quantity } = column;
  const [c, twin] = [placeOf(i), metric(id)];
  if (spec.amid === undefined) sheet.width(c, column.width);
  if (twin !== c) sheet.width(twin, 13);
  const name = `${spec.prefix}_${id}` as PlanName;
  ctx.name(name, sheet.name, area(firstRow, twin, rows + below));
  if (column.total) {
    const total = column.total(named(name));
    sheet.put(spec.headRow - 1, c, {
      formula: quantity ? inShownUnits(total, quantity, system) : total,
      look: 'result',
      format: shownFormat(column, system),
    });
  }
  const rule = shownRule(column, ctx);
  if (rule && column.rule) sheet.rule(area(firstRow, c, rows), rule, column.rule.message);
  for (let n = 0; n < rows; n++) putRow(layout, i, n);
}

/** Says above the register where rows below its prepared ones are not counted. */
function watchBelow<R, P extends RegisterPrefix>(layout: RegisterLayout<R, P>): void {
  const { sheet, spec, columns, firstRow, rows, below, shown } = layout;
  const { headRow, diary } = spec;
  if (diary === undefined) return;
  const says = columns.findIndex(({ id }) => id === 'says');
  const filled = (column: number, among: number): Formula =>
    call('COUNTA', fixedRef(area(firstRow + rows, column, among)));
  sheet.put(headRow - 1, says, {
    formula: blankUnless(filled(shown(diary), ROWS_WATCHED).above(filled(says, below)), UNCOUNTED),
    look: 'verdict',
  });
}

/** What is typed in the register, for reading it back. */
function typedColumns<R, P extends RegisterPrefix>(layout: RegisterLayout<R, P>): void {
  const { sheet, ctx, spec, columns, heads, shown, metric } = layout;
  const { prefix, list, amid } = spec;
  ctx.typed.push({
    kind: 'register',
    sheet: sheet.name,
    list,
    open: amid === undefined,
    columns: columns.flatMap((column, i) => {
      const field = column.field ?? column.typedBefore;
      return field === undefined
        ? []
        : [
            {
              field,
              ...(column.typedBefore !== undefined && { computed: true as const }),
              name: `${prefix}_${column.id}` as PlanName,
              beside: shown(column.id) - metric(column.id),
              label: heads[i] as string,
              holds: holds(column),
              ...(column.quantity && { quantity: column.quantity }),
            },
          ];
    }),
  });
}

/**
 * Writes a register: a head row, the farm's entries, empty prepared rows. In US units each figure that
 * converts has a second column at the right end, which holds it in metric for the functions.
 * A register is the last thing on its sheet: names run on below it, so that rows added by hand count.
 */
export function register<R, P extends RegisterPrefix>(
  sheet: SheetBuilder,
  ctx: PlanContext,
  spec: RegisterSpec<R, P>,
): Register<P> {
  const { prefix, headRow, amid } = spec;
  const layout = registerLayout(sheet, ctx, spec);
  const { columns, converting, firstRow, rows, seen, shown, atRow, heads, metricHeads } = layout;
  if (columns.slice(0, seen).some(({ helper }) => helper))
    throw new Error(`${prefix}: helper columns come last`);
  if (amid === undefined) sheet.fold(seen);
  putCautions(layout);
  putHeads(layout);
  columns.forEach((_, i) => putColumn(layout, i));
  watchBelow(layout);
  typedColumns(layout);
  if (amid === undefined)
    sheet.table({
      name: `${prefix}_register`,
      area: area(headRow, 0, rows + 1, columns.length + converting.length),
      heads: [...heads, ...metricHeads],
    });
  return {
    firstRow,
    rows,
    columns: columns.length + converting.length,
    shown: seen,
    column: shown,
    cells: (id) => area(firstRow, shown(id), rows),
    first: atRow(firstRow),
  };
}
