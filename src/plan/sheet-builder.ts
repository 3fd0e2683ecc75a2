import { type CautionId, cautions } from '../functions/cautions';
import type { Condition, Formula } from './formula-parts';
import type {
  Area,
  CellModel,
  ChartModel,
  ConditionModel,
  LookId,
  SheetModel,
  TableModel,
  ValidationModel,
} from './workbook-model';

interface Layout {
  readonly title: string;
  readonly question: string;
  readonly widths: readonly number[];
  readonly landscape?: boolean;
  /** Rows that stay in sight, unless `flowing`, and are repeated on each printed page. */
  readonly headRows?: number;
  /** Nothing stays in sight: the heads are too far down for a small screen. */
  readonly flowing?: true;
  readonly headColumns?: number;
}

/** Widths of a column of labels and of the figures beside them: a small telephone shows both. */
export const LABELS = 22;
export const FIGURES = 12;

/** A cell as a sheet writes it. */
export interface CellSpec extends Omit<CellModel, 'formula'> {
  readonly formula?: Formula;
}

/** Cautions of the trade, each on lines of its own. */
export const cautionCell = (ids: readonly CautionId[]) => ({
  value: ids.map((id) => cautions[id]).join('\n'),
  look: 'caution' as const,
});

/** Fills one sheet cell by cell; title in the first row, the question it answers in the second. */
export class SheetBuilder {
  private readonly rows: (CellModel | undefined)[][] = [];
  private readonly merges: Area[] = [];
  private readonly tables: TableModel[] = [];
  private readonly validations: ValidationModel[] = [];
  private readonly conditions: ConditionModel[] = [];
  private readonly charts: ChartModel[] = [];
  private widths: number[];
  private foldedFrom: number | undefined;
  private repeated: { headFrom: number; headRows: number } | undefined;
  private pages: readonly Area[] | undefined;

  constructor(
    readonly name: string,
    private readonly layout: Layout,
  ) {
    this.widths = [...layout.widths];
    // Beside a column that stays in sight: a frozen one cuts off what runs over its edge.
    const column = layout.headColumns ?? 0;
    this.text(0, column, layout.title, 'title');
    this.text(1, column, layout.question, 'lead');
  }

  put(row: number, column: number, cell: CellSpec): void {
    while (this.rows.length <= row) this.rows.push([]);
    const cells = this.rows[row] as (CellModel | undefined)[];
    if (cells[column])
      throw new Error(`${this.name}: row ${row + 1}, column ${column + 1} is taken`);
    // The search also has the engine lay the formula out in one piece: left in the pieces that it was joined
    // from, it takes several times the memory and a third of a large plan's time.
    const { formula: typed, ...rest } = cell;
    const formula = typed?.text;
    if (formula?.includes('\0'))
      throw new Error(
        `${this.name}: a formula of row ${row + 1} holds a character that no file can`,
      );
    cells[column] = formula === undefined ? rest : { ...rest, formula };
  }

  text(row: number, column: number, value: string, look: LookId): void {
    this.put(row, column, { value, look });
  }

  /** A text that runs over several columns and, where `rows` is given, lines. */
  wide(row: number, column: number, columns: number, cell: CellSpec, rows = 1): void {
    this.put(row, column, cell);
    for (let r = row; r < row + rows; r++) {
      for (let c = column; c < column + columns; c++) {
        if (r !== row || c !== column) this.put(r, c, { look: cell.look });
      }
    }
    this.merges.push({ row, column, rows, columns });
  }

  /** Cautions over several columns of one row. */
  cautions(row: number, column: number, columns: number, ids: readonly CautionId[]): void {
    this.wide(row, column, columns, cautionCell(ids));
  }

  heading(row: number, column: number, columns: number, value: string): void {
    this.put(row, column, { value, look: 'heading' });
    for (let c = column + 1; c < column + columns; c++) this.put(row, c, { look: 'heading' });
  }

  heads(row: number, column: number, texts: readonly string[]): void {
    texts.forEach((value, i) => this.put(row, column + i, { value, look: 'columnHead' }));
  }

  width(column: number, characters: number): void {
    while (this.widths.length <= column) this.widths.push(10);
    this.widths[column] = characters;
  }

  /** Folds away what stands from `column` on: it serves formulas alone, and does not go on paper. */
  fold(column: number): void {
    this.foldedFrom = column;
  }

  /** Repeats these rows on each page after their own, in place of the first ones. */
  repeat(headFrom: number, headRows: number): void {
    this.repeated = { headFrom, headRows };
  }

  /** Prints these parts alone, each on pages of its own. */
  printOnPages(pages: readonly Area[]): void {
    this.pages = pages;
  }

  table(table: TableModel): void {
    this.tables.push(table);
  }

  rule(area: Area, rule: ValidationModel['rule'], message: string): void {
    this.validations.push({ area, rule, message });
  }

  mark(area: Area, condition: Condition, mark: ConditionModel['mark']): void {
    this.conditions.push({ area, formula: condition.text, mark });
  }

  chart(chart: ChartModel): void {
    this.charts.push(chart);
  }

  /** First row that holds nothing yet. */
  get nextRow(): number {
    return this.rows.length;
  }

  model(): SheetModel {
    const { question, landscape = false, headRows = 0, headColumns = 0 } = this.layout;
    const { flowing } = this.layout;
    const from = this.foldedFrom;
    const end = Math.max(this.widths.length, ...this.rows.map((cells) => cells.length));
    return {
      name: this.name,
      question,
      columnWidths: this.widths,
      rows: this.rows,
      merges: this.merges,
      tables: this.tables,
      validations: this.validations,
      conditions: this.conditions,
      charts: this.charts,
      ...(from !== undefined && end > from && { folded: { column: from, columns: end - from } }),
      frozen: { rows: flowing ? 0 : headRows, columns: headColumns },
      print: {
        landscape,
        headRows,
        ...this.repeated,
        ...(this.pages && { areas: this.pages }),
      },
    };
  }
}

export const area = (row: number, column: number, rows = 1, columns = 1): Area => ({
  row,
  column,
  rows,
  columns,
});

/** Parts of a sheet, from the first column on, each of which begins in one of these rows and ends before the next. */
export const pagesFrom = (begins: readonly number[], end: number, columns: number): Area[] =>
  begins.map((from, i) => area(from, 0, (begins[i + 1] ?? end) - from, columns));
