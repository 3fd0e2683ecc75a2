import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bases } from '../../../src/core/tables/bases';
import { salts } from '../../../src/core/tables/salts';
import { cellOf, errorOf, numberOf } from '../../tools/card-value';

const RUNS = { numRuns: 300, seed: 20260301 };
const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min, max, noNaN: true });

const ph = between(4, 11);
const water = between(0.1, 39);
const salinity = between(0, 40);

/** Two values of one argument, the second larger by more than rounding. */
const pair = (min: number, max: number): fc.Arbitrary<readonly [number, number]> =>
  fc
    .tuple(between(min, max), between(min, max))
    .filter(([a, b]) => Math.abs(a - b) > (max - min) * 1e-6)
    .map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const);

const close = (a: number, b: number): void =>
  expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-9 * Math.max(Math.abs(a), Math.abs(b)));

describe('ammonia', () => {
  it('CEILING inverts UNIONISED', () => {
    fc.assert(
      fc.property(between(0.001, 5), ph, water, salinity, (limit, acidity, t, salt) => {
        const tan = numberOf('AMMONIA.CEILING', limit, acidity, t, salt);
        fc.pre(tan <= 1000);
        close(numberOf('AMMONIA.UNIONISED', tan, acidity, t, salt), limit);
      }),
      RUNS,
    );
  });

  it('more pH, warmer water: more of it; more salt: less', () => {
    fc.assert(
      fc.property(pair(4, 11), pair(0.1, 39), pair(0, 40), ([p, q], [t, u], [s, v]) => {
        const share = (...args: number[]): number => numberOf('AMMONIA.SHARE', ...args);
        expect(share(q, t, s)).toBeGreaterThan(share(p, t, s));
        expect(share(p, u, s)).toBeGreaterThan(share(p, t, s));
        expect(share(p, t, v)).toBeLessThan(share(p, t, s));
        expect(share(q, u, s)).toBeLessThan(1);
      }),
      RUNS,
    );
  });

  it('has no jump where fresh water ends and where sea water begins', () => {
    for (const edge of [1e-9, 35]) {
      const below = numberOf('AMMONIA.SHARE', 8, 20, edge - 1e-9);
      close(below, numberOf('AMMONIA.SHARE', 8, 20, edge + 1e-9));
    }
  });
});

describe('oxygen', () => {
  it('warmer, saltier, higher: less', () => {
    fc.assert(
      fc.property(pair(0, 40), pair(0, 40), pair(-400, 5000), ([t, u], [s, v], [h, k]) => {
        const full = (...args: number[]): number => numberOf('OXYGEN.FULL', ...args);
        expect(full(u, s, h)).toBeLessThan(full(t, s, h));
        expect(full(t, v, h)).toBeLessThan(full(t, s, h));
        expect(full(t, s, k)).toBeLessThan(full(t, s, h));
      }),
      RUNS,
    );
  });

  it('PERCENT of what the water can hold is 1', () => {
    fc.assert(
      fc.property(between(0, 40), salinity, between(-400, 5000), (t, s, h) => {
        close(numberOf('OXYGEN.PERCENT', numberOf('OXYGEN.FULL', t, s, h), t, s, h), 1);
      }),
      RUNS,
    );
  });
});

describe('carbon dioxide', () => {
  it('less with more pH, more with more alkalinity', () => {
    fc.assert(
      fc.property(pair(5, 8.5), pair(20, 400), water, ([p, q], [a, b], t) => {
        const dioxide = (...args: number[]): number => numberOf('CARBON.DIOXIDE', ...args);
        expect(dioxide(q, a, t)).toBeLessThan(dioxide(p, a, t));
        expect(dioxide(p, b, t)).toBeGreaterThan(dioxide(p, a, t));
      }),
      RUNS,
    );
  });

  it('counts the free acid among what makes the alkalinity (definition: charge balance)', () => {
    // HCO3 + 2 CO3 = alkalinity + H - OH, and CO2 follows from HCO3; the shares of carbonate cancel out.
    const equivalents = (alkalinity: number): number => alkalinity / 50043;
    const more = numberOf('CARBON.DIOXIDE', 4.5, 20, 25);
    const less = numberOf('CARBON.DIOXIDE', 4.5, 1, 25);
    const free = 10 ** -4.5 - 10 ** (4.5 - 14);
    close(more / less, (equivalents(20) + free) / (equivalents(1) + free));
  });

  it('leaves to carbonate its part of the alkalinity (pK 6.352 and 10.329 at 25 degC: Plummer & Busenberg 1982)', () => {
    const bicarbonate = (100 / 50043 + 1e-10 - 1e-4) / (1 + 2 * 10 ** (10 - 10.329));
    const expected = 44010 * bicarbonate * 10 ** (6.352 - 10);
    expect(numberOf('CARBON.DIOXIDE', 10, 100, 25) / expected).toBeCloseTo(1, 2);
  });

  it('says so where so little alkalinity cannot stand at so high a pH', () => {
    expect(errorOf('CARBON.DIOXIDE', 10, 1, 25)).toBe(
      '#NUM! water of pH 10 holds more alkalinity than 1 mg/L as CaCO3; measure both again',
    );
  });
});

