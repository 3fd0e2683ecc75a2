import type { Card } from '../functions/card';
import { BookCells, type BookSnapshot, type CellPlace, placeText } from '../plan/book-snapshot';
import { readArea, splitSheet } from '../plan/addresses';
import { type AskedBook, chainOf, explainCell, type Step } from './explain-cell';
import { type Evaluate } from './formula-words';
import { leafOf } from './leaf';
import { type Movers, moversOf, type Recalculated } from './movers';
import { planFacts, type PlanFacts } from './plan-facts';
import { reachOf } from './reach';
import { cellWords, shownCell } from './cell-words';
import { moversSection, type Section, stepSection } from './why-lines';
import { storedEvaluation } from './stored-evaluation';
import { filledCells, firstOf, isSingle, keyOf, type SheetArea, tracedCell } from './traced-cells';

/** Why a number stands in a cell of a workbook. */

/** Computes the cells at these places anew; given by whoever has an engine. */
export type Recalculator = (
  cells: BookCells,
  places: readonly CellPlace[],
) => Recalculated & { evaluate: Evaluate };

export interface Why {
  readonly place: CellPlace;
  /** The cell with its words and figure. */
  readonly title: string;
  readonly steps: readonly Step[];
  readonly movers?: Movers;
  readonly notes: readonly string[];
}

/** A cell that cannot be asked about; the sentence says why. */
export class NoSuchCell extends Error {}

/** "Balance!B8", "B8" where there is one sheet, or a defined name. Throws NoSuchCell. */
export function placeNamed(text: string, cells: BookCells): CellPlace {
  const known = cells.name(text.trim());
  if (known) {
    const { sheet, area } = known;
    if (area.rows * area.columns > 1)
      throw new NoSuchCell(
        `${known.name} stands for ${area.rows * area.columns} cells of ${sheet}; name one, such as ${placeText({ sheet, row: area.row, column: area.column })}.`,
      );
    return { sheet, row: area.row, column: area.column };
  }
  const { sheet, address } = splitSheet(text.trim());
  const area = readArea(address);
  const only = cells.sheetNames.length === 1 ? cells.sheetNames[0] : undefined;
  const on = sheet ?? only;
  if (!area || on === undefined)
    throw new NoSuchCell(
      `"${text}" is no cell and no name of this workbook; write it like "${cells.sheetNames[0] ?? 'Sheet1'}!B8".`,
    );
  const name = cells.sheetNames.find((one) => one.toLowerCase() === on.toLowerCase());
  if (name === undefined)
    throw new NoSuchCell(
      `There is no sheet "${on}"; the sheets are ${cells.sheetNames.join(', ')}.`,
    );
  if (area.rows * area.columns > 1)
    throw new NoSuchCell(`${text} is more than one cell; ask about one of them.`);
  return { sheet: name, row: area.row, column: area.column };
}

/** Everything about a workbook that stays the same from question to question. */
export interface Asked {
  readonly cells: BookCells;
  readonly facts: PlanFacts;
}

export const askedOf = (book: BookSnapshot): Asked => ({
  cells: new BookCells(book),
  facts: planFacts(book),
});

/** Cells that are followed one by one to find out what a figure rests on. */
const MOST_FOLLOWED = 500;

/**
 * The places with those in front that the figure was made of, the way its formulas went: cells that were read by
 * themselves, the nearest first, then those of blocks.
 */
function nearestFirst(places: readonly CellPlace[], from: CellPlace, book: AskedBook): CellPlace[] {
  const rank = new Map<string, number>([[keyOf(from), 0]]);
  const blocks: SheetArea[] = [];
  const open = [from];
  for (let at = 0; at < open.length && at < MOST_FOLLOWED; at++) {
    for (const { area } of explainCell(open[at] as CellPlace, book)?.reads ?? []) {
      const place = firstOf(area);
      if (!isSingle(area)) blocks.push(area);
      else if (!rank.has(keyOf(place))) {
        rank.set(keyOf(place), rank.size);
        open.push(place);
      }
    }
  }
  for (const cell of blocks.flatMap((area) => filledCells(area, book.cells))) {
    if (!rank.has(keyOf(cell))) rank.set(keyOf(cell), rank.size);
  }
  const of = (place: CellPlace): number => rank.get(keyOf(place)) ?? rank.size;
  return [...places].sort((a, b) => of(a) - of(b));
}

interface Wanted {
  /** Whether to compute what would change it, which takes longest. */
  readonly movers: boolean;
}

/**
 * The chain behind a cell, and what would change it. `recalculator` may throw a sentence; without one, which way
 * a formula went is worked out from what the cells show, and nothing is computed anew.
 */
export function why(
  place: CellPlace,
  { cells, facts }: Asked,
  recalculator: Recalculator | undefined,
  { movers }: Wanted = { movers: true },
): Why {
  const cell = tracedCell(place, cells);
  const { label } = cellWords(place, cells);
  const title = `${placeText(place)}${label === '' ? '' : `, ${label}`}: ${shownCell(place, cells)}`;
  const notes = [...facts.notes];
  if (cell.formula === undefined) {
    const { says } = leafOf(cell, cells, facts.typed);
    return { place, title, steps: [], notes: [...notes, `No formula stands there: ${says}.`] };
  }
  const places = recalculator && movers ? reachOf(place, cells) : [];
  let engine: ReturnType<Recalculator> | undefined;
  let tried = false;
  /** Made when something asks for it: it takes far longer than all the rest. */
  const engineOf = (): ReturnType<Recalculator> | undefined => {
    if (tried) return engine;
    tried = true;
    try {
      engine = recalculator?.(cells, movers ? places : reachOf(place, cells));
    } catch (problem) {
      notes.push(`It could not be computed anew here: ${(problem as Error).message}.`);
    }
    return engine;
  };
  const stored = storedEvaluation(cells);
  const evaluate: Evaluate = (formula, at) =>
    stored(formula, at) ?? engineOf()?.evaluate(formula, at);
  const book: AskedBook = { cells, facts, evaluate };
  const steps = chainOf(place, book);
  const moving = movers ? engineOf() : undefined;
  return {
    place,
    title,
    steps,
    ...(moving && { movers: moversOf(place, nearestFirst(places, place, book), book, moving) }),
    notes,
  };
}

/** The whole answer in sections of lines; `most` steps at most, undefined for all. */
export function whySections({ steps, movers, notes }: Why, most?: number): Section[] {
  const shown = most === undefined ? steps : steps.slice(0, most);
  const left = steps.length - shown.length;
  const told = new Set<Card>();
  return [
    ...(notes.length > 0 ? [{ head: 'To know', lines: notes }] : []),
    ...shown.map((step) => stepSection(step, told)),
    ...(left > 0
      ? [
          {
            head: `And ${left} more ${left === 1 ? 'step' : 'steps'} down to what is typed`,
            lines: [],
          },
        ]
      : []),
    ...(movers ? [moversSection(movers)] : []),
  ];
}
