import { unitWord } from '../../functions/unit-word';
import { shownIn, toShown } from '../../plan/quantities';
import { type Happening, type NoteField } from '../../records/happenings';
import { type Answered, type Entries, proposeNote, type Noted } from '../../records/note';
import { freshId, h, say } from '../dom';
import type { OpenFarm } from '../open-farm';
import { today } from '../today';
import { choicesOf, lastSaid } from './note-names';

interface Asked {
  readonly happening: Happening;
  readonly open: OpenFarm;
  /** What stands in the fields at once. */
  readonly entries?: Entries;
  readonly date?: string;
  /** A planned row that this is done in place of. */
  readonly instead?: Answered;
  /** Reads the workbook as it is when it is written into. */
  readonly readAgain: () => Promise<OpenFarm>;
  readonly write: (noted: Noted) => Promise<void>;
  readonly back: () => void;
}

/** Fields by whose value the last rows are looked for. */
const PLACES = ['tank', 'where', 'bed'];

/** Whether a label says its unit itself, as "pH" and "Fish weighed" do. */
const says = (label: string, unit: string): boolean =>
  label.toLowerCase().split(' ').includes(unit.toLowerCase());

/** A few large fields for one thing that happened; one tap writes it. */
export function noteForm(asked: Asked): HTMLElement {
  const { happening, open, entries = {}, instead, readAgain, write, back } = asked;
  const { farm, units } = open.reading;
  if (!farm) throw new Error('the form needs a farm');
  const inputs = new Map<string, HTMLInputElement | HTMLSelectElement>();
  const refreshers: (() => void)[] = [];
  const problem = h('p', { class: 'problem', role: 'alert', hidden: true });
  const doubts = h('p', { class: 'caution', role: 'alert', hidden: true });
  const submit = h('button', { type: 'submit', class: 'big primary' }, 'Write it down');
  let agreed = '';
  const unsaid = (): void => {
    agreed = '';
    say(problem, undefined);
    say(doubts, undefined);
    submit.textContent = 'Write it down';
  };
  const hasPlace = happening.fields.some(({ id }) => PLACES.includes(id));
  const place = (): string | undefined =>
    PLACES.map((id) => inputs.get(id)?.value).find((value) => value);

  function fieldOf(field: NoteField): HTMLElement {
    const { id: name, label, takes, optional, stays } = field;
    const id = freshId('note');
    const choices = choicesOf(field, farm as NonNullable<typeof farm>);
    const input = choices
      ? h(
          'select',
          { id },
          h('option', { value: '' }, optional ? '–' : 'Choose'),
          ...choices.map(([value, text]) => h('option', { value }, text)),
        )
      : h('input', {
          id,
          type: 'text',
          autocomplete: 'off',
          ...('figure' in takes && { inputmode: 'decimal' }),
        });
    inputs.set(name, input);
    const given = entries[name];
    if (given !== undefined) input.value = given;
    const unit = 'figure' in takes ? unitWord(shownIn(takes.figure, units).unit) : '';
    const last = h('button', { type: 'button', class: 'last', hidden: true });
    last.addEventListener('click', () => {
      input.value = last.dataset['value'] ?? '';
      unsaid();
      input.focus();
    });
    let untouched = true;
    const refresh = (): void => {
      const found = lastSaid(
        farm as NonNullable<typeof farm>,
        { list: happening.list, id: happening.id },
        name,
        PLACES.includes(name) ? undefined : place(),
      );
      const text =
        found === undefined
          ? ''
          : String(
              typeof found === 'number' && 'figure' in takes
                ? toShown(found, takes.figure, units)
                : found,
            );
      last.dataset['value'] = text;
      last.textContent = `last ${text}`;
      last.setAttribute('aria-label', `${label}: last ${text}`);
      last.hidden = text === '' || stays === true || PLACES.includes(name) || name === 'remark';
      // How much somebody gave elsewhere is no answer before the place is chosen.
      const isOpen = 'figure' in takes && hasPlace && place() === undefined;
      if (stays && untouched && given === undefined) input.value = isOpen ? '' : text;
    };
    refreshers.push(refresh);
    input.addEventListener('input', () => {
      untouched = false;
      unsaid();
      if (PLACES.includes(name)) for (const fill of refreshers) fill();
    });
    return h(
      'div',
      { class: choices || 'text' in takes ? 'wide-field' : 'half-field' },
      h(
        'label',
        { for: id },
        unit && !says(label, unit) ? `${label}, ${unit}` : label,
        optional && h('span', { class: 'quiet' }, ' optional'),
      ),
      h('div', { class: 'entry' }, input, last),
    );
  }

  const dateId = freshId('note');
  const date = h('input', {
    id: dateId,
    type: 'date',
    value: asked.date ?? today(),
    max: today(),
    on: { input: unsaid },
  });
  const fields = happening.fields.map(fieldOf);
  for (const refresh of refreshers) refresh();
  const title = h('h3', { tabindex: '-1', class: 'note-title' }, happening.title);

  async function send(): Promise<void> {
    const typed = Object.fromEntries([...inputs].map(([name, input]) => [name, input.value]));
    const now = await readAgain();
    const proposal = proposeNote(now.reading, now.cells, happening.id, {
      date: date.value,
      entries: typed,
      today: today(),
      instead,
    });
    if (proposal.refused !== undefined) {
      say(doubts, undefined);
      say(problem, proposal.refused);
      return;
    }
    const doubt = proposal.doubts.join(' ');
    if (doubt !== '' && doubt !== agreed) {
      agreed = doubt;
      say(problem, undefined);
      say(doubts, doubt);
      submit.textContent = 'Write it all the same';
      return;
    }
    await write(proposal.noted);
  }
  let sending = false;
  return h(
    'form',
    {
      class: 'note-form',
      on: {
        keydown: (event) => {
          if ((event as KeyboardEvent).key === 'Escape') back();
        },
        submit: (event) => {
          event.preventDefault();
          // A wet finger taps twice.
          if (sending) return;
          sending = true;
          send()
            .catch((fault: Error) => say(problem, fault.message))
            .finally(() => {
              sending = false;
            });
        },
      },
    },
    title,
    h(
      'div',
      { class: 'wide-field' },
      h('label', { for: dateId }, 'Day'),
      h('div', { class: 'entry' }, date),
    ),
    h('div', { class: 'note-fields' }, ...fields),
    problem,
    doubts,
    h(
      'div',
      { class: 'note-send' },
      submit,
      h('button', { type: 'button', class: 'big', on: { click: back } }, 'Back'),
    ),
  );
}
