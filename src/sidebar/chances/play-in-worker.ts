import type { Chances, ChancesAsked } from '../../chances/chances';
import type { PlayTold } from '../../chances/player-words';
import { type InThread, inThread } from '../in-thread';

/** Plays in a thread of its own, which is loaded now and gone when this is done. */
export const playInWorker = (
  asked: ChancesAsked,
  progress: (share: number) => void,
): InThread<Chances> =>
  inThread<PlayTold, Chances>(
    new Worker(new URL('./chances-worker.ts', import.meta.url)),
    asked,
    (told, { done, fail }) => {
      if (told.kind === 'progress') progress(told.share);
      else if (told.kind === 'played') done(told.found);
      else fail(new Error(told.sentence));
    },
    {
      ended: 'Ended; nothing has changed.',
      notLoaded: 'What plays the years could not be loaded',
    },
  );
