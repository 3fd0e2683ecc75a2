import { type Card, cautionsOf } from './card';
import type { Question } from './questions';

/** Words that say nothing about what is looked for. */
const EMPTY = new Set(
  'a an and are at be can do does for from go have how i in is it many me much must my need of on one per should so the that there they this to up was we what when which why will with you your'.split(
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

const stems = (text: string): string[] => [...new Set(words(text).map(stem))];

/** What is searched of one function: plain data, so that a page can carry it without the functions. */
export interface SearchEntry {
  readonly id: string;
  /** Summary, search words and questions as they are written, for whole phrases. */
  readonly phrases: string;
  /** The words that are searched, most telling first. */
  readonly fields: readonly (readonly string[])[];
}

/** Names that may stand in an argument, with their other spellings: a crop is found by either of its names. */
const namesOf = (card: Card): string =>
  card.parameters.flatMap((one) => one.spellings?.() ?? []).join(' ');

export function searchEntry(card: Card, asked: readonly Question[]): SearchEntry {
  const own = (card.searchWords ?? []).join(' | ');
  const questions = asked.filter(({ ids }) => ids.includes(card.id)).map((one) => one.question);
  return {
    id: card.id,
    phrases: [card.summary, own, ...questions].join(' | ').toLowerCase(),
    fields: [
      card.id.replaceAll('.', ' '),
      own,
      card.summary,
      questions.join(' '),
      `${card.subject} ${card.parameters.map((one) => `${one.name} ${one.meaning}`).join(' ')}`,
      `${card.method} ${cautionsOf(card).join(' ')} ${namesOf(card)}`,
    ].map(stems),
  };
}

const weights = [10, 8, 6, 4, 2, 1];
/** The whole query as it stands in the summary, the search words or a question. */
const PHRASE = 12;
/** What scores less than this share of the best is noise. */
const KEEP = 0.3;

/** How well one word fits: whole words before beginnings. */
function fit(entry: SearchEntry, word: string): number {
  let best = 0;
  entry.fields.forEach((field, i) => {
    const weight = weights[i] ?? 1;
    if (field.includes(word)) best = Math.max(best, weight);
    else if (field.some((one) => one.startsWith(word))) best = Math.max(best, weight * 0.7);
  });
  return best;
}

/**
 * Ids of what fits a grower's words, best first; all of them for no words. Every word must fit somewhere;
 * where nothing fits them all, what fits most of them is given.
 */
export function searchIds(entries: readonly SearchEntry[], query: string): readonly string[] {
  const phrase = query
    .trim()
    .toLowerCase()
    .replace(/[?.!]+$/, '');
  const wanted = stems(query);
  if (wanted.length === 0) return entries.map((entry) => entry.id);
  const found = entries.map((entry) => {
    const fits = wanted.map((word) => fit(entry, word));
    return {
      id: entry.id,
      hits: fits.filter((one) => one > 0).length,
      score:
        fits.reduce((sum, one) => sum + one, 0) +
        (entry.phrases.includes(phrase) ? PHRASE : 0) +
        (entry.id.toLowerCase() === phrase ? PHRASE : 0),
    };
  });
  const most = Math.max(...found.map((one) => one.hits));
  if (most === 0) return [];
  const fitting = found.filter((one) => one.hits === most).sort((a, b) => b.score - a.score);
  const least = (fitting[0]?.score ?? 0) * KEEP;
  return fitting.filter((one) => one.score >= least).map((one) => one.id);
}
