import { translateFormulaToA1, translateFormulaToR1C1 } from '@borgar/fx';
import { placeAddress, readArea, type Place } from '../plan/addresses';
import type { Area } from '../plan/workbook-model';
import type { Package } from './package';
import { childNamed, childrenNamed, type XmlElement } from './read-xml';
import { UnreadableFile } from './unreadable-file';

export interface SheetCell extends Place {
  readonly element: XmlElement;
  /** Formula text without "=", that of a shared formula already moved to this cell. */
  readonly formula?: string;
  /** The block that an array or spilling formula fills. */
  readonly area?: Area;
  /** True where the formula is stored for several cells at once (shared formulas of the format). */
  readonly shared: boolean;
  /** The stored value as the file has it, and its type attribute. */
  readonly value?: string;
  readonly type: string;
}

export interface SheetRow {
  readonly row: number;
  readonly element: XmlElement;
  readonly cells: readonly SheetCell[];
}

export interface SheetCells {
  readonly xml: string;
  readonly root: XmlElement;
  readonly sheetData: XmlElement;
  readonly rows: readonly SheetRow[];
}

interface SharedMaster extends Place {
  readonly formula: string;
}

/** As far as a sheet of the format reaches. */
const MAX_ROWS = 1_048_576;
const MAX_COLUMNS = 16_384;

/** The cell that an address names; undefined where a sheet has no such cell. */
function placeOf(address: string | undefined): Place | undefined {
  const area = address === undefined ? undefined : readArea(address);
  if (!area) return undefined;
  const { row, column } = area;
  return row >= 0 && row < MAX_ROWS && column < MAX_COLUMNS ? { row, column } : undefined;
}

function rowOf(number: string | undefined): number | undefined {
  const row = Number(number) - 1;
  return Number.isInteger(row) && row >= 0 && row < MAX_ROWS ? row : undefined;
}

/**
 * Reads the cells of a sheet part with their places in its text. A cell without an address, or with one that no
 * sheet has, stands behind the one before it.
 */
export function readSheetCells(file: Package, part: string): SheetCells {
  const root = file.root(part);
  const sheetData = childNamed(root, 'sheetData');
  if (!sheetData) throw new UnreadableFile(`The file is damaged: ${part} holds no cells.`);
  const masters = new Map<string, SharedMaster>();
  let nextRow = 0;
  const rows = childrenNamed(sheetData, 'row').map((element): SheetRow => {
    const row = rowOf(element.attributes['r']) ?? nextRow;
    nextRow = row + 1;
    let nextColumn = 0;
    const cells = childrenNamed(element, 'c').map((cell): SheetCell => {
      const place = placeOf(cell.attributes['r']) ?? { row, column: nextColumn };
      nextColumn = place.column + 1;
      const f = childNamed(cell, 'f');
      const value = childNamed(cell, 'v')?.text;
      const shared = f?.attributes['t'] === 'shared';
      let formula = f?.text === '' ? undefined : f?.text;
      if (f && shared) {
        const index = f.attributes['si'] ?? '';
        if (formula !== undefined)
          masters.set(index, { row: place.row, column: place.column, formula });
        const master = masters.get(index);
        if (formula === undefined && master) formula = translated(master.formula, master, place);
      }
      return {
        row: place.row,
        column: place.column,
        element: cell,
        shared,
        type: cell.attributes['t'] ?? 'n',
        ...(formula !== undefined && { formula }),
        ...(f?.attributes['t'] === 'array' && {
          area: readArea(f.attributes['ref'] ?? '') ?? { ...place, rows: 1, columns: 1 },
        }),
        ...(value !== undefined && { value }),
      };
    });
    return { row, element, cells };
  });
  return { xml: file.text(part), root, sheetData, rows };
}

/** A formula as it reads in another cell: relative references move along. */
export const translated = (formula: string, from: Place, to: Place): string =>
  String(
    translateFormulaToA1(translateFormulaToR1C1(formula, placeAddress(from)), placeAddress(to)),
  );
