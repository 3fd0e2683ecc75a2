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

/** The words stand behind the # of the address: back brings them again, and they can be sent on. */
const ASKED = '#find=';
const fromAddress = (): void => {
  if (!box || !location.hash.startsWith(ASKED)) return;
  try {
    box.value = decodeURIComponent(location.hash.slice(ASKED.length));
  } catch {
    box.value = '';
  }
};
box?.addEventListener('input', () => {
  const asked = box.value.trim();
  history.replaceState(
    null,
    '',
    asked === '' ? location.pathname + location.search : ASKED + encodeURIComponent(asked),
  );
  show();
});
window.addEventListener('hashchange', () => {
  fromAddress();
  show();
});
fromAddress();
show();
