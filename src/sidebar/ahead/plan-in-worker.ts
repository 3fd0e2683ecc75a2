import type { AheadAsked, AheadPlanned } from '../../ahead/plan-ahead';
import type { Told } from '../../ahead/planner-words';
import type { Progress } from '../../ahead/solver';

export interface Planning {
  /** Rejects with a sentence where there is no plan, and with nothing more to say where it was cancelled. */
  readonly planned: Promise<AheadPlanned>;
  /** Ends the thread, whatever it is doing. */
  cancel(): void;
}

/** The grower ended the search. */
export class Cancelled extends Error {}

/** Plans in a thread of its own, which is loaded now and gone when this is done. */
export function planInWorker(
  asked: AheadAsked,
  progress: (what: 'fish' | 'beds', now: Progress) => void,
): Planning {
  const worker = new Worker(new URL('./plan-worker.ts', import.meta.url));
  let cancel = (): void => undefined;
  const planned = new Promise<AheadPlanned>((done, fail) => {
    cancel = () => fail(new Cancelled('The search was ended; nothing has changed.'));
    worker.addEventListener('message', ({ data }: MessageEvent<Told>) => {
      if (data.kind === 'progress') progress(data.what, data.now);
      else if (data.kind === 'planned') done(data.planned);
      else fail(new Error(data.sentence));
    });
    worker.addEventListener('error', ({ message }) =>
      fail(
        new Error(
          `The planner could not be loaded${message ? ` (${message})` : ''}: it is fetched when a plan is asked for, and needs the place that Gillbed came from.`,
        ),
      ),
    );
    worker.postMessage(asked);
  }).finally(() => worker.terminate());
  return { planned, cancel };
}
