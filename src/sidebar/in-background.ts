import { inSteps, type Steps } from '../plan/in-steps';

/** What the page has to do before anything of lower rank; not every browser has it, nor the compiler's library. */
interface Scheduler {
  postTask(task: () => void, options: { readonly priority: 'background' }): Promise<void>;
}

/** Nobody notices that a key is answered so much later. */
const SLICE_MS = 8;

/** Once the page has done all that anybody waits for. */
export function afterAllElse(work: () => void): void {
  const { scheduler } = globalThis as unknown as { readonly scheduler?: Scheduler };
  if (scheduler) void scheduler.postTask(work, { priority: 'background' });
  else setTimeout(work);
}

/** Says when a slice that begins now is long enough. */
export function sliceFromNow(): () => boolean {
  const end = performance.now() + SLICE_MS;
  return () => performance.now() > end;
}

/** Does a work in slices, after all that anybody waits for. */
export function inBackground<Result>(steps: Steps<Result>): Promise<Result> {
  let enough = sliceFromNow();
  return inSteps(steps, () => {
    if (!enough()) return undefined;
    return new Promise((resolve) =>
      afterAllElse(() => {
        enough = sliceFromNow();
        resolve();
      }),
    );
  });
}
