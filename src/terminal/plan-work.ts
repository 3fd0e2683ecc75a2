import { parentPort, workerData } from 'node:worker_threads';
import { planAhead } from '../ahead/plan-ahead';
import type { Told } from '../ahead/planner-words';
import { loadSolver } from '../ahead/solver';
import { GillError } from '../core/errors';
import type { WorkGiven } from './plan-messages';

/** What the thread does: plans, and tells how far it is. */
export async function work(): Promise<void> {
  const { asked, stop } = workerData as WorkGiven;
  const flag = new Int32Array(stop);
  const tell = (told: Told): void => parentPort?.postMessage(told);
  try {
    const planned = planAhead(asked, await loadSolver(), {
      stop: () => Atomics.load(flag, 0) > 0,
      progress: (what, now) => tell({ kind: 'progress', what, now }),
    });
    tell({ kind: 'planned', planned });
  } catch (fault) {
    if (!(fault instanceof GillError)) throw fault;
    tell({ kind: 'wrong', sentence: fault.message });
  }
}
