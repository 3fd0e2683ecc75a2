import type { Pause } from '../plan/in-steps';

/** At most so long without a look at the page: beside other work it may come to several times that. */
const STEP_MS = 30;

/** Lets the page draw between the steps of a long work, which ends with an AbortError once `cancel` says so. */
export function pausing(
  progress?: (share: number) => void,
  cancel?: AbortSignal,
  longest = STEP_MS,
): Pause {
  let last = performance.now();
  return (share) => {
    if (performance.now() - last < longest) return undefined;
    progress?.(share);
    return new Promise((resolve, reject) =>
      setTimeout(() => {
        last = performance.now();
        if (cancel?.aborted === true) reject(cancel.reason as Error);
        else resolve();
      }),
    );
  };
}
