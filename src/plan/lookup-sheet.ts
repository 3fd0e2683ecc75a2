import type { CautionId } from '../functions/cautions';
import type { FigureRange, LookupMatrix, LookupTable } from '../functions/lookup';
import { unitWord } from '../functions/unit-word';
import { part, when } from './formula-parts';
import type { Area, CellModel, NameModel, SheetModel, ValidationModel } from './workbook-model';
import type { SwitchedFigures } from './own-figure-formulas';
import { type OwnFigures, ownFigure, ownLine, rangeOfFigure } from './own-figures';
import { rowRef } from './references';
import { cautionCell, LABELS } from './sheet-builder';

/** A table that formulas look things up in, as a sheet with the names that they use. */
export interface LookupSheet {
  readonly sheet: SheetModel;
  readonly names: readonly NameModel[];
}

const TITLE = 0;
const QUESTION = 1;
const CAPTIONS = 2;
const HEADS = 3;
const UNITS = 4;
const FIRST = 5;
const NAME_WIDTH = LABELS;
const TEXT_WIDTH = { min: 10, max: 250 };
const NUMBER_WIDTH = 12;

/** What the names of columns end with that say where a figure comes from. */
const SOURCE = /_source$/;

const FOLLOWS =
  'The sheet Own figures says which counts: the table’s figure, the farm’s own or the one between both. A figure typed here counts before it.';

interface Column {
  readonly width: number;
  readonly cells: ReadonlyMap<number, CellModel>;
}

/** Characters side by side that are still easily read on a landscape page. */
const PAGE_WIDTH = 185;

interface Part {
  readonly column: number;
  readonly columns: number;
}

/**
 * Parts of columns side by side, each as wide as a page holds with the names, which each repeats. None is of one column
 * alone, which programs do not make smaller where it is too wide beside the names.
 */
function pageParts(columns: readonly Column[], from: number, to: number): Part[] {
  const width = (column: number): number => columns[column]?.width ?? 0;
  const begins: number[] = [];
  let used = 0;
  for (let column = from; column < to; column++) {
    used += width(column);
    if (column > from && used <= PAGE_WIDTH) continue;
    const before = begins.at(-1) ?? from;
    const alone = column < to - 1 && width(0) + width(column) + width(column + 1) > PAGE_WIDTH;
    const begin = alone && column > before + 2 ? column - 1 : column;
    begins.push(begin);
    used = (column > 0 ? width(0) : 0) + width(column);
  }
  return begins.map((column, i) => ({ column, columns: (begins[i + 1] ?? to) - column }));
}

/** A figure of a block, as large as the share in a cell beside it. */
export const shareFormula = (figure: number, row: number, column: number): string =>
  part(figure).times(rowRef(row, column)).text;

/** Room for the longest text, in characters of which letters are somewhat narrower than figures. */
const widthOf = (values: readonly (number | string)[]): number =>
  Math.min(
    TEXT_WIDTH.max,
    Math.max(TEXT_WIDTH.min, ...values.map((value) => Math.ceil(String(value).length * 0.95) + 2)),
  );

/** Heads break into lines between their words alone. */
const headWidth = (head: string): number =>
  Math.max(...head.split(' ').map((word) => word.length)) + 2;

const isText = (value: number | string): value is string => typeof value === 'string';

/**
 * Lays out a table: a line for each row, the columns of figures first, then the blocks of figures by head
 * value, then every known spelling with the row it stands for. The figures are defaults, to be overwritten
 * by whoever knows better.
 */
