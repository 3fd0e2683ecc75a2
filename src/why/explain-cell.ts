import type { Card } from '../functions/card';
import { type BookCells, type CellPlace, placeText } from '../plan/book-snapshot';
import { areaAddress } from '../plan/addresses';
import { cellWords, shownCell } from './cell-words';
import {
  areaLabel,
  type CallWords,
  type Evaluate,
  type FormulaWords,
  formulaWords,
} from './formula-words';
import { leafOf } from './leaf';
import type { PlanFacts } from './plan-facts';
import {
  filledCells,
  firstOf,
  isErrorValue,
  isSingle,
  type SheetArea,
  type TracedCell,
  tracedCell,
  treeOf,
} from './traced-cells';

/** A workbook that somebody asks about. */
export interface AskedBook {
  readonly cells: BookCells;
  readonly facts: PlanFacts;
  readonly evaluate: Evaluate;
}

/** Cells that a formula read at one place of it. */
export interface Read {
  readonly area: SheetArea;
  readonly label: string;
  /** "Balance!B5", "Beds!Q6:Q259". */
  readonly where: string;
  readonly name?: string;
  /** The figure, or what is in the cells. */
  readonly shown: string;
  /** What it is: "computed", "typed", "from the table Crops: …". */
  readonly kind: string;
  /** Computed cells of it to go on with: one of each kind of formula. */
  readonly next: readonly CellPlace[];
}

/** One computed cell of a chain. */
export interface Step {
  readonly place: CellPlace;
  readonly where: string;
  readonly name?: string;
  readonly label: string;
  readonly shown: string;
  /** As it stands in the cell. */
  readonly formula: string;
  /** The cell whose formula fills this one too. */
  readonly filledFrom?: string;
  readonly words: string;
  readonly because: readonly string[];
  readonly calls: readonly CallWords[];
  /** Functions that the formula says with the spreadsheet's own functions. */
  readonly writtenOut: readonly string[];
  /** Cards on whose figures or steps the formula rests. */
  readonly rests: readonly Card[];
  readonly reads: readonly Read[];
  readonly remark: string;
  readonly lost: readonly string[];
}

/** Formulas of a column that differ by their row alone are of one kind. */
export const kindOf = ({ sheet, column, formula = '' }: TracedCell): string =>
  `${sheet}!${column}:${formula.replace(/\d+/g, '#')}`;

const count = (many: number, singular: string, more = `${singular}s`): string =>
  `${many} ${many === 1 ? singular : more}`;

/** What is in a block of cells. */
function blockShown(filled: readonly TracedCell[]): string {
  const numbers = filled.flatMap(({ value }) => (typeof value === 'number' ? [value] : []));
  const errors = filled.filter(({ value }) => isErrorValue(value)).length;
  const words = filled.filter(({ value }) => typeof value === 'string' && value !== '').length;
  const blank = filled.filter(({ value }) => value === '').length;
  const total = numbers.reduce((sum, value) => sum + value, 0);
  return (
    [
      numbers.length > 0 &&
        `${count(numbers.length, 'number')}, together ${total.toLocaleString('en-GB', { maximumSignificantDigits: 6 })}`,
      words - errors > 0 && count(words - errors, 'cell of words', 'cells of words'),
      errors > 0 && count(errors, 'error'),
      blank > 0 && `${count(blank, 'cell')} that show nothing`,
    ]
      .filter(Boolean)
      .join('; ') || 'blank'
  );
}

const MAX_KINDS = 4;

/** What was found of a block: thousands of formulas read the same ones. */
const known = new WeakMap<AskedBook, Map<string, Read>>();

function readOf(area: SheetArea, book: AskedBook): Read {
  const reads = known.get(book) ?? new Map<string, Read>();
  known.set(book, reads);
  const key = `${area.name ?? ''} ${area.sheet}!${areaAddress(area.area)}`;
  const read = reads.get(key) ?? freshRead(area, book);
  reads.set(key, read);
  return read;
}

