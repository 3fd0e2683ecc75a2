import type { UnitSystem } from '../../plan/quantities';
import { freshId, h, say } from '../dom';
import type { Draft } from './draft';
import { inPerCent, isShare, shownText, typedValue, unitText } from './entries';
import type { FieldSpec } from './form-fields';

/** What a field says of its entry. */
export interface Told {
  readonly wrong?: string | undefined;
  readonly advice?: string | undefined;
  /** The cell that the sentence speaks of. */
  readonly where?: string | undefined;
  /** Still to be filled in. */
  readonly needed?: boolean;
}

export interface FieldView {
  readonly path: string;
  readonly element: HTMLElement;
  /** True once something was typed. */
  readonly touched: boolean;
  /** Shows the file's value and the units of the farm. */
  readonly refresh: () => void;
  readonly tell: (told: Told) => void;
  readonly focus: () => void;
}

function entryOf(spec: FieldSpec, id: string): HTMLInputElement | HTMLSelectElement {
  const { takes } = spec;
  const common = { id, ...(!spec.optional && { 'aria-required': 'true' }) };
  if (takes.kind === 'words') {
    const options = takes.words.map(([value, text]) => h('option', { value }, text));
    return h('select', common, h('option', { value: '' }, 'choose'), ...options);
  }
  if (takes.kind === 'name') {
    const options = takes.names.map((name) => h('option', { value: name }, name));
    return h(
      'select',
      common,
      h('option', { value: '' }, spec.optional ? 'none' : 'choose'),
      ...options,
    );
  }
  const figure = takes.kind !== 'text' && takes.kind !== 'date';
  return h('input', {
    ...common,
    type: takes.kind === 'date' ? 'date' : 'text',
    autocomplete: 'off',
    ...(figure && { inputmode: 'decimal', class: 'figure' }),
  });
}

/** A field of the farm file; `label` hidden where a table's head says it. */
export function fieldView(
  spec: FieldSpec,
  path: string,
  draft: Draft,
  { bare = false, name = spec.label }: { bare?: boolean; name?: string } = {},
): FieldView {
  const id = freshId('field');
  const unit = h('span', { class: 'unit' });
  const hint = h('p', { class: 'hint', id: `${id}-hint` }, spec.hint);
  const wrong = h('p', { class: 'problem', id: `${id}-wrong`, hidden: true });
  const advice = h('p', { class: 'advice', id: `${id}-advice`, hidden: true });
  const why = h('p', { class: 'hint', id: `${id}-why`, hidden: true });
  hint.hidden = !spec.hint;
  const input = entryOf(spec, id);
  if (bare) input.setAttribute('aria-label', name);
  const describe = (): void => {
    const texts = [hint, why, wrong, advice]
      .filter((element) => !element.hidden)
      .map((element) => element.id);
    if (texts.length > 0) input.setAttribute('aria-describedby', texts.join(' '));
    else input.removeAttribute('aria-describedby');
  };
  let touched = false;
  const view: FieldView = {
    path,
    get touched() {
      return touched;
    },
    element: bare
      ? h('div', { class: 'cell' }, input, why, wrong, advice)
      : h(
          'div',
          { class: 'field' },
          h(
            'label',
            { for: id },
            spec.label,
            spec.optional && h('span', { class: 'quiet' }, ' optional'),
          ),
          h('div', { class: 'entry' }, input, unit),
          h('div', {}, hint, why, wrong, advice),
        ),
    refresh: () => {
      const system: UnitSystem = draft.get('units') === 'US' ? 'US' : 'metric';
      const currency = draft.get('currency');
      unit.textContent = unitText(
        spec.takes,
        system,
        typeof currency === 'string' ? currency : 'EUR',
      );
      unit.hidden = unit.textContent === '';
      const fixed = draft.fixed(path);
      if (input instanceof HTMLInputElement) input.readOnly = fixed !== undefined;
      else input.disabled = fixed !== undefined;
      say(why, fixed);
      hint.hidden = !spec.hint || fixed !== undefined;
      describe();
      if (document.activeElement !== input || draft.settled(path))
        input.value = shownText(spec.takes, draft.shown(path));
    },
    focus: () => input.focus(),
    tell: ({ wrong: problem, where, advice: unwise, needed = false }) => {
      const sentence = problem && isShare(spec.takes) ? inPerCent(problem) : problem;
      say(wrong, sentence && where ? `${where}: ${sentence}` : sentence);
      say(advice, problem ? undefined : unwise);
      view.element.classList.toggle('needed', needed);
      if (problem) input.setAttribute('aria-invalid', 'true');
      else input.removeAttribute('aria-invalid');
      describe();
    },
  };
  const take = (): void => {
    touched = true;
    draft.set(path, typedValue(spec.takes, input.value));
  };
  input.addEventListener('input', take);
  const finish = (): void => draft.finished([path]);
  // A date that is typed part by part changes with each of them.
  input.addEventListener(spec.takes.kind === 'date' ? 'blur' : 'change', finish);
  describe();
  view.refresh();
  return view;
}
