import { escapeHtml } from '../reference/html';
import { cellAddress } from '../plan/addresses';
import { BookCells, type BookSnapshot, type CellPlace } from '../plan/book-snapshot';
import { cellWords, shownValue } from '../why/cell-words';

/** The cells of a plan as a report quotes them: every figure with the cell that it stands in. */

/** Part of the plan that a report needs is missing; the sentence says which. */
export class NoReport extends Error {}

export interface Quoted {
  readonly label: string;
  /** HTML of the figure, with its cell. */
  readonly figure: string;
  readonly unit: string;
  readonly remark: string;
}

const FOR_FUNCTIONS = '(for the functions)';

/** A figure as a drawing shows it. */
export interface DrawnFigure {
  readonly text: string;
  readonly unit: string;
  /** "Pumps!F12" */
  readonly where: string;
}

export class ReportCells {
  readonly cells: BookCells;

  constructor(book: BookSnapshot) {
    this.cells = new BookCells(book);
    if (!this.cells.name('Farm_date'))
      throw new NoReport('The workbook holds no plan of Gillbed: no cell is named Farm_date.');
  }

  /** A cell's figure or words as they show, without the unit; blank for nothing. */
  text(place: CellPlace): string {
    const { value } = this.cells.at(place);
    if (value === '') return '';
    return typeof value === 'string' ? value : shownValue(value, this.cells.formatAt(place));
  }

  /** The same as HTML that says which cell it quotes. */
  quote(place: CellPlace): string {
    const text = this.text(place);
    if (text === '') return '';
    const where = `${place.sheet}!${cellAddress(place.row, place.column)}`;
    const isNumber = typeof this.cells.at(place).value === 'number';
    return `<span${isNumber ? ' class="number"' : ''} data-cell="${escapeHtml(where)}">${escapeHtml(text)}</span>`;
  }

  /** The same for a drawing, with its unit; undefined for what is no number. */
  drawn(place: CellPlace): DrawnFigure | undefined {
    if (typeof this.cells.at(place).value !== 'number') return undefined;
    return {
      text: this.text(place),
      unit: cellWords(place, this.cells).unit,
      where: `${place.sheet}!${cellAddress(place.row, place.column)}`,
    };
  }

  /** Where the head of a table's column stands, by the head of its first one; undefined where there is none. */
  headOf(sheet: string, first: string, head: string): CellPlace | undefined {
    const row = this.rowOf(sheet, first, 0);
    if (row === undefined) return undefined;
    for (let column = 0; column < this.cells.width(sheet); column++) {
      const text = this.text({ sheet, row, column });
      if (text.startsWith(head) && !text.endsWith(FOR_FUNCTIONS)) return { sheet, row, column };
    }
    return undefined;
  }

  /** The first cell that a name stands for; undefined where the plan has no such name. */
  named(name: string, row = 0): CellPlace | undefined {
    const found = this.cells.name(name);
    return found && { sheet: found.sheet, row: found.area.row + row, column: found.area.column };
  }

  /** Metric figures of a named column as far as its register is filled. */
  column(name: string): (number | string)[] {
    const found = this.cells.name(name);
    if (!found) return [];
    const { sheet, area } = found;
    return Array.from({ length: Math.min(area.rows, this.cells.end(sheet) - area.row) }, (_, i) => {
      const { value } = this.cells.at({ sheet, row: area.row + i, column: area.column });
      return typeof value === 'boolean' ? '' : value;
    });
  }

  number(name: string): number | undefined {
    const place = this.named(name);
    const value = place && this.cells.at(place).value;
    return typeof value === 'number' ? value : undefined;
  }

  /** The row in which a text stands in a column; undefined where it stands nowhere. */
  private rowOf(sheet: string, text: string, column: number): number | undefined {
    for (let row = 0; row < this.cells.end(sheet); row++)
      if (this.cells.at({ sheet, row, column }).value === text) return row;
    return undefined;
  }

  /**
   * The lines of label, figure, unit and remark below a heading, down to the next blank label; with `gaps` a
   * blank row between two lines does not end them.
   */
  block(sheet: string, heading: string, { gaps = false } = {}): Quoted[] {
    const from = this.rowOf(sheet, heading, 0);
    if (from === undefined) return [];
    const lines: Quoted[] = [];
    for (let row = from + 1; row < this.cells.end(sheet); row++) {
      const place = { sheet, row, column: 0 };
      const label = this.text(place);
      if (label === '') {
        if (gaps && this.text({ ...place, row: row + 1 }) !== '') continue;
        break;
      }
      // A verdict is a formula of its own, over the whole width.
      if (this.cells.at(place).formula !== undefined) {
        lines.push({ label: '', figure: this.quote(place), unit: '', remark: '' });
        continue;
      }
      const figure = this.quote({ ...place, column: 1 });
      const { unit, remark } = cellWords({ ...place, column: 1 }, this.cells);
      lines.push({ label, figure, unit, remark });
    }
    return lines;
  }

  /** A table by the head of its first column, on the first of the sheets that has it: the columns with these heads, each row until the first is blank. */
  table(
    sheets: string | readonly string[],
    first: string,
    heads: readonly string[],
  ): { readonly heads: readonly string[]; readonly rows: readonly (readonly string[])[] } {
    const sheet =
      [sheets].flat().find((sheetName) => this.rowOf(sheetName, first, 0) !== undefined) ?? '';
    const head = this.rowOf(sheet, first, 0);
    if (head === undefined) return { heads: [], rows: [] };
    const columns: number[] = [];
    for (let column = 0; column < this.cells.width(sheet); column++) {
      const text = this.text({ sheet, row: head, column });
      // Figures in metric units beside those that are shown serve formulas alone.
      if (text.endsWith(FOR_FUNCTIONS)) continue;
      if (
        column === 0 ||
        heads.some((heading) => text === heading || text.startsWith(`${heading},`))
      )
        columns.push(column);
    }
    const rows: string[][] = [];
    for (let row = head + 1; row < this.cells.end(sheet); row++) {
      if (this.text({ sheet, row, column: 0 }) === '') break;
      rows.push(columns.map((column) => this.quote({ sheet, row, column })));
    }
    return {
      heads: columns.map((column) => this.text({ sheet, row: head, column })),
      rows,
    };
  }
}
