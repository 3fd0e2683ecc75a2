import { quoted } from './literals';

/** Condition that a formula text is one of these keys (see nameKey), however it is written. */
export const isAnyOf = (text: string, keys: readonly string[]): string =>
  // A space on either side keeps a part of a word from being found: keys hold none.
  `ISNUMBER(FIND(" "&LOWER(SUBSTITUTE(SUBSTITUTE(SUBSTITUTE(${text}," ",""),"-",""),"_",""))&" ",${quoted(` ${keys.join(' ')} `)}))`;

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
