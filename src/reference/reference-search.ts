import { type SearchEntry, searchIds } from '../functions/search';

// Shows, best first, what fits the words that are being typed.
const part = <T extends HTMLElement>(id: string): T | null => document.querySelector<T>(`#${id}`);

const box = part<HTMLInputElement>('search');
const count = part('count');
const found = part('found');
const browse = part('browse');
const entries = JSON.parse(part('entries')?.textContent ?? '[]') as SearchEntry[];

function show(): void {
  if (!box || !count || !found || !browse) return;
  const asked = box.value.trim() !== '';
  const ids = asked ? searchIds(entries, box.value) : [];
  found.hidden = ids.length === 0;
  browse.hidden = asked;
  count.textContent = !asked
    ? ''
    : ids.length === 0
      ? 'Nothing fits these words. Try one word of the trade: oxygen, feed, seed, pump.'
      : `${ids.length} ${ids.length === 1 ? 'function' : 'functions'}, the best first`;
  found.replaceChildren(
    ...ids.flatMap((id) => browse.querySelector(`[data-id="${id}"]`)?.cloneNode(true) ?? []),
  );
}

box?.addEventListener('input', show);
// The browser keeps what was typed when one comes back to the page.
show();
