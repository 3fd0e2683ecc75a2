/** Years by chance in a thread of their own: the page stays alive, and ends the thread to cancel. */
import { type ChancesAsked, chances } from '../../chances/chances';
import type { PlayTold } from '../../chances/player-words';
import { GillError } from '../../core/errors';

interface Thread {
  addEventListener(
    type: 'message',
    listener: (event: { readonly data: ChancesAsked }) => void,
  ): void;
  postMessage(told: PlayTold): void;
}
const thread = self as unknown as Thread;

function work(asked: ChancesAsked): PlayTold {
  try {
    const found = chances(asked, (share) => thread.postMessage({ kind: 'progress', share }));
    return { kind: 'played', found };
  } catch (fault) {
    if (fault instanceof GillError) return { kind: 'wrong', sentence: `${fault.message}.` };
    return {
      kind: 'wrong',
      sentence: `The years could not be played: ${fault instanceof Error ? fault.message : String(fault)}`,
    };
  }
}

thread.addEventListener('message', ({ data }) => thread.postMessage(work(data)));
