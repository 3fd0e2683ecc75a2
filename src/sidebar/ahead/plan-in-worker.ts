import type { AheadAsked, AheadPlanned } from '../../ahead/plan-ahead';
import type { Told } from '../../ahead/planner-words';
import type { Progress } from '../../ahead/solver';
import { type InThread, inThread } from '../in-thread';

/** Plans in a thread of its own, which is loaded now and gone when this is done. */
export const planInWorker = (
  asked: AheadAsked,
  progress: (what: 'fish' | 'beds', now: Progress) => void,
): InThread<AheadPlanned> =>
  inThread<Told, AheadPlanned>(
    new Worker(new URL('./plan-worker.ts', import.meta.url)),
    asked,
    (told, { done, fail }) => {
      if (told.kind === 'progress') progress(told.what, told.now);
      else if (told.kind === 'planned') done(told.planned);
      else fail(new Error(told.sentence));
    },
    {
      ended: 'The search was ended; nothing has changed.',
      notLoaded: 'The planner could not be loaded',
    },
  );