describe('doses', () => {
  it('a base takes any of its spellings, and two small lifts make one large', () => {
    for (const [name, { spellings }] of Object.entries(bases)) {
      const whole = numberOf('DOSE.BASE', 7800, 20, 80, name);
      for (const spelling of spellings) {
        expect(numberOf('DOSE.BASE', 7800, 20, 80, spelling.toUpperCase())).toBe(whole);
      }
      const first = numberOf('DOSE.BASE', 7800, 20, 45, name);
      close(first + numberOf('DOSE.BASE', 7800, 45, 80, name), whole);
    }
  });

  it('a salt takes any of its spellings', () => {
    for (const [name, { spellings }] of Object.entries(salts)) {
      for (const spelling of spellings) {
        expect(numberOf('DOSE.SALT', 1000, 1, 0, 33, spelling)).toBe(
          numberOf('DOSE.SALT', 1000, 1, 0, 33, name),
        );
      }
    }
  });

  it('what LOAD.ALKALINITY uses up is what DOSE.BASE brings as calcium carbonate', () => {
    const used = numberOf('LOAD.ALKALINITY', 10);
    close(numberOf('DOSE.BASE', 1000, 0, used, 'calcium carbonate'), used);
  });

  it('iron takes a chelate of a tenth iron where nothing is said of it [common practice, no source]', () => {
    expect(numberOf('DOSE.IRON', 1000, 0, 2)).toBe(numberOf('DOSE.IRON', 1000, 0, 2, 0.1));
  });

  it('cannot lower what is there', () => {
    expect(errorOf('DOSE.BASE', 1000, 80, 60)).toBe(
      '#NUM! alkalinity already stands at 80, above the 60 wanted; dosing cannot lower it, fresh water can',
    );
    expect(errorOf('DOSE.IRON', 1000, 3, 2)).toContain('iron already stands at 3');
    expect(numberOf('DOSE.SALT', 1000, 0.1, 100)).toBe(0);
  });

  it('names what it takes where the word is not known', () => {
    expect(errorOf('DOSE.BASE', 1000, 0, 20, 'potash')).toContain('base must be one of');
    expect(errorOf('DOSE.SALT', 1000, 1, 0, 33, 'sugar')).toContain('salt must be one of');
  });
});

describe('pipes and pumps', () => {
  const pipe = fc.tuple(between(1, 60000), between(10, 200), between(0.1, 200), water);

  it('more flow, more length, more fittings: more loss; wider, smoother in turbulence: less', () => {
    fc.assert(
      fc.property(pipe, ([flow, bore, length, t]) => {
        const loss = (...args: number[]): number => numberOf('FLOW.HEADLOSS', ...args);
        const usual = loss(flow, bore, length, t);
        expect(loss(flow * 1.1, bore, length, t)).toBeGreaterThan(usual);
        expect(loss(flow, bore, length * 1.1, t)).toBeGreaterThan(usual);
        expect(loss(flow, bore, length, t, 0.0015, 1)).toBeGreaterThan(usual);
        expect(loss(flow, bore * 1.1, length, t)).toBeLessThan(usual);
        expect(loss(flow, bore, length, t, 0.15)).toBeGreaterThanOrEqual(usual * (1 - 1e-12));
      }),
      RUNS,
    );
  });

  it('loses nothing without flow', () => {
    expect(numberOf('FLOW.HEADLOSS', 0, 50, 10)).toBe(0);
  });

  it('takes the material for its roughness', () => {
    const galvanised = numberOf('FLOW.HEADLOSS', 4000, 50, 10, 20, 0.15);
    expect(numberOf('FLOW.HEADLOSS', 4000, 50, 10, 20, 'Galvanized steel')).toBe(galvanised);
    expect(errorOf('FLOW.HEADLOSS', 4000, 50, 10, 20, 'bamboo')).toContain('#N/A');
    expect(errorOf('FLOW.HEADLOSS', 4000, 10, 10, 20, 0.6)).toContain('a twentieth of the bore');
  });

  it('FLOW.OXYGEN brings the oxygen of the day', () => {
    fc.assert(
      fc.property(between(1, 1e5), between(5, 12), between(0, 4.9), (day, inlet, outlet) => {
        const flow = numberOf('FLOW.OXYGEN', day, inlet, outlet);
        close((flow * 24 * (inlet - outlet)) / 1000, day);
      }),
      RUNS,
    );
    expect(errorOf('FLOW.OXYGEN', 100, 5, 5)).toContain('otherwise the water brings no oxygen');
  });
});

describe('filter', () => {
  it('colder water needs more, above 25 degC nothing is gained', () => {
    fc.assert(
      fc.property(pair(0.5, 25), ([cold, warm]) => {
        expect(numberOf('FILTER.SURFACE', 60, 0.45, cold)).toBeGreaterThan(
          numberOf('FILTER.SURFACE', 60, 0.45, warm),
        );
      }),
      RUNS,
    );
    expect(numberOf('FILTER.SURFACE', 60, 0.45, 31)).toBe(numberOf('FILTER.SURFACE', 60));
  });

  it('MEDIA carries the SURFACE', () => {
    const litres = numberOf('FILTER.MEDIA', 60, 300, 0.45, 18);
    close((litres / 1000) * 300, numberOf('FILTER.SURFACE', 60, 0.45, 18));
  });

  it('takes neither 0 nor a blank for water of 0 degC: nobody could tell them apart', () => {
    expect(errorOf('FILTER.SURFACE', 60, 0.45, 0)).toContain('water is 0 or a blank cell');
  });
});

describe('a column filled down ahead of the data', () => {
  it.each([
    ['LOAD.TAN', 1],
    ['AMMONIA.SHARE', 2],
    ['OXYGEN.PERCENT', 2],
    ['DOSE.BASE', 3],
    ['FLOW.HEADLOSS', 3],
    ['FLOOD.MINUTES', 2],
  ] as const)('GILL.%s stays empty', (id, required) => {
    expect(cellOf(id, ...Array<null>(required).fill(null))).toBe('');
  });
});
