import type { PlanContext } from './context';
import { type Field, fields, type ShownBeside } from './fields';
import type { Area } from './workbook-model';
import { area, type CellSpec, type SheetBuilder } from './sheet-builder';

interface Strip {
  /** First row, first column, and how many columns it is wide. */
  readonly row: number;
  readonly column?: number;
  readonly columns: number;
  /** Column of the metric figures where the farm's units are others. */
  readonly metricColumn: number;
}

/** Writes a strip of a sheet downwards: whatever is written stands below what was written before. */
export class Flow {
  private next: number;
  private readonly column: number;

  constructor(
    private readonly sheet: SheetBuilder,
    private readonly ctx: PlanContext,
    private readonly strip: Strip,
  ) {
    this.next = strip.row;
    this.column = strip.column ?? 0;
  }

  /** The row that is written next. */
  get row(): number {
    return this.next;
  }

  /** Leaves rows empty, or for what is written by other means; returns the first of them. */
  skip(rows = 1): number {
    const first = this.next;
    this.next += rows;
    return first;
  }

  heading(text: string, columns = this.strip.columns): void {
    this.sheet.heading(this.skip(), this.column, columns, text);
  }

  heads(texts: readonly string[]): void {
    this.sheet.heads(this.skip(), this.column, texts);
  }

  fields(lines: readonly Field[], beside?: ShownBeside): void {
    this.next = fields(
      this.sheet,
      this.ctx,
      this.next,
      this.column,
      lines,
      this.strip.metricColumn,
      beside,
    );
  }

  /** A cell over the whole width; returns where it stands. */
  wide(cell: CellSpec, rows = 1, columns = this.strip.columns): Area {
    const first = this.skip(rows);
    this.sheet.wide(first, this.column, columns, cell, rows);
    return area(first, this.column);
  }

  /** A label, and beside it a cell over the rest of the width; returns where that cell stands. */
  labelled(label: string, cell: CellSpec, rows = 1, columns = this.strip.columns - 1): Area {
    const row = this.skip(rows);
    const name = { value: label, look: 'label' } as const;
    // As high as what stands beside it, so that both are in one line.
    if (rows > 1) this.sheet.wide(row, this.column, 1, name, rows);
    else this.sheet.put(row, this.column, name);
    this.sheet.wide(row, this.column + 1, columns, cell, rows);
    return area(row, this.column + 1);
  }

  /** A remark that runs on over its neighbours. */
  remark(text: string): void {
    this.sheet.text(this.skip(), this.column, text, 'source');
  }
}
