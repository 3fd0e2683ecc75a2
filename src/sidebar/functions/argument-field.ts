import type { Parameter } from '../../functions/parameter';
import type { Host } from '../host';
import { button } from '../button';
import { freshId, h, say } from '../dom';
import { readable, unitWord } from '../../functions/unit-word';
import { type Given, givenText } from './argument';

export interface ArgumentField {
  readonly element: HTMLElement;
  readonly given: () => Given;
  /** Says why the cells could not be read; nothing where undefined. */
  readonly tell: (sentence: string | undefined) => void;
}

const isBare = (parameter: Parameter): boolean =>
  parameter.unit === '' || parameter.kind === 'name';

function entryFor(parameter: Parameter, id: string, hint: string): HTMLInputElement {
  const names = parameter.names?.();
  const list = names && freshId('names');
  const input = h('input', {
    id,
    type: 'text',
    autocomplete: 'off',
    spellcheck: 'false',
    'aria-describedby': hint,
    ...(list && { list }),
    ...(parameter.kind === 'date' && { placeholder: 'yyyy-mm-dd' }),
    ...(parameter.defaultText && { placeholder: parameter.defaultText }),
    ...(!parameter.optional && { 'aria-required': 'true' }),
  });
  if (names && list) {
    const options = names.map((name) => h('option', { value: name }));
    input.append(h('datalist', { id: list }, ...options));
  }
  return input;
}

const sizeText = (rows: number, columns: number): string =>
  rows * columns === 1 ? 'one cell' : `${rows} × ${columns} cells`;

/** One argument: label, entry, unit, what it takes, and a button that takes the selected cells. */
export function argumentField(
  parameter: Parameter,
  host: Host,
  changed: () => void,
): ArgumentField {
  const id = freshId('argument');
  const hint = freshId('hint');
  const input = entryFor(parameter, id, hint);
  const list = input.querySelector('datalist');
  const problem = h('p', { class: 'problem', role: 'status', hidden: true });
  let given: Given = { kind: 'typed', text: '' };
  input.addEventListener('input', () => {
    given = givenText(input.value);
    say(problem, undefined);
    changed();
  });
  const pick = async (): Promise<void> => {
    try {
      const from = await host.selection();
      given = { kind: 'picked', from };
      input.value = `${from.sheet}!${from.address}`;
      say(problem, undefined);
      const rows = from.values.length;
      pickButton.title = sizeText(rows, from.values[0]?.length ?? 1);
      changed();
    } catch (thrown) {
      say(problem, thrown instanceof Error ? thrown.message : String(thrown));
    }
  };
  const pickButton = button('Take cells', () => void pick(), {
    small: true,
    label: `Take cells for ${parameter.name}`,
  });
  const meaning = parameter.meaning;
  const left = parameter.defaultText
    ? ` Left out: ${parameter.defaultText}.`
    : parameter.optional
      ? ' May be left out.'
      : '';
  const element = h(
    'div',
    { class: 'field' },
    h(
      'label',
      { for: id },
      // "pH of the water" keeps its small letter.
      /^\p{Ll}\p{Lu}/u.test(meaning) ? meaning : meaning.charAt(0).toUpperCase() + meaning.slice(1),
      h('code', { class: 'name' }, parameter.name),
      parameter.optional && h('span', { class: 'quiet' }, ' optional'),
    ),
    h(
      'div',
      { class: 'entry' },
      input,
      !isBare(parameter) && h('span', { class: 'unit' }, unitWord(parameter.unit)),
      pickButton,
    ),
    list ?? undefined,
    h('p', { class: 'hint', id: hint }, readable(`Takes ${parameter.takes}.${left}`)),
    problem,
  );
  return { element, given: () => given, tell: (sentence) => say(problem, sentence) };
}
