import { cellAddress, readArea, type Place } from '../plan/addresses';
import type { Picture } from './picture';

/** A guide as data: what is shown to the reader is what the tests run. */

/** Goes into a cell as it stands: a number, a text, or a date written yyyy-mm-dd. */
interface Entry {
  readonly at: string;
  readonly enter: number | string;
  readonly formula?: undefined;
  readonly shows?: undefined;
}

/** A formula, with what its cell shows, or what the first rows show of the block that it fills. */
interface Formula {
  readonly at: string;
  /** With "=". */
  readonly formula: string;
  readonly shows: string | readonly (readonly string[])[];
  /** The sentence that explains an error. */
  readonly says?: string;
}

/** A cell that shows something else now, because of what was entered elsewhere. */
interface Change {
  readonly at: string;
  readonly shows: string | readonly (readonly string[])[];
  readonly says?: string;
  readonly formula?: undefined;
}

export type Cell = Entry | Formula | Change;

/** A line for the terminal, after `npm run --silent gillbed --`. */
export interface Command {
  readonly command: string;
  /** The lines that it prints; "…" stands for lines, or for a part of a line, that are not shown. */
  readonly prints: readonly string[];
  /** Exit status; 0 where it is left out. */
  readonly status?: number;
}

/** One of the project's own npm scripts. */
export interface Script {
  readonly script: string;
  readonly args?: readonly string[];
}

export interface Step {
  /** What to do, as a sentence. "{B4}" stands for what cell B4 shows by then. */
  readonly what: string;
  readonly cells?: readonly Cell[];
  readonly run?: Command | Script;
  /** What it means; "{B4}" as above. */
  readonly then?: string;
  readonly picture?: Picture;
}

/** A picture of the real thing, taken by npm run pictures. */
export interface Screenshot {
  /** In src/reference/pictures. */
  readonly file: string;
  readonly alt: string;
}

export interface Section {
  readonly title?: string;
  readonly paragraphs?: readonly string[];
  /** Those that belong to this section more than to the whole guide. */
  readonly cautions?: readonly string[];
  /** Head row first. */
  readonly table?: readonly (readonly string[])[];
  readonly steps?: readonly Step[];
  readonly screenshot?: Screenshot;
  /** Points without an order. */
  readonly points?: readonly string[];
}

export interface Guide {
  /** File name of its page without ".html"; fixed, since others may link to it. */
  readonly id: string;
  readonly title: string;
  /** As a grower asks it. */
  readonly question: string;
  /** What the reader has at the end, in a sentence or two. */
  readonly leads: string;
  readonly cautions: readonly string[];
  /** Files that the commands begin with, by name. */
  readonly files?: Readonly<Record<string, string>>;
  readonly sections: readonly Section[];
}

export const stepsOf = (guide: Guide): readonly Step[] =>
  guide.sections.flatMap(({ steps = [] }) => steps);

export const isScript = (run: Command | Script): run is Script => 'script' in run;

/** Row and column of an address, from 0. */
export function placeOf(address: string): Place {
  const area = readArea(address);
  if (!area) throw new Error(`"${address}" is no address of a cell`);
  return { row: area.row, column: area.column };
}

interface ShownCell {
  readonly text: string;
  /** It is a formula's, or stands in the block that one fills. */
  readonly computed: boolean;
}
/** What the cells show after some steps, by address. */
export type Shown = ReadonlyMap<string, ShownCell>;

export function shownAfter(steps: readonly Step[]): Shown {
  const shown = new Map<string, ShownCell>();
  for (const cell of steps.flatMap(({ cells = [] }) => cells)) {
    if ('enter' in cell) {
      shown.set(cell.at, { text: String(cell.enter), computed: false });
      continue;
    }
    const block = typeof cell.shows === 'string' ? [[cell.shows]] : cell.shows;
    const { row, column } = placeOf(cell.at);
    block.forEach((line, r) =>
      line.forEach((text, c) =>
        shown.set(cellAddress(row + r, column + c), { text, computed: true }),
      ),
    );
  }
  return shown;
}

/** Puts in place of "{B4}" what B4 shows. */
export function withShown(text: string, shown: Shown): string {
  return text.replace(/\{([A-Z]+\d+)\}/g, (_, address: string) => {
    const cell = shown.get(address);
    if (!cell) throw new Error(`"${text}" speaks of ${address}, which shows nothing by then`);
    return cell.text;
  });
}