function freshRead(area: SheetArea, { cells, facts }: AskedBook): Read {
  const where = `${area.sheet}!${areaAddress(area.area)}`;
  const label = areaLabel(area, cells);
  if (isSingle(area)) {
    const place = firstOf(area);
    const cell = tracedCell(place, cells);
    const name = area.name ?? cells.nameOf(place);
    const kind = cell.formula === undefined ? leafOf(cell, cells, facts.typed).says : 'computed';
    return {
      area,
      label,
      where,
      ...(name !== undefined && { name }),
      shown: shownCell(place, cells),
      kind,
      next: cell.formula === undefined ? [] : [cell],
    };
  }
  const filled = filledCells(area, cells);
  const computed = filled.filter(({ formula }) => formula !== undefined);
  const kinds = new Map<string, TracedCell>();
  for (const cell of computed) {
    const kind = kindOf(cell);
    const known = kinds.get(kind);
    // A cell that holds something says more than one that is blank.
    if (!known || (known.value === '' && cell.value !== '')) kinds.set(kind, cell);
  }
  const leaves = filled.filter(({ formula }) => formula === undefined);
  const says = new Set(leaves.map((cell) => leafOf(cell, cells, facts.typed).says));
  const typed =
    says.size > 2
      ? `${[...says].slice(0, 2).join('; ')}; and ${says.size - 2} more kinds`
      : [...says].join('; ');
  const kind = [
    computed.length > 0 && `${count(computed.length, 'cell')} computed`,
    leaves.length > 0 && (computed.length > 0 ? `${leaves.length} ${typed}` : typed),
  ]
    .filter(Boolean)
    .join(', ');
  const all = [...kinds.values()];
  const filledFirst = [
    ...all.filter(({ value }) => value !== ''),
    ...all.filter(({ value }) => value === ''),
  ];
  return {
    area,
    label,
    where,
    ...(area.name !== undefined && { name: area.name }),
    shown: blockShown(filled),
    kind: kind || 'blank',
    next: filledFirst.slice(0, MAX_KINDS),
  };
}

/** One cell in words; undefined where no formula fills it. */
export function explainCell(place: CellPlace, book: AskedBook): Step | undefined {
  const { cells, facts, evaluate } = book;
  const cell = tracedCell(place, cells);
  const { formula, filledFrom } = cell;
  if (formula === undefined) return undefined;
  const found = facts.recovered(formula);
  const tree = treeOf(found.formula) ?? treeOf(formula);
  const from = filledFrom ?? place;
  const offset = { row: place.row - from.row, column: place.column - from.column };
  const words: FormulaWords = tree
    ? formulaWords(tree, from, cells, evaluate, offset)
    : { words: `=${formula}`, because: [], calls: [], reads: [], lost: [formula] };
  const { label, remark } = cellWords(place, cells);
  const name = cells.nameOf(place);
  return {
    place,
    where: placeText(place),
    ...(name !== undefined && { name }),
    label,
    shown: shownCell(place, cells),
    formula,
    ...(filledFrom && { filledFrom: placeText(filledFrom) }),
    words: words.words,
    because: words.because,
    calls: words.calls,
    writtenOut: words.calls.flatMap(({ card }) => (found.calls.has(card) ? [card.id] : [])),
    rests: found.rests.filter((card) => !words.calls.some((call) => call.card === card)),
    reads: words.reads.map((area) => readOf(area, book)),
    remark,
    lost: words.lost,
  };
}

/** Steps from a cell to what is typed, nearest first; each kind of formula of a column once. */
export function chainOf(place: CellPlace, book: AskedBook): Step[] {
  const steps: Step[] = [];
  const seen = new Set<string>();
  let level: readonly CellPlace[] = [place];
  while (level.length > 0) {
    const following: CellPlace[] = [];
    for (const at of level) {
      const kind = kindOf(tracedCell(at, book.cells));
      if (seen.has(kind)) continue;
      seen.add(kind);
      const step = explainCell(at, book);
      if (!step) continue;
      steps.push(step);
      following.push(...step.reads.flatMap(({ next }) => next));
    }
    level = following;
  }
  return steps;
}
