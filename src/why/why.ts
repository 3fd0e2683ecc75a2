import type { Card } from '../functions/card';
import { BookCells, type BookSnapshot, type CellPlace, placeText } from '../plan/book-snapshot';
import { readArea, splitSheet } from '../plan/addresses';
import { type AskedBook, chainOf, explainCell, type Step } from './explain-cell';
import { type Evaluate } from './formula-words';
import { leafOf } from './leaf';
import { type Movers, moversOf, numbersToTry, type Progress, type Recalculated } from './movers';
import { planFacts, type PlanFacts } from './plan-facts';
import { type Reach, reachOf } from './reach';
import { cellWords, shownCell } from './cell-words';
import { moversSection, type Section, stepSection } from './why-lines';
import { storedEvaluation } from './stored-evaluation';
import { filledCells, firstOf, isSingle, keyOf, type SheetArea, tracedCell } from './traced-cells';

/** Why a number stands in a cell of a workbook. */

/**
 * Computes those of the cells at these places anew for which `computes` says so, the others being what they show;
 * given by whoever has an engine.
 */
export type Recalculator = (
  cells: BookCells,
  places: readonly CellPlace[],
  computes: (place: CellPlace) => boolean,
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
  const name = cells.sheetNames.find((sheetName) => sheetName.toLowerCase() === on.toLowerCase());
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
const MAX_FOLLOWED = 300;

/**
 * The places with those in front that the figure was made of, the way its formulas went, the nearest first: what
 * was read by itself, then what stands in blocks.
 */
function nearestFirst(places: readonly CellPlace[], from: CellPlace, book: AskedBook): CellPlace[] {
  const rank = new Map<string, number>();
  const blocks: SheetArea[] = [];
  const open: CellPlace[] = [];
  const see = (place: CellPlace): void => {
    if (rank.has(keyOf(place))) return;
    rank.set(keyOf(place), rank.size);
    open.push(place);
  };
  see(from);
  for (let at = 0; at < MAX_FOLLOWED; at++) {
    for (let block; at >= open.length && (block = blocks.shift());)
      filledCells(block, book.cells).forEach(see);
    const place = open[at];
    if (place === undefined) break;
    for (const { area } of explainCell(place, book)?.reads ?? []) {
      if (isSingle(area)) see(firstOf(area));
      else blocks.push(area);
    }
  }
  for (const cell of blocks.flatMap((area) => filledCells(area, book.cells))) see(cell);
  const of = (place: CellPlace): number => rank.get(keyOf(place)) ?? rank.size;
  return [...places].sort((a, b) => of(a) - of(b));
}

/** A question on its way: what all its answers need, each found out once. */
class Question {
  readonly notes: string[];
  readonly book: AskedBook;
  private reached: Reach | undefined;

  constructor(
    readonly place: CellPlace,
    { cells, facts }: Asked,
    private readonly recalculator: Recalculator | undefined,
  ) {
    this.notes = [...facts.notes];
    const stored = storedEvaluation(cells);
    let engine: ReturnType<Recalculator> | undefined;
    let tried = false;
    this.book = {
      cells,
      facts,
      evaluate: (formula, at) => {
        const known = stored(formula, at);
        if (known !== undefined) return known;
        // Made when something asks for it: it takes far longer than all the rest.
        if (!tried) engine = this.engine(() => false);
        tried = true;
        return engine?.evaluate(formula, at);
      },
    };
  }

  get reach(): Reach {
    return (this.reached ??= reachOf(this.place, this.book.cells));
  }

  engine(computes: (place: CellPlace) => boolean): ReturnType<Recalculator> | undefined {
    try {
      return this.recalculator?.(this.book.cells, this.reach.places, computes);
    } catch (problem) {
      this.notes.push(`It could not be computed anew here: ${(problem as Error).message}.`);
      return undefined;
    }
  }
}

/**
 * The chain behind a cell. `recalculator` may throw a sentence; without one, which way a formula went is worked
 * out from what the cells show.
 */
export function why(
  place: CellPlace,
  asked: Asked,
  recalculator: Recalculator | undefined,
): Omit<Why, 'movers'> {
  const { cells, facts } = asked;
  const cell = tracedCell(place, cells);
  const { label } = cellWords(place, cells);
  const title = `${placeText(place)}${label === '' ? '' : `, ${label}`}: ${shownCell(place, cells)}`;
  if (cell.formula === undefined) {
    const { says } = leafOf(cell, cells, facts.typed);
    return {
      place,
      title,
      steps: [],
      notes: [...facts.notes, `No formula stands there: ${says}.`],
    };
  }
  const { book, notes } = new Question(place, asked, recalculator);
  const steps = chainOf(place, book);
  return { place, title, steps, notes };
}

/**
 * What would change the figure of a cell, number by number: yields before each how many are done, so that whoever
 * asks can say so and stop. Nothing where nothing can be computed; then `notes` says why.
 */
export function* whatMoves(
  place: CellPlace,
  asked: Asked,
  recalculator: Recalculator,
): Generator<Progress, Pick<Why, 'movers' | 'notes'>> {
  const question = new Question(place, asked, recalculator);
  const { book, notes, reach } = question;
  if (tracedCell(place, asked.cells).formula === undefined) return { notes };
  const { tried, left } = numbersToTry(nearestFirst(reach.places, place, book), book);
  const hanging = reach.hangingOn(tried.map(keyOf));
  const engine = question.engine((typedPlace) => hanging.has(keyOf(typedPlace)));
  if (!engine) return { notes };
  return { notes, movers: yield* moversOf(place, { tried, left }, book, engine) };
}

/** The same, without a stop. */
export function moversAt(...question: Parameters<typeof whatMoves>): Pick<Why, 'movers' | 'notes'> {
  const moving = whatMoves(...question);
  let step = moving.next();
  while (step.done !== true) step = moving.next();
  return step.value;
}

/** The chain and what would change the figure, all at once. */
export function whyAndMovers(place: CellPlace, asked: Asked, recalculator: Recalculator): Why {
  const chain = why(place, asked, recalculator);
  const { movers, notes } = moversAt(place, asked, recalculator);
  return {
    ...chain,
    ...(movers && { movers }),
    notes: [...new Set([...chain.notes, ...notes])],
  };
}

/** The whole answer in sections of lines; `most` steps at most, undefined for all. */
export function whySections(
  { steps, movers, notes }: Omit<Why, 'place' | 'title'>,
  most?: number,
): Section[] {
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