export function lookupSheet<R>(
  table: LookupTable<R>,
  text: {
    readonly title: string;
    readonly question: string;
    /** What to beware of, over the columns beside the names. */
    readonly cautions?: readonly CautionId[];
  },
  own?: OwnFigures,
  /** Own head values of the blocks, in place of the table's. */
  ownHeads?: readonly number[],
  /** Figures that follow the farm's own ones, as long as nothing is typed in their cells. */
  switched: SwitchedFigures = () => undefined,
  /** Whether blocks go with the facts of their line by formulas, so that the sheet stands as it is laid out here. */
  follows = false,
): LookupSheet {
  const columns: Column[] = [];
  const names: NameModel[] = [];
  /** What a block of columns holds, above its first. */
  const captions = new Map<number, CellModel>();
  const name = (part: string, area: Area): void => {
    names.push({ name: `${table.prefix}_${part}`, sheet: table.sheet, area });
  };
  const validations: ValidationModel[] = [];
  /** Where somebody types a figure of their own. */
  const bounded = (area: Area, range: FigureRange, unit: string): void => {
    const [min, max] = range;
    const message = `Type ${rangeOfFigure(range, unit)}.`;
    validations.push({ area, rule: { kind: 'number', min, max }, message });
  };
  const add = (
    head: string,
    unit: string,
    values: readonly (number | string)[],
    look: CellModel['look'],
    unitCell: CellModel = { value: unitWord(unit), look: 'unit' },
    cellOf: (value: number | string, row: number) => CellModel = (value) => ({ value, look }),
  ): number => {
    const textual = values.some(isText);
    columns.push({
      width:
        look === 'label'
          ? NAME_WIDTH
          : Math.max(textual ? widthOf(values) : NUMBER_WIDTH, headWidth(head)),
      cells: new Map<number, CellModel>([
        [HEADS, { value: head, look: 'columnHead' }],
        [UNITS, unitCell],
        ...values.map((value, i): [number, CellModel] => [FIRST + i, cellOf(value, i)]),
      ]),
    });
    return columns.length - 1;
  };
  const body = (column: number, width = 1, rows = table.rows.length): Area => ({
    row: FIRST,
    column,
    rows,
    columns: width,
  });

  /** The cell of a figure, or of its source, that follows the farm's own one. */
  const followed = (row: string, fact: string, value: number | string): CellModel | undefined => {
    const figure = fact.replace(SOURCE, '');
    if (own?.[row]?.[figure] !== undefined) return undefined;
    const follows = switched(row, figure);
    if (follows === undefined) return undefined;
    return figure === fact
      ? { formula: follows.counts.text, look: 'computed', note: FOLLOWS }
      : {
          formula: when(follows.source.isFilled, follows.source, String(value)).text,
          look: 'source',
        };
  };

  /** Of each line what its block is to the table's, by what its facts are to the table's. */
  const shareColumn = ({ facts, label, note }: Required<LookupMatrix<R>>['goesWith']): number => {
    const parts = facts.map((fact) => {
      const place = table.columns.findIndex((column) => column.fact === fact);
      return { column: 1 + place, of: table.columns[place]?.of };
    });
    return add(
      label,
      '',
      table.rows.map(() => 1),
      'computed',
      undefined,
      (_, row) => ({
        formula: parts
          .map(({ column, of }) => {
            const cell = rowRef(FIRST + row, column);
            return when(cell.isBlank, 1, cell.over(Number(of?.(table.rows[row] as R))));
          })
          .reduce((product, factor) => product.times(factor)).text,
        look: 'computed',
        format: 'two',
        ...(row === 0 && { note }),
      }),
    );
  };

  name('name', body(add('Name', '', table.rows.map(table.nameOf), 'label')));
  for (const column of table.columns) {
    const look = table.rows.map(column.of).every(isText) ? 'source' : 'preset';
    const values = table.rows.map((row) => ownFigure(own, table.nameOf(row), column, row));
    const cellOf = (value: number | string, i: number): CellModel =>
      followed(table.nameOf(table.rows[i] as R), column.fact, value) ?? { value, look };
    const area = body(add(column.label, column.unit, values, look, undefined, cellOf));
    name(column.fact, area);
    if (column.range) bounded(area, column.range, column.unit);
  }
  name('facts', body(columns.length - table.columns.length, table.columns.length));
  for (const matrix of table.matrices) {
    const lines = table.rows.map((row) => ownLine(own, table.nameOf(row), matrix, row));
    const heads = ownHeads ? { ...matrix.heads, values: ownHeads } : matrix.heads;
    const share = follows && matrix.goesWith ? shareColumn(matrix.goesWith) : undefined;
    const from = columns.length;
    heads.values.forEach((head, i) => {
      const line = lines.map((values) => values[i] as number);
      const cellOf = (value: number | string, row: number): CellModel =>
        share === undefined ||
        own?.[table.nameOf(table.rows[row] as R)]?.[matrix.fact] !== undefined
          ? { value, look: 'preset' }
          : { formula: shareFormula(Number(value), FIRST + row, share), look: 'preset' };
      const headCell: CellModel = { value: head, look: 'preset' };
      add(`${heads.label}, ${heads.unit}`, '', line, 'preset', headCell, cellOf);
    });
    captions.set(from, { value: matrix.label, look: 'text' });
    const count = heads.values.length;
    const headRow = (column: number, columns: number): Area => ({
      row: UNITS,
      column,
      rows: 1,
      columns,
    });
    name(heads.fact, headRow(from, count));
    name(matrix.fact, body(from, count));
    if (matrix.range) bounded(body(from, count), matrix.range, matrix.unit);
    // Left and right ends of the straight lines between head values.
    name(`${heads.fact}_low`, headRow(from, count - 1));
    name(`${heads.fact}_high`, headRow(from + 1, count - 1));
    name(`${matrix.fact}_low`, body(from, count - 1));
    name(`${matrix.fact}_high`, body(from + 1, count - 1));
  }
  const spellings = table.spellings.length;
  const keys = add(
    'Known spelling',
    '',
    table.spellings.map(([key]) => key),
    'source',
  );
  const rows = add(
    'Its row',
    '',
    table.spellings.map(([, row]) => row),
    'source',
  );
  name('key', body(keys, 1, spellings));
  name('row', body(rows, 1, spellings));

  const blocks = 1 + table.columns.length;
  // Ranges, sources and spellings are looked up on the screen.
  const printed = [...pageParts(columns, 0, 1 + table.daily), ...pageParts(columns, blocks, keys)];
  const merges: Area[] = [];
  if (text.cautions) {
    // On the first of the printed pages.
    const last = printed[0]?.columns ?? 2;
    for (let column = 1; column < last; column++) captions.set(column, { look: 'caution' });
    captions.set(1, cautionCell(text.cautions));
    merges.push({ row: CAPTIONS, column: 1, rows: 1, columns: last - 1 });
  }
  const height = FIRST + Math.max(table.rows.length, spellings);
  return {
    names,
    sheet: {
      name: table.sheet,
      question: text.question,
      columnWidths: columns.map(({ width }) => width),
      rows: Array.from({ length: height }, (_, row): (CellModel | undefined)[] => {
        // Beside the names, which stay in sight and would cut it off.
        if (row === TITLE) return [undefined, { value: text.title, look: 'title' }];
        if (row === QUESTION) return [undefined, { value: text.question, look: 'lead' }];
        if (row === CAPTIONS) return columns.map((_, column) => captions.get(column));
        return columns.map(({ cells }) => cells.get(row));
      }),
      merges,
      tables: [],
      validations,
      conditions: [],
      charts: [],
      frozen: { rows: FIRST, columns: 1 },
      print: {
        landscape: true,
        headRows: FIRST,
        areas: printed.map((part) => ({ row: 0, rows: FIRST + table.rows.length, ...part })),
      },
    },
  };
}
