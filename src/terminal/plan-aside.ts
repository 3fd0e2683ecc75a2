import { Worker } from 'node:worker_threads';
import type { AheadAsked, AheadPlanned } from '../ahead/plan-ahead';
import type { Told } from '../ahead/planner-words';
import type { Progress } from '../ahead/solver';
import { wrongValue } from '../core/errors';
import type { WorkGiven } from './plan-messages';

/**
 * Plans in a thread of its own. The first Ctrl-C ends the search with the best plan found so far, the second
 * the program.
 */
export function planAside(
  asked: AheadAsked,
  progress: (what: 'fish' | 'beds', now: Progress) => void,
): Promise<AheadPlanned> {
  const stop = new SharedArrayBuffer(4);
  const given: WorkGiven = { asked, stop };
  const worker = new Worker(new URL('./plan-worker.mjs', import.meta.url), { workerData: given });
  const flag = new Int32Array(stop);
  const interrupted = (): void => {
    if (Atomics.add(flag, 0, 1) > 0) process.exit(130);
    console.error('Ending with the best plan found so far; Ctrl-C once more ends without one.');
  };
  process.on('SIGINT', interrupted);
  return new Promise<AheadPlanned>((done, fail) => {
    worker.on('message', (told: Told) => {
      if (told.kind === 'progress') progress(told.what, told.now);
      else if (told.kind === 'planned') done(told.planned);
      else fail(wrongValue(told.sentence));
    });
    worker.on('error', fail);
    worker.on('exit', (code) => fail(new Error(`the planner ended early (${code})`)));
  }).finally(() => {
    process.off('SIGINT', interrupted);
    void worker.terminate();
  });
}
