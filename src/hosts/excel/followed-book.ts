/** The open workbook as the farm is read from it: its file once, then what was edited since. */
import { readArea } from '../../plan/addresses';
import type { BookSnapshot, CellPlace, SheetSnapshot } from '../../plan/book-snapshot';
import type { Area } from '../../plan/workbook-model';

type Values = readonly (readonly (string | number | boolean)[])[];

/** An edit as Excel tells of it; one that moves cells has no area. */
interface Edit {
  readonly sheet: { readonly id: string } | { readonly name: string };
  readonly area: Area | undefined;
}

/** More cells than this are read with the whole file. */
const MAX_CELLS = 5000;

const cellsIn = ({ rows, columns }: Area): number => rows * columns;

interface Block {
  readonly area: Area;
  readonly formulas: Values;
  readonly values: Values;
}

/** A sheet with blocks of its cells otherwise; it grows where they lie beyond it. */
export function withBlocks(sheet: SheetSnapshot, blocks: readonly Block[]): SheetSnapshot {
  const corner = readArea(sheet.from) ?? { row: 0, column: 0 };
  const right = blocks.map(({ area }) => area.column + area.columns);
  const width = Math.max(corner.column + (sheet.values[0]?.length ?? 0), ...right);
  const below = Math.max(0, ...blocks.map(({ area }) => area.row + area.rows));
  const grid = (part: 'formulas' | 'values'): Values => {
    const blank = (count: number): string[] => Array<string>(count).fill('');
    // From the first cell of the sheet on, so that places are what they say.
    const rows = [
      ...Array.from({ length: corner.row }, () => blank(width)),
      ...sheet[part].map((row) => [
        ...blank(corner.column),
        ...row,
        ...blank(width - corner.column - row.length),
      ]),
    ];
    while (rows.length < below) rows.push(blank(width));
    for (const { area, ...read } of blocks)
      read[part].forEach((line, r) =>
        rows[area.row + r]?.splice(area.column, line.length, ...line),
      );
    return rows;
  };
  return { ...sheet, from: 'A1', formulas: grid('formulas'), values: grid('values') };
}

/** Of what Excel tells: of nothing, of edits of cells, or also of what was sorted, computed, added and deleted. */
export type Told = 'nothing' | 'edits' | 'all';

/** Sheets and names, of which no event tells: read in one request. */
async function frameOf({ workbook }: Excel.RequestContext): Promise<string> {
  const names = workbook.names.load('items/name, items/formula');
  const sheets = workbook.worksheets.load('items/name');
  await workbook.context.sync();
  return JSON.stringify([
    sheets.items.map(({ name }) => name),
    names.items.map(({ name, formula }) => [name, formula as string]),
  ]);
}

export class FollowedBook {
  private kept: BookSnapshot | undefined;
  private edits: Edit[] = [];
  /** Of the workbook as it was kept; absent where it does not matter. */
  private frame: string | undefined;
  private isOutdated = false;

  /**
   * @param whole reads the workbook's file
   * @param told of what Excel tells; where it is of nothing, each look reads the file
   */
  constructor(
    private readonly whole: () => Promise<BookSnapshot>,
    private readonly told: () => Told,
  ) {}

  /** Something happened that no edit tells of. */
  forget(): void {
    this.kept = undefined;
    this.edits = [];
  }

  /** Formulas may show something else: what was kept still says what is typed. */
  computed(): void {
    this.isOutdated = true;
  }

  /** Whether the workbook is as it was read, so that reading it again would find nothing else. */
  async isCurrent(context: Excel.RequestContext): Promise<boolean> {
    const isKept = this.kept !== undefined && this.frame !== undefined;
    if (!isKept || this.isOutdated || this.edits.length > 0 || this.told() !== 'all') return false;
    return (await frameOf(context)) === this.frame;
  }

  edited({ worksheetId, address, changeType }: Excel.WorksheetChangedEventArgs): void {
    const moves = (changeType as string) !== 'RangeEdited';
    this.edits.push({ sheet: { id: worksheetId }, area: moves ? undefined : readArea(address) });
  }

  /** What the pane has entered itself, whether or not Excel tells of it. */
  entered(cells: readonly CellPlace[]): void {
    for (const { sheet, row, column } of cells)
      this.edits.push({ sheet: { name: sheet }, area: { row, column, rows: 1, columns: 1 } });
  }

  async read(context: Excel.RequestContext, again: readonly CellPlace[]): Promise<BookSnapshot> {
    const { kept, edits } = this;
    this.edits = [];
    const cells = edits.reduce((sum, { area }) => sum + (area ? cellsIn(area) : Infinity), 0);
    const patched =
      kept && this.told() !== 'nothing' && cells + again.length <= MAX_CELLS
        ? await this.patched(context, kept, edits, again)
        : undefined;
    // What cannot be read now is read as a whole the next time.
    this.kept = undefined;
    if (!patched) {
      this.frame = this.told() === 'all' ? await frameOf(context) : undefined;
      this.isOutdated = false;
    }
    this.kept = patched ?? (await this.whole());
    return this.kept;
  }

  private async patched(
    context: Excel.RequestContext,
    kept: BookSnapshot,
    edits: readonly Edit[],
    again: readonly CellPlace[],
  ): Promise<BookSnapshot | undefined> {
    const { worksheets } = context.workbook;
    worksheets.load('items/id, items/name');
    await context.sync();
    const found = worksheets.items;
    // A sheet that came, went or has another name: all may be elsewhere.
    const sheetNames = new Set(found.map(({ name }) => name));
    if (kept.sheets.some(({ name }) => !sheetNames.has(name))) return undefined;
    const asked = [
      ...edits.flatMap(({ sheet: edited, area }) => {
        const sheet = found.find(({ id, name }) =>
          'id' in edited ? id === edited.id : name === edited.name,
        );
        return sheet && area ? [{ sheet, area }] : [];
      }),
      ...again.flatMap((place) => {
        const sheet = found.find(({ name }) => name === place.sheet);
        const { row, column } = place;
        return sheet ? [{ sheet, area: { row, column, rows: 1, columns: 1 } }] : [];
      }),
    ];
    const ranges = asked.map(({ sheet, area: { row, column, rows, columns } }) =>
      sheet.getRangeByIndexes(row, column, rows, columns).load('formulas, values'),
    );
    await context.sync();
    const blocks = new Map<string, Block[]>();
    asked.forEach(({ sheet: { name }, area }, i) => {
      const { formulas, values } = ranges[i] as Excel.Range;
      const block = { area, formulas: formulas as Values, values: values as Values };
      blocks.set(name, [...(blocks.get(name) ?? []), block]);
    });
    const sheets = new Map(kept.sheets.map((sheet) => [sheet.name, sheet]));
    for (const [name, read] of blocks) {
      const before = sheets.get(name) ?? { name, from: 'A1', formulas: [], values: [] };
      sheets.set(name, withBlocks(before, read));
    }
    return { ...kept, sheets: [...sheets.values()] };
  }
}
