import { part } from '../hosts/workbench/note-dialog';
import { pausing } from '../sidebar/pausing';
import type { Pause } from '../plan/in-steps';
import { drawn } from '../sidebar/drawn';
import { sayDoing } from './status-line';

/** Thrown when somebody stopped a long work. */
export const wasStopped = (fault: unknown): boolean =>
  fault instanceof DOMException && fault.name === 'AbortError';

/** A work in steps: `step` makes the pause of one part of it, which is said with its share. */
export type LongWork<Result> = (step: (doing: string) => Pause) => Promise<Result>;

/**
 * Does a long work while the page says how far it is and offers to stop it; nothing else is taken meanwhile. It begins
 * once the page shows that it does.
 */
export async function longWork<Result>(
  doing: string,
  work: LongWork<Result>,
  { canStop = true } = {},
): Promise<Result> {
  const { activeElement: focused } = document;
  const stop = part<HTMLButtonElement>('stop');
  const others = [part('room'), ...document.querySelectorAll<HTMLElement>('.bar-actions')];
  const cancel = new AbortController();
  const end = (): void => cancel.abort();
  const busy = (is: boolean): void => {
    for (const element of others) element.inert = is;
    if (!is) stop.hidden = true;
  };
  stop.addEventListener('click', end);
  busy(true);
  sayDoing(`${doing} …`);
  try {
    await drawn();
    const result = await work((doing) =>
      pausing((share) => {
        stop.hidden = !canStop;
        sayDoing(`${doing}: ${Math.round(share * 100)} %`);
      }, cancel.signal),
    );
    // To draw what has changed may take long as well.
    await drawn();
    return result;
  } finally {
    stop.removeEventListener('click', end);
    busy(false);
    sayDoing();
    // What takes nothing meanwhile loses the focus.
    const isLost = document.activeElement === document.body;
    if (isLost && focused instanceof HTMLElement && focused.isConnected) focused.focus();
  }
}
