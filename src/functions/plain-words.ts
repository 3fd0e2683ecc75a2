import { nameKey } from '../core/nearest-name';
import { quoted } from './plain';

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
    const word = words.find((one) => keysOf(one).includes(key));
    return word === undefined ? otherwise : of(word);
  }
  // A space on either side keeps a part of a word from being found: keys hold none.
  const key = `" "&LOWER(SUBSTITUTE(SUBSTITUTE(SUBSTITUTE(${text}," ",""),"-",""),"_",""))&" "`;
  return words.reduceRight(
    (rest, word) =>
      `IF(ISNUMBER(FIND(${key},${quoted(` ${keysOf(word).join(' ')} `)})),${of(word)},${rest})`,
    otherwise,
  );
}
