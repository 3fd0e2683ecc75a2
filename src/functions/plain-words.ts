import { nameKey } from '../core/nearest-name';
import { quoted } from './literals';

/** Condition that a formula text is one of these keys (see nameKey), however it is written. */
export const isAnyOf = (text: string, keys: readonly string[]): string =>
  // A space on either side keeps a part of a word from being found: keys hold none.
  `ISNUMBER(FIND(" "&LOWER(SUBSTITUTE(SUBSTITUTE(SUBSTITUTE(${text}," ",""),"-",""),"_",""))&" ",${quoted(` ${keys.join(' ')} `)}))`;

/**
 * Formula that picks by a word, whatever its case, spaces or hyphens, in any of its spellings.
 * `text` is a formula text; where it is a literal the choice is made here and now.
 * `of` gives the formula for each word, `otherwise` the one for anything else.
 */
export function plainByWord<C extends string>(
  text: string,
  choices: Readonly<Record<C, readonly string[]>>,
  of: (word: C) => string,
  otherwise: string,
): string {
  const words = Object.keys(choices) as C[];
  const keysOf = (word: C): string[] => [...new Set([word, ...choices[word]].map(nameKey))];
  const literal = /^"(.*)"$/.exec(text);
  if (literal) {
    const key = nameKey(literal[1] as string);
    const word = words.find((word) => keysOf(word).includes(key));
    return word === undefined ? otherwise : of(word);
  }
  return words.reduceRight(
    (rest, word) => `IF(${isAnyOf(text, keysOf(word))},${of(word)},${rest})`,
    otherwise,
  );
}

/** The other spellings of each word of a table. */
export const spellingsOf = <C extends string>(
  table: Readonly<Record<C, { readonly spellings: readonly string[] }>>,
): Readonly<Record<C, readonly string[]>> =>
  Object.fromEntries(
    Object.entries<{ readonly spellings: readonly string[] }>(table).map(([word, row]) => [
      word,
      row.spellings,
    ]),
  ) as Record<C, readonly string[]>;
