import type { AheadPlanned } from './plan-ahead';
import type { Progress } from './solver';

/** What the thread that plans tells. */
export type Told =
  | { readonly kind: 'progress'; readonly what: 'fish' | 'beds'; readonly now: Progress }
  | { readonly kind: 'planned'; readonly planned: AheadPlanned }
  | { readonly kind: 'wrong'; readonly sentence: string };
