import { cropTable } from '../../functions/crop-table';
import { speciesTable } from '../../functions/species-table';
import { serialFromIsoText } from '../../core/serial-date';
import { alternativesTo } from '../../size/alternatives';
import { cropNamed, usualUnit } from '../../size/bed-size';
import { farmOfProposal } from '../../size/farm-of-proposal';
import { propose, type Proposal } from '../../size/proposal';
import { partsOf, summaryOf } from '../../size/proposal-lines';
import { readWish, WishFileError } from '../../size/wish';
import { marketUnits } from '../../plan/farm';
import { shownIn, type UnitSystem } from '../../plan/quantities';
import { button } from '../button';
import type { Host } from '../host';
import { variantsPart } from './variants-view';
import { freshId, h } from '../dom';
import type { Json } from './draft';

/** Eight answers, and the farm that is proposed for them while they are given. */

const SETTLED_MS = 150;

interface WishView {
  readonly element: HTMLElement;
  readonly focus: () => void;
}

/** A label with its entry, its unit and what it means. */
function line(
  label: string,
  entry: HTMLInputElement | HTMLSelectElement,
  { unit, hint }: { readonly unit?: HTMLElement; readonly hint?: string } = {},
): HTMLElement {
  const id = freshId('wish');
  entry.id = id;
  const says = hint === undefined ? undefined : h('p', { class: 'hint', id: `${id}-hint` }, hint);
  if (says) entry.setAttribute('aria-describedby', says.id);
  return h(
    'div',
    { class: 'field' },
    h('label', { for: id }, label),
    h('div', { class: 'entry' }, entry, unit),
    says,
  );
}

const figure = (): HTMLInputElement =>
  h('input', { type: 'text', inputmode: 'decimal', class: 'figure', autocomplete: 'off' });

const choice = (words: readonly (readonly [value: string, text: string])[]): HTMLSelectElement =>
  h('select', {}, ...words.map(([value, text]) => h('option', { value }, text)));

const named = (names: readonly string[]): HTMLSelectElement =>
  choice([['', 'choose'], ...names.map((name): [string, string] => [name, name])]);

/** What was typed: a number where it is one, else the text, whose sentence says what would be right. */
function typed(entry: HTMLInputElement): number | string | undefined {
  const text = entry.value.trim();
  if (text === '') return undefined;
  const value = Number(text);
  return Number.isFinite(value) ? value : text;
}

interface MarketRow {
  readonly element: HTMLElement;
  readonly wish: () => object | undefined;
}

function marketRow(units: () => UnitSystem, changed: () => void): MarketRow {
  const crop = named(cropTable.book.names);
  const unit = choice(marketUnits.map((word): [string, string] => [word, word]));
  const perWeek = figure();
  crop.setAttribute('aria-label', 'Crop');
  unit.setAttribute('aria-label', 'Sold by');
  perWeek.setAttribute('aria-label', 'So many a week');
  crop.addEventListener('change', () => {
    if (crop.value !== '') unit.value = usualUnit(cropNamed(crop.value), units());
    changed();
  });
  unit.addEventListener('change', changed);
  perWeek.addEventListener('input', changed);
  return {
    element: h('div', { class: 'wish-crop' }, crop, perWeek, unit),
    wish: () => {
      const amount = typed(perWeek);
      if (crop.value === '' || amount === undefined) return undefined;
      return { crop: crop.value, unit: unit.value, perWeek: amount };
    },
  };
}

const remarkClass = { 'gives way': 'caution', missing: 'advice', note: 'quiet' } as const;

/**
 * @param today yyyy-mm-dd
 * @param take gets the farm file of the proposal
 * @param choose gets that of a variant that is to be the plan
 */
