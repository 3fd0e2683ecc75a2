import type { AheadAsked, AheadPlanned } from '../ahead/plan-ahead';
import type { Progress } from '../ahead/solver';

/** What the thread that plans is given and tells. */
export interface WorkGiven {
  readonly asked: AheadAsked;
  /** One number; above 0 once the work is to end with what it has. */
  readonly stop: SharedArrayBuffer;
}

export type Told =
  | { readonly kind: 'progress'; readonly what: 'fish' | 'beds'; readonly now: Progress }
  | { readonly kind: 'planned'; readonly planned: AheadPlanned }
  | { readonly kind: 'wrong'; readonly sentence: string };
