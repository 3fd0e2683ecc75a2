/** The planners in a thread of their own: the page stays alive, and ends the thread to cancel. */
import { type AheadAsked, planAhead } from '../../ahead/plan-ahead';
import type { Told } from '../../ahead/planner-words';
import { loadSolver } from '../../ahead/solver';
import { GillError } from '../../core/errors';

interface Thread {
  addEventListener(type: 'message', listener: (event: { readonly data: AheadAsked }) => void): void;
  postMessage(told: Told): void;
}
const thread = self as unknown as Thread;

async function work(asked: AheadAsked): Promise<Told> {
  try {
    const solver = await loadSolver({ wasm: new URL('highs/runtime', import.meta.url).href });
    const planned = planAhead(asked, solver, {
      progress: (what, now) => thread.postMessage({ kind: 'progress', what, now }),
    });
    return { kind: 'planned', planned };
  } catch (fault) {
    if (fault instanceof GillError) return { kind: 'wrong', sentence: `${fault.message}.` };
    return {
      kind: 'wrong',
      sentence: `The planner could not do its work: ${fault instanceof Error ? fault.message : String(fault)}`,
    };
  }
}

thread.addEventListener('message', ({ data }) => {
  void work(data).then((told) => thread.postMessage(told));
});
