import type { Chances } from './chances';

/** What a thread that plays years says to the page. */
export type PlayTold =
  | { readonly kind: 'progress'; readonly share: number }
  | { readonly kind: 'played'; readonly found: Chances }
  | { readonly kind: 'wrong'; readonly sentence: string };
