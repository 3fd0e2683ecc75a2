import {
  type Input,
  inputs,
  inputWords,
  MAX_SPREAD,
  type Spread,
  type Spreads,
  spreadSource,
  withTyped,
} from '../../chances/spreads';
import { button } from '../button';
import { freshId, h } from '../dom';

/** An entry that is wrong, and why. */
export class WrongEntry extends Error {
  constructor(
    readonly entry: HTMLInputElement,
    says: string,
  ) {
    super(says);
  }
}

export interface SpreadsForm {
  readonly element: HTMLElement;
  /** What is to be played with: those of the farm, and in their place what was typed. Throws WrongEntry. */
  readonly spreads: (own: Spreads) => Spreads;
  /** The spreads of a farm that was read anew; what was typed stays. */
  readonly show: (own: Spreads) => void;
}

const kinds = [
  ['batch', 'From batch to batch'],
  ['year', 'From year to year'],
] as const;
type Kind = (typeof kinds)[number][0];

const perCent = (share: number): string => String(Number((100 * share).toPrecision(3)));

/** How far each figure may miss; by the records, as stated, or as typed. */
export function spreadsForm(own: Spreads): SpreadsForm {
  let shown = own;
  const typed = new Map<Input, Partial<Record<Kind, string>>>();
  const entries = new Map<string, HTMLInputElement>();
  const sources = new Map<Input, HTMLElement>();
  const isTyped = (input: Input): boolean => typed.has(input);

  const showSource = (input: Input): void => {
    const spread: Spread = shown[input];
    const source = sources.get(input);
    if (source) {
      source.textContent = isTyped(input)
        ? `As typed; ${spread.batches > 0 ? 'the records say' : 'else'} ${perCent(spread.batch)} and ${perCent(spread.year)} %.`
        : `${spreadSource(spread).replace(/^./, (first) => first.toUpperCase())}.`;
    }
  };
  const showAll = (): void => {
    for (const input of inputs) {
      for (const [kind] of kinds) {
        const entry = entries.get(`${input} ${kind}`) as HTMLInputElement;
        entry.value = typed.get(input)?.[kind] ?? perCent(shown[input][kind]);
        entry.removeAttribute('aria-invalid');
      }
      showSource(input);
    }
  };

  const field = (input: Input, kind: Kind, label: string): HTMLElement => {
    const id = freshId('spread');
    const entry = h('input', {
      id,
      type: 'text',
      inputmode: 'decimal',
      class: 'figure',
      autocomplete: 'off',
      'aria-describedby': `${id}-unit`,
    });
    entries.set(`${input} ${kind}`, entry);
    entry.addEventListener('input', () => {
      typed.set(input, { ...typed.get(input), [kind]: entry.value });
      showSource(input);
    });
    return h(
      'div',
      { class: 'field' },
      h('label', { for: id }, label),
      h('span', { class: 'entry' }, entry, h('span', { class: 'unit', id: `${id}-unit` }, '%')),
    );
  };

  const element = h(
    'div',
    { class: 'spreads' },
    h(
      'p',
      { class: 'hint' },
      'How far each figure may miss, as a standard deviation: two years in three are nearer. From year to year all batches miss together.',
    ),
    ...inputs.map((input) => {
      const source = h('p', { class: 'hint' });
      sources.set(input, source);
      return h(
        'fieldset',
        {},
        h('legend', {}, inputWords[input]),
        h('div', { class: 'grid' }, ...kinds.map(([kind, label]) => field(input, kind, label))),
        source,
      );
    }),
    h(
      'div',
      { class: 'actions' },
      button(
        'Take the records’ and stated spreads again',
        () => {
          typed.clear();
          showAll();
        },
        { small: true },
      ),
    ),
  );
  showAll();

  const numberIn = (input: Input, kind: Kind, usual: number): number => {
    const entry = entries.get(`${input} ${kind}`) as HTMLInputElement;
    const text = typed.get(input)?.[kind];
    if (text === undefined) return usual;
    const value = text.trim() === '' ? NaN : Number(text.replace('%', '').replace(',', '.'));
    if (value >= 0 && value <= 100 * MAX_SPREAD) return value / 100;
    throw new WrongEntry(
      entry,
      `${inputWords[input]}: type a spread from 0 to ${100 * MAX_SPREAD} %.`,
    );
  };

  return {
    element,
    spreads: (now) => {
      for (const entry of entries.values()) entry.removeAttribute('aria-invalid');
      return inputs.reduce(
        (all, input) =>
          isTyped(input)
            ? withTyped(all, input, {
                batch: numberIn(input, 'batch', now[input].batch),
                year: numberIn(input, 'year', now[input].year),
              })
            : all,
        now,
      );
    },
    show: (now) => {
      shown = now;
      showAll();
    },
  };
}