export function wishView(
  today: string,
  take: (farm: Json) => void,
  choose: (farm: Json, origin: string) => void,
  back: () => void,
  host: Host,
): WishView {
  const units = choice([
    ['metric', 'metric'],
    ['US', 'US'],
  ]);
  const currency = h('input', { type: 'text', value: 'EUR', autocomplete: 'off', maxlength: 8 });
  const latitude = figure();
  const coldest = figure();
  const warmest = figure();
  const heated = choice([
    ['', 'choose'],
    ['yes', 'yes'],
    ['no', 'no'],
  ]);
  const species = named(speciesTable.book.names);
  const amount = figure();
  const have = h('textarea', { rows: 3, spellcheck: 'false' });
  const degrees = [h('span', { class: 'unit' }), h('span', { class: 'unit' })] as const;
  const weight = h('span', { class: 'unit' });
  const rows = h('div', { class: 'wish-market', role: 'group', 'aria-label': 'Market, a week' });
  const market: MarketRow[] = [];
  const said = h('section', { class: 'proposal', 'aria-label': 'Proposal', 'aria-live': 'polite' });
  /** Chosen otherwise than it is proposed. */
  let choices: Readonly<Record<string, unknown>> = {};

  const system = (): UnitSystem => (units.value === 'US' ? 'US' : 'metric');

  function wishNow(): unknown {
    const kg = typed(amount);
    const lines = have.value.split('\n').filter((text) => text.trim() !== '');
    const fields = {
      units: system(),
      asOf: today,
      currency: currency.value.trim() === '' ? undefined : currency.value.trim(),
      latitude: typed(latitude),
      coldest: typed(coldest),
      warmest: typed(warmest),
      heated: heated.value === '' ? undefined : heated.value === 'yes',
      fish: {
        ...(species.value !== '' && { species: species.value }),
        ...(kg !== undefined && { [system() === 'US' ? 'lbPerMonth' : 'kgPerMonth']: kg }),
      },
      market: market.flatMap((row) => row.wish() ?? []),
      have: lines,
      choices,
    };
    return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));
  }

  const changeable = (proposal: Proposal): HTMLElement => {
    const set = (changed: Readonly<Record<string, unknown>>): void => {
      choices = { ...choices, ...changed };
      show();
    };
    const excess = proposal.wish.choices.excess === 'stays';
    return h(
      'div',
      { class: 'actions stacked' },
      ...alternativesTo(proposal).map(({ title, choices: other, proposal: instead }) =>
        h(
          'div',
          { class: 'alternative' },
          button(title, () => set(other), { small: true }),
          h('p', { class: 'quiet' }, summaryOf(instead)),
        ),
      ),
      excess
        ? button('Let the wish that is too large give way', () => set({ excess: 'gives way' }), {
            small: true,
          })
        : proposal.remarks.some(
            ({ kind, says }) => kind === 'gives way' && / gives? way/.test(says),
          ) &&
            button('Keep both wishes as they are', () => set({ excess: 'stays' }), { small: true }),
      Object.keys(choices).length > 0 &&
        button(
          'Back to what is proposed',
          () => {
            choices = {};
            show();
          },
          { small: true, look: 'subtle' },
        ),
    );
  };

  function show(): void {
    const { unit } = shownIn('temperature', system());
    for (const degree of degrees) degree.textContent = unit;
    weight.textContent = shownIn('massMonth', system()).unit;
    try {
      const proposal = propose(readWish(wishNow(), serialFromIsoText(today) as number));
      const parts = partsOf(proposal);
      said.replaceChildren(
        h('h3', {}, 'Proposal'),
        ...proposal.remarks.map(({ kind, says }) => h('p', { class: remarkClass[kind] }, says)),
        ...parts.map(({ title, lines }) =>
          h(
            'section',
            { class: 'proposal-part' },
            h('h4', {}, title),
            h(
              'dl',
              {},
              ...lines.flatMap(({ what, says, why }) => [
                h('dt', {}, what),
                h('dd', {}, says, h('span', { class: 'quiet why' }, why)),
              ]),
            ),
          ),
        ),
        changeable(proposal),
        h(
          'div',
          { class: 'actions' },
          button('Take this farm', () => take(farmOfProposal(proposal) as unknown as Json), {
            look: 'primary',
          }),
        ),
        h(
          'p',
          { class: 'quiet' },
          'The form opens with it: build the plan from there, or change anything first. What nobody said is marked as preset.',
        ),
      );
    } catch (fault) {
      if (!(fault instanceof WishFileError)) throw fault;
      said.replaceChildren(
        h('h3', {}, 'Proposal'),
        ...fault.wrong.map((sentence) => h('p', { class: 'problem' }, sentence)),
      );
    }
  }

  let timer: ReturnType<typeof setTimeout> | undefined;
  const changed = (): void => {
    clearTimeout(timer);
    timer = setTimeout(show, SETTLED_MS);
  };
  const addRow = (): void => {
    const row = marketRow(system, changed);
    market.push(row);
    rows.append(row.element);
  };
  addRow();
  for (const entry of [currency, latitude, coldest, warmest, amount, have])
    entry.addEventListener('input', changed);
  for (const entry of [units, heated, species]) entry.addEventListener('change', changed);
  show();
  const haveId = freshId('have');
  have.id = haveId;
  return {
    focus: () => latitude.focus(),
    element: h(
      'div',
      { class: 'wish' },
      h('h2', {}, 'Start from a wish'),
      h(
        'p',
        {},
        'Say what you want to sell, and where. Everything else is proposed, with its reason; an answer that you leave out stays blank in the plan.',
      ),
      h(
        'div',
        { class: 'grid' },
        line('Latitude', latitude, { hint: 'South of the equator with a minus sign.' }),
        line('Coldest month, mean air under cover', coldest, { unit: degrees[0] }),
        line('Warmest month, mean air under cover', warmest, { unit: degrees[1] }),
        line('Is the water heated?', heated),
        line('Fish', species),
        line('Fish to sell', amount, { unit: weight }),
        line('Units', units),
        line('Currency', currency),
      ),
      h('h3', {}, 'What the market wants a week'),
      rows,
      h('div', { class: 'actions' }, button('Another crop', addRow, { small: true })),
      h(
        'details',
        { class: 'section' },
        h('summary', {}, 'What I have'),
        h(
          'div',
          { class: 'field' },
          h('label', { for: haveId }, 'Tanks and beds that are there, a group in each line'),
          have,
          h(
            'p',
            { class: 'hint' },
            'Such as “4 tanks of 7.8 m3” or “24 rafts of 7.2 x 1.2 m with lettuce”. Then the proposal says what they can sell.',
          ),
        ),
      ),
      said,
      variantsPart({ host, today, take: choose }, () =>
        readWish(wishNow(), serialFromIsoText(today) as number),
      ),
      h('div', { class: 'actions' }, button('Start again', back, { look: 'subtle', small: true })),
    ),
  };
}
