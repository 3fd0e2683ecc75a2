import { h } from './dom';

/** Cautions in one box; nothing for none. */
export const cautionsBox = (sentences: readonly string[]): HTMLElement[] =>
  sentences.length === 0
    ? []
    : [
        h(
          'div',
          { class: 'caution', role: 'note', 'aria-label': 'Caution' },
          ...sentences.map((sentence) => h('p', {}, sentence)),
        ),
      ];
