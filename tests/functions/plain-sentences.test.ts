import { describe, expect, it } from 'vitest';
import { cards } from '../../src/functions/list';
import { plainFormula } from '../../src/functions/plain';

/** The plain form of a card with every argument in a cell of its own. */
function fromCells(id: string): string {
  const card = cards.find((one) => one.id === id);
  if (!card || card.columns) throw new Error(`No card of one value is called ${id}`);
  return plainFormula(
    card,
    card.parameters.map((_, i) => `${'ABCDEFGHIJ'[i] as string}1`),
  );
}

/** VALUE of a sentence is #VALUE! in every spreadsheet, and the reader of the formula finds the sentence. */
const said = (id: string): string[] =>
  [...fromCells(id).matchAll(/VALUE\("([^"]+)"\)/g)].map((match) => match[1] ?? '');

describe('a plain form says in its formula what would be right', () => {
  it.each([
    ['DOSE.BASE', /^base must be one of: \S/],
    ['DOSE.SALT', /^salt must be one of: \S/],
    ['BED.DENSITY', /^pattern must be square or triangular$/],
    ['BED.AREA', /density/],
    ['FEED.RATE', /^weight must be more than 0/],
    ['SUN.HOURS', /^latitude must be between -90 and 90/],
  ])('GILL.%s: %s', (id, sentence) => {
    expect(said(id).filter((one) => sentence.test(one)).length).toBeGreaterThan(0);
  });

  it('has no empty sentence anywhere', () => {
    for (const card of cards) {
      if (!card.columns) expect(fromCells(card.id), card.id).not.toContain('VALUE("")');
    }
  });
});
