import { type AheadWishes, PLANNED_WEEKS, type PlannedPart } from '../../ahead/asked';
import { isoText } from '../../core/serial-date';
import type { Farm } from '../../plan/farm';
import { freshId, h, say } from '../dom';
import { folded } from './words';

export interface AskedOfForm {
  readonly wishes: AheadWishes;
  /** Day from which it is planned. */
  readonly day: number;
}

export interface WishesForm {
  readonly element: HTMLElement;
  /** Undefined where something is wrong; the form says what. */
  readonly asked: () => AskedOfForm | undefined;
}

function field(label: string, entry: HTMLElement, hint?: string): HTMLElement {
  const id = freshId('ahead');
  entry.id = id;
  if (hint !== undefined) entry.setAttribute('aria-describedby', `${id}-hint`);
  return h(
    'div',
    { class: 'field' },
    h('label', { for: id }, label),
    entry,
    hint !== undefined && h('p', { class: 'hint', id: `${id}-hint` }, hint),
  );
}

const choice = (words: readonly (readonly [value: string, text: string])[]): HTMLSelectElement =>
  h('select', {}, ...words.map(([value, text]) => h('option', { value }, text)));

const wholeEntry = (value = ''): HTMLInputElement =>
  h('input', { type: 'text', inputmode: 'numeric', class: 'figure', autocomplete: 'off', value });

const tick = (label: string): { element: HTMLElement; box: HTMLInputElement } => {
  const box = h('input', { type: 'checkbox' });
  return { element: h('label', { class: 'option tick' }, box, h('span', {}, label)), box };
};

/** A wrong entry, in a sentence. */
class WrongEntry extends Error {
  constructor(
    readonly entry: HTMLElement,
    says: string,
  ) {
    super(says);
  }
}

/** A whole number in its range; undefined where the entry is blank. */
function wholeIn(
  entry: HTMLInputElement,
  what: string,
  { min, max }: { readonly min: number; readonly max: number },
): number | undefined {
  const text = entry.value.trim();
  if (text === '') return undefined;
  const value = Number(text);
  if (Number.isInteger(value) && value >= min && value <= max) return value;
  throw new WrongEntry(entry, `${what}: type a whole number from ${min} to ${max}.`);
}

/** Names as they were typed, each of which has to be one of those that are there. */
function namesIn(entry: HTMLInputElement, known: readonly string[], what: string): string[] {
  const spelled = new Map(known.map((name) => [name.trim().toLowerCase(), name]));
  return entry.value
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '')
    .map((name) => {
      const found = spelled.get(name.toLowerCase());
      if (found !== undefined) return found;
      throw new WrongEntry(entry, `There is no ${what} called "${name}".`);
    });
}

/** What a grower says before a plan is made. `today`: of this machine. */
export function wishesForm(farm: Farm, today: number): WishesForm {
  const part = choice([
    ['both', 'Fish, then beds to their feed'],
    ['fish', 'Fish'],
    ['beds', 'Beds'],
  ]);
  const weeks = wholeEntry('52');
  const seconds = choice([
    ['20', '20 seconds for each'],
    ['60', '1 minute for each'],
    ['180', '3 minutes for each'],
  ]);
  const day = choice([
    ['plan', `The day of the plan, ${isoText(farm.asOf)}`],
    ['today', `Today, ${isoText(today)}`],
  ]);
  const without = h('input', { type: 'text', autocomplete: 'off' });
  const trellis = h('input', { type: 'text', autocomplete: 'off' });
  const nursery = wholeEntry();
  const rest = wholeEntry();
  const rotate = tick('No crop after one of its own family in a bed');
  const outOfSeason = tick('Crops in months that do not suit them, too');
  const problem = h('p', { class: 'problem', role: 'alert', hidden: true });
  const beds = farm.beds.map(({ name }) => name);

  function wishesNow(): AskedOfForm {
    const planned = part.value as PlannedPart;
    const nurseryHolds = wholeIn(nursery, 'Seedlings that the nursery holds', {
      min: 0,
      max: 1e6,
    });
    const restDays = wholeIn(rest, 'Days of rest', { min: 0, max: 60 });
    const shade = namesIn(trellis, beds, 'bed');
    const tanks = farm.tanks.map(({ name }) => name);
    const known = planned === 'fish' ? tanks : planned === 'beds' ? beds : [...tanks, ...beds];
    const what = planned === 'fish' ? 'tank' : planned === 'beds' ? 'bed' : 'tank or bed';
    const range = PLANNED_WEEKS[planned];
    const many = wholeIn(weeks, 'Weeks', range);
    if (many === undefined) {
      throw new WrongEntry(weeks, `Weeks: type a whole number from ${range.min} to ${range.max}.`);
    }
    return {
      day: day.value === 'today' ? today : farm.asOf,
      wishes: {
        part: planned,
        weeks: many,
        seconds: Number(seconds.value),
        without: namesIn(without, known, what),
        rotate: rotate.box.checked,
        outOfSeason: outOfSeason.box.checked,
        ...(nurseryHolds !== undefined && { nursery: nurseryHolds }),
        ...(restDays !== undefined && { restDays }),
        ...(shade.length > 0 && { trellis: shade }),
      },
    };
  }

  const entries = [weeks, without, trellis, nursery, rest];
  const element = h(
    'div',
    { class: 'ahead-wishes' },
    h(
      'div',
      { class: 'grid' },
      field('What is planned', part),
      field('Weeks', weeks, 'From 8 to 60; fish alone from 4 to 104.'),
      field('Search for at most', seconds),
    ),
    today !== farm.asOf &&
      field(
        'From',
        day,
        'Everything in the workbook is worked out for its day of the plan. From today: the rows are written together with today as the day of the plan.',
      ),
    folded(
      'More wishes',
      false,
      field(
        'Leave alone',
        without,
        'Tanks for breeders or quarantine, beds that are spoken for; names with commas between.',
      ),
      rotate.element,
      outOfSeason.element,
      field('Seedlings that the nursery holds', nursery, 'Blank: no bound.'),
      field('Days that a bed rests after a crop', rest, 'Blank: as the crop table says.'),
      field(
        'Beds in which tall crops shade nobody',
        trellis,
        'Names with commas between. Blank: all.',
      ),
    ),
    problem,
  );
  return {
    element,
    asked: () => {
      for (const entry of entries) entry.removeAttribute('aria-invalid');
      say(problem, undefined);
      try {
        return wishesNow();
      } catch (fault) {
        if (!(fault instanceof WrongEntry)) throw fault;
        fault.entry.setAttribute('aria-invalid', 'true');
        const around = fault.entry.closest('details');
        if (around) around.open = true;
        say(problem, fault.message);
        fault.entry.focus();
        return undefined;
      }
    },
  };
}
