import { BookCells, type CellPlace, type Cells } from '../plan/book-snapshot';
import { type BookReading, plansIn, readBook, unitsOf } from '../plan/read-book';
import { typedInSteps } from '../plan/typed-of-plan';
import { inBackground } from './in-background';
import type { EnteredCell, Host } from './host';

/** The farm that the open workbook holds, and the cells that it was read from. */
export interface OpenFarm {
  readonly cells: Cells;
  readonly reading: BookReading;
}

/** Typed cells that held formulas when the farm was last read. */
const withFormulas = new WeakMap<Host, readonly CellPlace[]>();

/** Reads the farm from the open workbook. Throws NoPlanFound where it holds none. */
export async function openFarm(host: Host): Promise<OpenFarm> {
  const book = await host.book(withFormulas.get(host));
  const cells = 'at' in book ? book : new BookCells(book);
  // The first reading makes a plan to know what is typed in one, which takes longer than to read it.
  for (const suffix of plansIn(cells)) await inBackground(typedInSteps(unitsOf(cells, suffix)));
  const reading = readBook(cells);
  withFormulas.set(
    host,
    [...reading.places.values()].filter(({ formula }) => formula !== undefined),
  );
  return { cells, reading };
}

/** Later, when the page has nothing else to do: nobody's typing waits for it. */
export const whenIdle = (work: () => void): void => {
  if (typeof requestIdleCallback === 'function') requestIdleCallback(work, { timeout: 3000 });
  else setTimeout(work, 300);
};

/** Changes come one after the other: what follows from them is shown once they rest so long. */
const REST_MS = 300;

/** Calls back a moment after cells changed, while `panel` shows; what changed while it was hidden, once it shows. */
export function afterChanges(host: Host, panel: HTMLElement, changed: () => void): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let missed = false;
  const tell = (): void => {
    if (panel.hidden || panel.offsetParent === null) missed = true;
    else changed();
  };
  host.onChange(() => {
    clearTimeout(timer);
    timer = setTimeout(tell, REST_MS);
  });
  // The pane may be folded away as a whole, or one page of it.
  new IntersectionObserver(() => {
    if (!missed || panel.offsetParent === null) return;
    missed = false;
    changed();
  }).observe(panel);
}

/** The grid reads what is entered as if a hand typed it: a text that looks otherwise gets an apostrophe. */
const asText = (text: string): string =>
  /^\s*[=+\-@'\d.]/.test(text) || /^(?:true|false)$/i.test(text.trim()) ? `'${text}` : text;

/** Types values into cells in one step, each text as a text. */
export const typeInto = (host: Host, cells: readonly EnteredCell[]): Promise<void> =>
  host.enter(
    host.kind === 'excel'
      ? cells
      : cells.map((cell) =>
          typeof cell.value === 'string' ? { ...cell, value: asText(cell.value) } : cell,
        ),
    [],
  );
