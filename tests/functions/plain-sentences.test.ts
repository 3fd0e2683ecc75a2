import { describe, expect, it } from 'vitest';
import { cards } from '../../src/functions/card-list';
import { plainFormula } from '../../src/functions/plain';

/** The plain form of a card with every argument in a cell of its own. */
function fromCells(id: string): string {
  const card = cards.find((card) => card.id === id);
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
    ['DOSE.BASE', /^base must be one of: \w[^,]*(?:, \w[^,]*)+$/],
    ['DOSE.SALT', /^salt must be one of: \S/],
    ['BED.DENSITY', /^pattern must be one of: square, triangular$/],
    ['BED.AREA', /density/],
    ['FEED.RATE', /^weight must be more than 0/],
    ['SUN.HOURS', /^latitude must be between -90 and 90/],
  ])('GILL.%s: %s', (id, sentence) => {
    expect(said(id).filter((text) => sentence.test(text)).length).toBeGreaterThan(0);
  });

  it('has no empty sentence anywhere', () => {
    for (const card of cards) {
      if (!card.columns) expect(fromCells(card.id), card.id).not.toContain('VALUE("")');
    }
  });
});

describe('a plain form is no longer than it must be', () => {
  const written = (id: string, ...args: (string | undefined)[]): string => {
    const card = cards.find((card) => card.id === id);
    if (!card || card.columns) throw new Error(`No card of one value is called ${id}`);
    return plainFormula(card, args);
  };

  it('leaves out what salt and altitude do where there are none', () => {
    expect(written('OXYGEN.FULL', '25')).not.toContain('0.017674');
    expect(written('OXYGEN.FULL', '25')).not.toContain('0.0000225577');
    expect(written('OXYGEN.FULL', '25', '5', '100')).toContain('-5*(0.017674');
    expect(written('OXYGEN.FULL', '25', '5', '100')).toContain('0.0000225577*100');
    expect(written('AMMONIA.SHARE', '8', '25')).not.toContain('10.0423');
    expect(written('AMMONIA.SHARE', '8', '25', '5')).toContain('10.0423');
  });

  it('asks nothing of an argument that is left out', () => {
    expect(written('FEED.RATE', '"tilapia"', '500')).toMatch(/\^\(1\/3\)\)$/);
    expect(written('MONEY.BEDWEEK', '16', '0.1', '3', '12')).toBe('16*0.1*3/12');
    expect(written('MONEY.BEDWEEK', '16', '0.1', '3', '12', 'A1')).toContain(
      '/IF(IF(A1=0,"",A1)="",1,IF(A1=0,"",A1))',
    );
  });

  it('knows a pipe by its material, and the wrong one by NA', () => {
    expect(written('FLOW.HEADLOSS', '1000', '50', '10', '20', '0.15')).toContain('0.15/50>0.05');
    expect(written('FLOW.HEADLOSS', '1000', '50', '10', '20', '"cast iron"')).toContain(
      '0.26/50>0.05',
    );
    expect(written('FLOW.HEADLOSS', '1000', '50', '10', '20', 'A1')).toContain(',0.26,NA())');
  });

  it('asks for the density where the crop is given by its weeks', () => {
    expect(written('BED.AREA', '20', '5')).toContain('VALUE("');
    expect(written('BED.AREA', '20', '5', '25')).toBe('20*5/25');
  });

  it('knows staggered rows and crops that are sown in place', () => {
    const spacing = (pattern: string): string => written('BED.DENSITY', '25', undefined, pattern);
    expect(spacing('"triangular"')).toContain('25*SQRT(3)/2');
    expect(spacing('"square"')).not.toContain('SQRT');
    expect(written('BED.PLANTS', '20', 'A1')).toContain('="in place",INDEX(Crop_transplant_days,');
  });

  it('finds a fact by its name at once, and looks for it in a list only where a cell names it', () => {
    expect(written('FACT.CROP', '"lettuce"', '"bed days"')).toContain('INDEX(Crop_bed_days,');
    expect(written('FACT.CROP', '"lettuce"', '"bed days"')).not.toContain('Crop_facts');
    expect(written('FACT.CROP', '"lettuce"', 'A1&"x"')).toContain('INDEX(Crop_facts,');
    expect(written('FACT.CROP', '"lettuce"', '"a"&A1&"b"')).toContain('INDEX(Crop_facts,');
  });
});
