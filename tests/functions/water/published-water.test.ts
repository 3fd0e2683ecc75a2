import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { numberOf } from '../../tools/card-value';

interface Check {
  readonly id: string;
  readonly card: string;
  readonly args: readonly (number | string)[];
  /** What the card's value is multiplied by to come out in the publication's unit. */
  readonly times?: number;
  readonly expected: number;
  readonly tolerance: number;
  readonly source: string;
  readonly where: string;
  readonly provenance: 'read' | 'memory' | 'common practice';
  /** What else holds up a value that was recalled and not seen. */
  readonly beside?: string;
}

const checks = JSON.parse(
  readFileSync(new URL('../../checks/water.json', import.meta.url), 'utf8'),
) as Check[];

const titleOf = ({ card, args, provenance, source, where }: Check): string =>
  `GILL.${card}(${args.join(', ')}) [${provenance}] ${source}: ${where}`;

describe('published values of water, through the cards', () => {
  for (const check of checks) {
    it(titleOf(check), () => {
      const { card, args, times = 1, expected, tolerance } = check;
      const difference = Math.abs(numberOf(card, ...args) * times - expected);
      // The tolerance belongs to the entry; the last bit of a double does not.
      expect(difference).toBeLessThanOrEqual(tolerance * (1 + 1e-9));
    });
  }

  it('no value from memory stands alone', () => {
    const alone = checks.filter((check) => check.provenance === 'memory' && !check.beside);
    expect(alone).toEqual([]);
    expect(checks.filter((check) => check.provenance === 'read').length).toBeGreaterThan(45);
  });
});

describe('loads that no single figure gives', () => {
  it('CO2 to O2 is 1.375 by weight, 44.01 over 32.00 [memory: Timmons & Ebeling]', () => {
    const ratio = numberOf('LOAD.CO2', 1000) / numberOf('LOAD.OXYGEN', 1000);
    expect(Math.abs(ratio - 44.009 / 31.998)).toBeLessThan(0.001);
  });

  it('oxygen left out is 0.35 for the fish and 4.57 a g of nitrified TAN, within 4 % [read: Wiesmann et al.; memory: Timmons & Ebeling]', () => {
    const made = 350 + 4.57 * numberOf('LOAD.TAN', 1000);
    const taken = numberOf('LOAD.OXYGEN', 1000);
    expect(taken).toBeGreaterThan(made);
    expect(taken / made - 1).toBeLessThan(0.04);
  });

  it('oxygen stays under the 1.25 that burning all of the feed takes [read: Boyd, trade-journal article]', () => {
    expect(numberOf('LOAD.OXYGEN', 1000)).toBeLessThan(1250);
  });

  it('solids left out lie within 0.2 to 0.3 of the feed [memory: Timmons & Ebeling; SRAC 452]', () => {
    const solids = numberOf('LOAD.SOLIDS', 1000);
    expect(solids).toBeGreaterThanOrEqual(200);
    expect(solids).toBeLessThanOrEqual(300);
  });

  it('the filter rate left to 12 to 15 degC lies within 0.15 to 0.25 g/m2/day [memory: Timmons & Ebeling, the cold figure against the warm one and the factor]', () => {
    for (const water of [12, 13.5, 15]) {
      const rate = 1 / numberOf('FILTER.SURFACE', 1, 0.45, water);
      expect(rate).toBeGreaterThan(0.15);
      expect(rate).toBeLessThan(0.25);
    }
  });

  it('33 to 1 on nitrite-N is the 10 to 1 on the nitrite ion, rounded up [read: extract of SRAC 462]', () => {
    const left = numberOf('DOSE.SALT', 1000, 1, 0);
    const ten = numberOf('DOSE.SALT', 1000, 1, 0, 10 * (46.005 / 14.007));
    expect(left).toBeGreaterThan(ten);
    expect(left / ten - 1).toBeLessThan(0.005);
  });

  it('thiosulphate lies at the top of the 2 to 7 parts to one of chlorine that ponds are given [common practice, no source]', () => {
    const parts = numberOf('DOSE.DECHLOR', 1000, 1);
    expect(parts).toBeGreaterThan(6.9);
    expect(parts).toBeLessThan(7.1);
  });

  it('the UVI tank (7.8 m3, 100 L/min) turns over in 1 h 20 min or a little less [read: UVI pages]', () => {
    const perHour = 60 / 80;
    expect(Math.abs(numberOf('FLOW.TURNOVER', 7800, perHour) / 6000 - 1)).toBeLessThan(0.03);
  });
});
