import type { Card } from '../../functions/card';

/** Words that say nothing about what is looked for. */
const EMPTY = new Set(
  'a an and are at can do does for from have how i in is it many much must my need of on per should the to what when which will with you'.split(
    ' ',
  ),
);

const words = (text: string): string[] =>
  text
    .toLowerCase()
    .split(/[^\p{L}\d]+/u)
    .filter((word) => word !== '' && !EMPTY.has(word));

/** "sowing" finds "sow", "stocked" finds "stock", "fishes" finds "fish". */
const stem = (word: string): string =>
  word.length > 4 ? word.replace(/(?:ing|ed|es|s)$/, '') || word : word;

interface Entry {
  readonly card: Card;
  /** Summary and search words as they are written, for whole phrases. */
  readonly phrases: string;
  /** What is searched, most telling first. */
  readonly fields: readonly (readonly string[])[];
}

const entryOf = (card: Card): Entry => ({
  card,
  phrases: [card.summary, ...(card.searchWords ?? [])].join(' | ').toLowerCase(),
  fields: [
    words(card.id.replaceAll('.', ' ')),
    words((card.searchWords ?? []).join(' ')),
    words(card.summary),
    words(
      `${card.subject} ${card.parameters.map((one) => `${one.name} ${one.meaning}`).join(' ')}`,
    ),
    words(`${card.method} ${card.caution ?? ''}`),
  ].map((field) => field.map(stem)),
});

const weights = [10, 8, 6, 2, 1];
/** The whole query as it stands in the summary or the search words. */
const PHRASE = 12;
/** What scores less than this share of the best is noise. */
const KEEP = 0.3;

/** How well one word fits: whole words before beginnings. */
function fit(entry: Entry, word: string): number {
  let best = 0;
  entry.fields.forEach((field, i) => {
    const weight = weights[i] ?? 1;
    if (field.includes(word)) best = Math.max(best, weight);
    else if (field.some((one) => one.startsWith(word))) best = Math.max(best, weight * 0.7);
  });
  return best;
}

/**
 * Cards that fit a grower's words, best first; all of them for no words. Every word must fit somewhere;
 * where no card fits them all, the ones that fit most of them are given.
 */
export function searchCards(cards: readonly Card[], query: string): readonly Card[] {
  const phrase = query
    .trim()
    .toLowerCase()
    .replace(/[?.!]+$/, '');
  const wanted = [...new Set(words(query).map(stem))];
  if (wanted.length === 0) return cards;
  const found = cards.map(entryOf).map((entry) => {
    const fits = wanted.map((word) => fit(entry, word));
    return {
      card: entry.card,
      hits: fits.filter((one) => one > 0).length,
      score:
        fits.reduce((sum, one) => sum + one, 0) +
        (entry.phrases.includes(phrase) ? PHRASE : 0) +
        (entry.card.id.toLowerCase() === phrase ? PHRASE : 0),
    };
  });
  const most = Math.max(...found.map((one) => one.hits));
  if (most === 0) return [];
  const fitting = found.filter((one) => one.hits === most).sort((a, b) => b.score - a.score);
  const least = (fitting[0]?.score ?? 0) * KEEP;
  return fitting.filter((one) => one.score >= least).map((one) => one.card);
}
