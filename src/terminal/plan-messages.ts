import type { AheadAsked } from '../ahead/plan-ahead';

/** What the thread that plans is given. */
export interface WorkGiven {
  readonly asked: AheadAsked;
  /** One number; above 0 once the work is to end with what it has. */
  readonly stop: SharedArrayBuffer;
}
