import { type Card, cautionsOf } from './card';
import type { Question } from './questions';

/** One spelling for British and American: litre and liter, mould and mold, colour and color, -ise and -ize. */
const spelling = (word: string): string =>
  word
    .replace(/([^aeiou])res?$/, '$1er')
    .replace(/^(s?m)ould/, '$1old')
    // Colour and odour, but neither four nor hour: those have no vowel before.
    .replace(/(?<=[aeiou][^aeiou]+)our(?=$|s$|ed$)/, 'or')
    .replace(/is(?=e$|ed$|er$|ing$|ation$)/, 'iz')
    .replace('sulph', 'sulf')
    .replace('grey', 'gray');

const spelled = (text: string): string => text.toLowerCase().replace(/\p{L}+/gu, spelling);

/** Words that say nothing about what is looked for. */
const EMPTY = new Set(
  'a am an and any are at be can do does for from get go have how i if in into is it its many me much must my need of on one or per should so some that the their them there they this to too up want was we what when which why will with you your'
    .split(' ')
    .map(spelling),
);

/** Words of a question that are looked for only where they stand alone. */
const FILLERS = new Set(['could', 'might', 'would']);

/** "sowing" finds "sow", "stocked" finds "stock", "fishes" finds "fish". */
const stem = (word: string): string =>
  word.length > 4 ? word.replace(/(?:ing|ed|(?<=ch|sh|ss|x|z|o)es|(?<![su])s)$/, '') : word;

/** The telling words of a text; a bare number tells nothing. */
const stems = (text: string): string[] => [
  ...new Set(
    spelled(text)
      .split(/[^\p{L}\d]+/u)
      .filter((word) => /\p{L}/u.test(word) && !EMPTY.has(word))
      .map(stem),
  ),
];

const withoutFillers = (words: readonly string[]): readonly string[] => {
  const telling = words.filter((word) => !FILLERS.has(word));
  return telling.length === 0 ? words : telling;
};

const isPhrase = (text: string): boolean => text.includes(' ');

/** What is searched of one function: plain data, so that a page can carry it without the functions. */
export interface SearchEntry {
  readonly id: string;
  /** Summary, search words and questions in one spelling, for whole phrases. */
  readonly phrases: readonly string[];
  /** The words that are searched, most telling first. */
  readonly fields: readonly (readonly string[])[];
  /** Names of several words that may stand in its arguments: "bell pepper" has nothing to do with a bell. */
  readonly names: readonly string[];
}

/** Names that may stand in an argument, with their other spellings: a crop is found by either of its names. */
const namesOf = (card: Card): readonly string[] =>
  card.parameters.flatMap((parameter) => parameter.spellings?.() ?? []);

export function searchEntry(card: Card, asked: readonly Question[]): SearchEntry {
  const own = card.searchWords ?? [];
  const questions = asked
    .filter(({ ids }) => ids.includes(card.id))
    .map((question) => question.question);
  return {
    id: card.id,
    phrases: [card.summary, ...own, ...questions].map(spelled),
    fields: [
      card.id.replaceAll('.', ' '),
      own.join(' '),
      card.summary,
      questions.join(' '),
      `${card.subject} ${card.parameters.map((parameter) => `${parameter.name} ${parameter.meaning}`).join(' ')}`,
      namesOf(card).join(' '),
      `${card.method} ${cautionsOf(card).join(' ')}`,
    ].map(stems),
    names: [...new Set(namesOf(card).map((text) => stems(text).join(' ')))].filter(isPhrase),
  };
}

const NAME = 4;
const weights = [10, 8, 6, 4, 2, NAME, 0.5];
/** The whole query stands in the summary, the search words or a question, or a phrase of theirs in it. */
const PHRASE = 30;
/** How much a word counts that is only akin: "germinate" for "germination". */
const AKIN = 0.7;
/** What scores less than this share of the best is noise. */
const KEEP = 0.35;

/** Words of one root: all of the shorter but its last letter begins the longer. */
const akin = (one: string, other: string): boolean => {
  const begin = Math.max(6, Math.min(one.length, other.length) - 1);
  return one.length >= begin && other.startsWith(one.slice(0, begin));
};

/** How well one word fits: whole words before those of one root, or begun by a word still being typed. */
function fit(entry: SearchEntry, word: string, begun: boolean): number {
  let best = 0;
  entry.fields.forEach((field, i) => {
    const weight = weights[i] as number;
    if (weight <= best) return;
    if (field.includes(word)) best = weight;
    else if (field.some((text) => akin(word, text) || (begun && text.startsWith(word)))) {
      best = Math.max(best, weight * AKIN);
    }
  });
  return best;
}

/** Takes the longest name that several functions know out of the words, if there is one. */
function takeName(
  entries: readonly SearchEntry[],
  words: readonly string[],
): { readonly name: string; readonly rest: readonly string[] } | undefined {
  const text = ` ${words.join(' ')} `;
  const name = entries
    .flatMap(({ names }) => names)
    .filter((known, i, all) => text.includes(` ${known} `) && all.indexOf(known) !== i)
    .reduce((longest, text) => (text.length > longest.length ? text : longest), '');
  return name === ''
    ? undefined
    : { name, rest: text.replace(` ${name} `, ' ').split(' ').filter(Boolean) };
}

/** Ids of what fits a grower's words, best first; all of them for no words. A rare word tells more. */
export function searchIds(entries: readonly SearchEntry[], query: string): readonly string[] {
  const phrase = spelled(query.trim().replace(/[?.!]+$/, ''));
  const wanted = withoutFillers(stems(query));
  if (wanted.length === 0) return entries.map((entry) => entry.id);
  const scores: number[] = entries.map(({ id, phrases }) =>
    phrases.some(
      (text) =>
        (isPhrase(phrase) && text.includes(phrase)) || (isPhrase(text) && phrase.includes(text)),
    ) || id === query.trim().toUpperCase()
      ? PHRASE
      : 0,
  );
  const add = (fits: readonly number[]): void => {
    const count = fits.filter((fit) => fit > 0).length;
    fits.forEach((fit, at) => {
      if (fit > 0)
        scores[at] = (scores[at] as number) + fit * Math.log2(1 + entries.length / count);
    });
  };
  const named = takeName(entries, wanted);
  if (named) add(entries.map(({ names }) => (names.includes(named.name) ? NAME : 0)));
  (named?.rest ?? wanted).forEach((word) => {
    const begun = word === wanted.at(-1);
    add(entries.map((entry) => fit(entry, word, begun)));
  });
  const best = Math.max(...scores);
  return best === 0
    ? []
    : entries
        .map(({ id }, at) => ({ id, score: scores[at] as number }))
        .filter(({ score }) => score >= best * KEEP)
        .sort((a, b) => b.score - a.score)
        .map(({ id }) => id);
}
