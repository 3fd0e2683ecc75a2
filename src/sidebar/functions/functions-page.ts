import { type Card, cautionsOf, subjects } from '../../functions/card';
import { cards, findCard, NAMESPACE } from '../../functions/card-list';
import { questions } from '../../functions/questions';
import { type SearchEntry, searchEntry, searchIds } from '../../functions/search';
import type { Host } from '../host';
import { button } from '../button';
import { cautionsBox } from '../cautions-box';
import { freshId, h } from '../dom';
import type { Page } from '../page';
import { functionFacts } from './function-card';
import { functionForm } from './function-form';

const entry = (card: Card, open: (card: Card) => void): HTMLElement =>
  h(
    'li',
    {},
    h(
      'button',
      { type: 'button', class: 'choice', 'data-id': card.id, on: { click: () => open(card) } },
      h('code', {}, card.id),
      h('span', {}, card.summary),
    ),
  );

let entries: readonly SearchEntry[] | undefined;

function searchCards(query: string): readonly Card[] {
  entries ??= cards.map((card) => searchEntry(card, questions));
  return searchIds(entries, query).flatMap((id) => findCard(id) ?? []);
}

/** All cards under their subjects, or what a search found in its own order. */
function listOf(query: string, open: (card: Card) => void): Node[] {
  const found = searchCards(query);
  if (found.length === 0) {
    return [
      h(
        'p',
        { class: 'quiet' },
        'Nothing fits these words. Try one word of the trade: feed, density, ammonia, sow, seed, flow.',
      ),
    ];
  }
  if (query.trim() !== '') {
    return [h('ul', { class: 'choices' }, ...found.map((card) => entry(card, open)))];
  }
  return subjects
    .filter((subject) => found.some((card) => card.subject === subject))
    .flatMap((subject) => [
      h('h2', { class: 'subject' }, subject),
      h(
        'ul',
        { class: 'choices' },
        ...found.filter((card) => card.subject === subject).map((card) => entry(card, open)),
      ),
    ]);
}

function render(panel: HTMLElement, host: Host): void {
  const id = freshId('search');
  const search = h('input', {
    id,
    type: 'search',
    autocomplete: 'off',
    placeholder: 'ammonia, sow, how many fish',
  });
  const list = h('div', { class: 'found' });
  const count = h('p', { class: 'quiet count', role: 'status' });
  const browse = h(
    'div',
    {},
    h('label', { for: id }, 'What do you want to know?'),
    h('div', { class: 'entry' }, search),
    count,
    list,
  );
  const detail = h('div', { hidden: true });
  let close: (() => void) | undefined;

  const back = (): void => {
    const shown = detail.dataset['id'];
    close?.();
    close = undefined;
    detail.hidden = true;
    detail.replaceChildren();
    browse.hidden = false;
    const before = [...list.querySelectorAll<HTMLElement>('[data-id]')].find(
      (element) => element.dataset['id'] === shown,
    );
    (before ?? search).focus();
  };
  const open = (card: Card): void => {
    close?.();
    const form = functionForm(card, host);
    close = form.close;
    const title = h('h2', { tabindex: '-1' }, h('code', {}, `${NAMESPACE}.${card.id}`));
    detail.dataset['id'] = card.id;
    detail.replaceChildren(
      button('‹ All functions', back, {
        look: 'subtle',
        small: true,
        class: 'back',
        label: 'All functions',
      }),
      title,
      h('p', { class: 'summary' }, card.summary),
      ...cautionsBox(cautionsOf(card)),
      form.element,
      functionFacts(card, (other) => {
        const found = findCard(other);
        return found && (() => open(found));
      }),
    );
    browse.hidden = true;
    detail.hidden = false;
    panel.scrollIntoView({ block: 'start' });
    title.focus();
  };
  const show = (): void => {
    list.replaceChildren(...listOf(search.value, open));
    const n = list.querySelectorAll('[data-id]').length;
    count.textContent = search.value.trim() === '' ? '' : n === 1 ? '1 function' : `${n} functions`;
  };
  search.addEventListener('input', show);
  panel.addEventListener('keydown', (event) => {
    if (event.key === 'Escape' && !detail.hidden) back();
  });
  show();
  panel.append(browse, detail);
}

/** Finds a function by the grower's words and helps with its arguments. */
export const functionsPage: Page = { id: 'functions', title: 'Functions', render };
