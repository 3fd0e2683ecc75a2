import { changeWorkbook } from '../ooxml/change-workbook';
import type { CellChange } from '../ooxml/cell-changes';
import { Package } from '../ooxml/package';
import { calculateOnOpening } from '../ooxml/spare-parts';
import { readWorkbookParts } from '../ooxml/workbook-parts';
import {
  BookCells,
  type BookSnapshot,
  type CellPlace,
  type FoundCell,
  placeText,
  type SnapshotValue,
} from '../plan/book-snapshot';
import { cellWords, shownValue } from '../why/cell-words';
import { isErrorValue } from '../why/traced-cells';
import { allWithoutFormula, typedOfBook, type TypedPlaces } from './typed-places';

/** What somebody typed into a copy of a workbook, set beside the workbook that it was made from. */

export interface Difference {
  /** The cell in the own workbook. */
  readonly place: CellPlace;
  readonly where: string;
  readonly label: string;
  readonly unit: string;
  readonly was: SnapshotValue;
  readonly now: SnapshotValue;
  readonly shownWas: string;
  readonly shownNow: string;
  /** Why it cannot be taken over; or what to know of it. */
  readonly refused?: string;
  readonly note?: string;
}

export interface Comparison {
  readonly differences: readonly Difference[];
  /** How many typed cells were compared. */
  readonly compared: number;
  /** Places where the copy holds other words or figures outside of its typed cells; they are not taken over. */
  readonly elsewhere: readonly string[];
}

/** The two workbooks have nothing to compare. */
export class NotComparable extends Error {}

const same = (a: SnapshotValue, b: SnapshotValue): boolean =>
  typeof a === 'number' && typeof b === 'number'
    ? Math.abs(a - b) <= 1e-9 * Math.max(1e-12, Math.abs(a), Math.abs(b))
    : a === b;

/** Where a row that the copy has more stands in the own workbook: as far below a known one of its column. */
function placeBelow(key: string, own: TypedPlaces): CellPlace | undefined {
  const [, name, index] = /^(\S+) (\d+)$/.exec(key) ?? [];
  if (name === undefined) return undefined;
  for (let i = Number(index) - 1; i >= 0; i--) {
    const known = own.get(`${name} ${i}`);
    if (known) return { ...known, row: known.row + Number(index) - i };
  }
  return undefined;
}

function differenceOf(
  own: FoundCell,
  back: FoundCell,
  cells: BookCells,
  backCells: BookCells,
): Difference | undefined {
  // What both compute is not typed.
  if (own.formula !== undefined && back.formula !== undefined) return undefined;
  if (own.formula === undefined && same(own.value, back.value)) return undefined;
  const place: CellPlace = { sheet: own.sheet, row: own.row, column: own.column };
  const words = cellWords(place, cells);
  const label = words.label || cellWords(back, backCells).label;
  const format = cells.formatAt(place) ?? backCells.formatAt(back);
  const shown = (value: SnapshotValue): string => shownValue(value, format, words.unit);
  const common = {
    place,
    where: placeText(place),
    label,
    unit: words.unit,
    was: own.value,
    now: back.value,
    shownWas: own.formula === undefined ? shown(own.value) : `${shown(own.value)} (computed)`,
    shownNow: shown(back.value),
  };
  if (isErrorValue(back.value))
    return { ...common, refused: `shows ${String(back.value)}: ask for the figure itself` };
  if (typeof own.value === 'number' && typeof back.value === 'string' && back.value !== '')
    return { ...common, refused: 'holds words where a number stood: ask for the figure' };
  return {
    ...common,
    ...(back.formula !== undefined && {
      note: `a formula was typed (=${back.formula.slice(0, 60)}); its value is taken`,
    }),
  };
}

/** Sets what was typed into a copy beside the own workbook. Throws NotComparable with a sentence. */
export function compareReturned(own: BookSnapshot, back: BookSnapshot): Comparison {
  const [cells, backCells] = [new BookCells(own), new BookCells(back)];
  const [plan, backPlan] = [typedOfBook(cells), typedOfBook(backCells)];
  if ((plan === undefined) !== (backPlan === undefined))
    throw new NotComparable(
      `${plan ? 'The workbook that came back holds' : 'Your own workbook holds'} no plan of Gillbed, the other one does: are these the two that belong together?`,
    );
  const [all, backAll] = [allWithoutFormula(cells), allWithoutFormula(backCells)];
  const shared = cells.sheetNames.filter((name) => backCells.hasSheet(name));
  if (shared.length === 0)
    throw new NotComparable(
      `The two workbooks have no sheet in common (${cells.sheetNames.join(', ')}; ${backCells.sheetNames.join(', ')}).`,
    );
  const typed = plan ?? all;
  const typedBack = backPlan ?? backAll;
  const differences: Difference[] = [];
  let compared = 0;
  for (const [key, found] of typedBack) {
    const beside = typed.get(key) ?? placeBelow(key, typed);
    const ownCell =
      typed.get(key) ?? (beside ? cells.at(beside) : plan ? undefined : cells.at(found));
    if (!ownCell || !cells.hasSheet(ownCell.sheet)) continue;
    compared += 1;
    const difference = differenceOf(ownCell, found, cells, backCells);
    if (difference) differences.push(difference);
  }
  // A row or cell that is gone from the copy was cleared.
  for (const [key, ownCell] of typed) {
    if (typedBack.has(key) || !backCells.hasSheet(ownCell.sheet)) continue;
    compared += 1;
    const blank = { ...ownCell, value: '' as const };
    delete (blank as { formula?: string }).formula;
    const difference = differenceOf(ownCell, blank, cells, backCells);
    if (difference) differences.push(difference);
  }
  const atTyped = new Set([...typed.values()].map(placeText));
  const elsewhere = plan
    ? [...all].flatMap(([key, cell]) => {
        const other = backAll.get(key);
        const isOther = other !== undefined && !same(cell.value, other.value);
        return isOther && !atTyped.has(placeText(cell)) ? [placeText(cell)] : [];
      })
    : [];
  return { differences, compared, elsewhere };
}

/**
 * The own workbook with what was typed into the copy; nothing else of it changes. Throws RefusedChange with a
 * sentence where the file cannot take a change.
 */
export function takenOver(own: Uint8Array, differences: readonly Difference[]): Uint8Array {
  const file = Package.open(own);
  const changes = new Map<string, CellChange[]>();
  for (const { place, now, refused } of differences) {
    if (refused !== undefined) continue;
    const list = changes.get(place.sheet) ?? [];
    changes.set(place.sheet, list);
    list.push({
      row: place.row,
      column: place.column,
      cell: { kind: 'value', value: now === '' ? undefined : now },
    });
  }
  changeWorkbook(file, { cells: changes });
  calculateOnOpening(file, readWorkbookParts(file).part);
  return file.bytes();
}
