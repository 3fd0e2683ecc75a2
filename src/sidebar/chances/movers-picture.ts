import type { Band } from '../../chances/chances';
import { inputWords } from '../../chances/spreads';
import { h, svg } from '../dom';

/** A bar an input, longest first: how much of the differences follows it. */
export const moversPicture = ({ movers }: Band, what: string): HTMLElement =>
  h(
    'ul',
    { class: 'movers', 'aria-label': `What moves it most: ${what}` },
    ...movers.map(({ input, share }) =>
      h(
        'li',
        {},
        h('span', { class: 'name' }, inputWords[input]),
        svg(
          'svg',
          { viewBox: '0 0 100 8', preserveAspectRatio: 'none', 'aria-hidden': 'true' },
          svg('rect', { class: 'way', x: 0, y: 0, width: 100, height: 8 }),
          svg('rect', { class: 'bar', x: 0, y: 0, width: (100 * share).toFixed(1), height: 8 }),
        ),
        h('span', { class: 'share' }, `${Math.round(100 * share)} %`),
      ),
    ),
  );
