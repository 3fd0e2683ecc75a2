/**
 * A long work in steps, none of them long; between them it says how much of it is done, from 0 to 1. Who runs it
 * decides whether others have their turn in between.
 */
export type Steps<Result> = Generator<number, Result>;

/** Told between steps how much is done; what it gives is waited for. It may throw, which ends the work. */
export type Pause = (share: number) => Promise<void> | undefined;

/** Runs a work to its end at once. */
export function atOnce<Result>(steps: Steps<Result>): Result {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** Runs a work with a look at `pause` between its steps. */
export async function inSteps<Result>(steps: Steps<Result>, pause: Pause): Promise<Result> {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    const waiting = pause(step.value);
    if (waiting) await waiting;
  }
}

/** A part of a work: its shares stand between two shares of the whole. */
export function* partly<Result>(steps: Steps<Result>, from: number, to: number): Steps<Result> {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    yield from + step.value * (to - from);
  }
}
