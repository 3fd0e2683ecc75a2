import { cellAddress } from './addresses';
import type { PlanContext } from './context';
import { blankIf, type Condition, type Formula, type Part } from './formula-parts';
import { plainSpillCell } from './live-or-plain';
import type { FormatId, LookId } from './workbook-model';
import type { SheetBuilder } from './sheet-builder';

/** An argument that moves along with the rows: the range for a live call, the cell for a plain one. */
export interface Moving {
  readonly range: Formula;
  readonly cell: (row: number) => Formula;
}

const isMoving = (arg: Part | Moving): arg is Moving => typeof arg === 'object' && 'range' in arg;

interface ColumnPlace {
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly look: LookId;
  readonly format: FormatId;
  /** When the whole column stays blank. */
  readonly blankIf?: Condition;
}

/** One function over a column of rows: one spilling call when live, a formula in each row when plain. */
export function filledColumn(
  sheet: SheetBuilder,
  ctx: PlanContext,
  { row, column, rows, look, format, blankIf: isOpen }: ColumnPlace,
  id: string,
  args: readonly (Part | Moving)[],
): void {
  const guarded = (formula: Formula): Formula => (isOpen ? blankIf(isOpen, formula) : formula);
  for (let i = 0; i < rows; i++) {
    const cell = { look, format };
    if (ctx.mode === 'plain') {
      const given = args.map((arg) => (isMoving(arg) ? arg.cell(i) : arg));
      sheet.put(row + i, column, { ...cell, formula: guarded(ctx.gill(id, ...given)) });
    } else if (i > 0) sheet.put(row + i, column, cell);
    else {
      const given = args.map((arg) => (isMoving(arg) ? arg.range : arg));
      sheet.put(row, column, {
        ...cell,
        formula: guarded(ctx.gill(id, ...given)),
        spill: { rows, columns: 1 },
      });
    }
  }
}

interface BlockPlace {
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: readonly { readonly look: LookId; readonly format: FormatId }[];
  /** Format of single rows, over that of their column. */
  readonly formatOf?: (row: number, column: number) => FormatId | undefined;
  /** When the whole block stays blank. */
  readonly blankIf?: Condition;
}

/** A spilling function: one call when live, a formula in each cell when plain. */
export function spilledBlock(
  sheet: SheetBuilder,
  ctx: PlanContext,
  { row, column, rows, columns, formatOf, blankIf: isOpen }: BlockPlace,
  id: string,
  args: readonly Part[],
): void {
  const address = (r: number, c: number): string => cellAddress(row + r, column + c);
  const guarded = (formula: Formula): Formula => (isOpen ? blankIf(isOpen, formula) : formula);
  for (let r = 0; r < rows; r++) {
    columns.forEach(({ look, format }, c) => {
      const cell = { look, format: formatOf?.(r, c) ?? format };
      if (ctx.mode === 'plain') {
        const formula = plainSpillCell(id, args, r, c, address);
        sheet.put(row + r, column + c, { ...cell, formula: guarded(formula) });
      } else if (r > 0 || c > 0) sheet.put(row + r, column + c, cell);
      else {
        sheet.put(row, column, {
          ...cell,
          formula: guarded(ctx.gill(id, ...args)),
          spill: { rows, columns: columns.length },
        });
      }
    });
  }
}
