import type { Turned } from '../../handover/hand-over';
import { h } from '../dom';

const words: Record<Turned['became'], string> = {
  formula: 'plain formula',
  value: 'value only',
  left: 'left as it was',
};

const line = (turned: Turned): HTMLElement =>
  h(
    'li',
    {},
    h(
      'span',
      { class: 'place' },
      turned.sheet === '' ? turned.where : `${turned.sheet} · ${turned.where}`,
    ),
    h('code', {}, turned.was),
    h(
      'span',
      { class: turned.became === 'formula' ? 'quiet' : 'advice' },
      words[turned.became],
      turned.why ? `: ${turned.why}` : '',
    ),
  );

/** What became of every formula: those that are no formula any more first and open, the rest folded. */
export function turnedList(turned: readonly Turned[]): HTMLElement[] {
  const plain = turned.filter((turned) => turned.became === 'formula');
  const others = turned.filter((turned) => turned.became !== 'formula');
  return [
    ...(others.length > 0
      ? [
          h('h3', {}, `Without a plain form: ${others.length}`),
          h('ul', { class: 'turned' }, ...others.map(line)),
        ]
      : []),
    ...(plain.length > 0
      ? [
          h(
            'details',
            {},
            h('summary', {}, `Now plain formulas: ${plain.length}`),
            h('ul', { class: 'turned' }, ...plain.map(line)),
          ),
        ]
      : []),
  ];
}
