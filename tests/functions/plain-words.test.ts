import { describe, expect, it } from 'vitest';
import { plainByWord } from '../../src/functions/plain-words';

const picked = (text: string): string =>
  plainByWord(text, { square: ['grid'], 'first cut': [] }, (word) => `<${word}>`, 'NA()');

describe('a formula that picks by a word', () => {
  it.each([
    ['"square"', '<square>'],
    ['"GRID"', '<square>'],
    ['"First-cut"', '<first cut>'],
    ['"circle"', 'NA()'],
    ['""', 'NA()'],
  ])('has chosen already where the word is written out: %s', (text, formula) => {
    expect(picked(text)).toBe(formula);
  });

  it.each(['A1', 'A1&"square"', '"square"&A1'])('looks in the sheet at %s', (text) => {
    const key = `" "&LOWER(SUBSTITUTE(SUBSTITUTE(SUBSTITUTE(${text}," ",""),"-",""),"_",""))&" "`;
    expect(picked(text)).toBe(
      `IF(ISNUMBER(FIND(${key}," square grid ")),<square>,IF(ISNUMBER(FIND(${key}," firstcut ")),<first cut>,NA()))`,
    );
  });
});
