import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { restingOxygen } from '../../../src/core/fish-oxygen';
import { carbonDioxideUnder, strippedShare } from '../../../src/core/gas-stripping';
import { species } from '../../../src/core/tables/species';
import { errorOf, numberOf } from '../../tools/card-value';

describe('OXYGEN.FISH', () => {
  it.each([
    [
      'Oreochromis of 10 g at 37 °C, 0.415 mL/g/h at 1.429 mg/mL (Franklin et al. 1995, abstract, read)',
      restingOxygen(10, 37),
      415 * 1.429,
    ],
    [
      'southern catfish without feed at 27.5 °C, 175.4 mg/kg/h (Fu et al. 2005, abstract, read; of 100 g, assumed)',
      restingOxygen(100, 27.5),
      175.4,
    ],
  ])('unfed fish: within a third of %s', (_, ours, theirs) => {
    expect(Math.abs(ours / theirs - 1)).toBeLessThan(1 / 3);
  });

  it('has the Q10 of 2.06 and the mass exponent of 0.788 of pacu within 0.02 (Aguilar et al. 2017, abstract, read)', () => {
    expect(restingOxygen(100, 33) / restingOxygen(100, 23)).toBeCloseTo(2.06, 9);
    const exponent = 1 + Math.log10(restingOxygen(1000, 25) / restingOxygen(100, 25));
    expect(Math.abs(exponent - 0.788)).toBeLessThan(0.02);
  });

  it.each(species.map(({ name, facts }) => [name, facts] as const))(
    '%s on full feed in its best water: 0.25 to 0.40 g a g of feed is usual, and the little that bass eat is no more than 0.6',
    (name, facts) => {
      for (const weight of [5, 20, 100, 300, 1000]) {
        for (const water of [facts.best_low[0], facts.best_high[0]]) {
          const feed = numberOf('FEED.DAY', 100, weight, name, water);
          const share = (24 * numberOf('OXYGEN.FISH', 100, weight, name, water)) / feed;
          expect(share).toBeGreaterThanOrEqual(0.25);
          expect(share).toBeLessThanOrEqual(name === 'largemouth bass' ? 0.6 : 0.46);
        }
      }
    },
  );

  it('never falls as the water warms or the feed grows, and unfed fish still breathe', () => {
    const tilapia = (water: number, feed: number): number =>
      numberOf('OXYGEN.FISH', 640, 235, 'Nile tilapia', water, feed);
    for (let water = 14; water < 36; water += 2) {
      expect(tilapia(water + 2, 100)).toBeGreaterThan(tilapia(water, 100));
      expect(tilapia(water, 4000)).toBeGreaterThanOrEqual(tilapia(water, 2000));
    }
    expect(numberOf('OXYGEN.FISH', 640, 235, 'Nile tilapia', 15)).toBeGreaterThan(5);
    expect(errorOf('OXYGEN.FISH', 640, 235, 'Nile tilapia', 15, 0)).toMatch(/feed is 0 or a blank/);
  });
});

/** Minutes by steps of a classical Runge-Kutta of fourth order. */
function integrated(tank: {
  volume: number;
  from: number;
  critical: number;
  use: number;
  supply: number;
  bacteria: number;
  flow: number;
  inlet: number;
}): number {
  const { volume, from, critical, use, supply, bacteria, flow, inlet } = tank;
  // mg/L a minute
  const slope = (level: number): number =>
    (flow * (inlet - level) + 1000 * (supply - use) - volume * bacteria) / volume / 60;
  const step = 0.02;
  let level = from;
  for (let time = 0; time < 600; time += step) {
    const k1 = slope(level);
    const k2 = slope(level + (step / 2) * k1);
    const k3 = slope(level + (step / 2) * k2);
    const k4 = slope(level + step * k3);
    const next = level + (step / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
    if (next <= critical) return time + (step * (level - critical)) / (level - next);
    level = next;
  }
  return Infinity;
}

describe('OXYGEN.MINUTES', () => {
  it('is what a Runge-Kutta integration finds, on random tanks with and without flow', () => {
    const tanks = fc.record({
      volume: fc.double({ min: 200, max: 50000, noNaN: true }),
      from: fc.double({ min: 4.5, max: 9, noNaN: true }),
      critical: fc.double({ min: 1.5, max: 4, noNaN: true }),
      // g/h for each m3
      density: fc.double({ min: 4, max: 30, noNaN: true }),
      supply: fc.constantFrom(0, 0.2),
      bacteria: fc.constantFrom(0, 2),
      turns: fc.constantFrom(0, 0.5, 1, 2),
      inlet: fc.double({ min: 3, max: 9, noNaN: true }),
    });
    let answered = 0;
    fc.assert(
      fc.property(tanks, ({ density, turns, ...tank }) => {
        const use = (density * tank.volume) / 1000;
        const all = { ...tank, use, supply: tank.supply * use, flow: turns * tank.volume };
        const theirs = integrated(all);
        const args = [
          all.volume,
          all.from,
          all.critical,
          use,
          all.supply,
          all.bacteria,
          all.flow,
          turns > 0 ? all.inlet : null,
        ] as const;
        if (theirs === Infinity) return;
        answered += 1;
        expect(Math.abs(numberOf('OXYGEN.MINUTES', ...args) / theirs - 1)).toBeLessThan(1e-3);
      }),
      { numRuns: 60, seed: 20261127 },
    );
    expect(answered).toBeGreaterThan(30);
  });

  it('closes the balance of oxygen: what was there, plus what came, is what was used', () => {
    const [volume, from, to, use, flow, inlet] = [7800, 6, 2, 80, 7800, 7];
    const hours = numberOf('OXYGEN.MINUTES', volume, from, to, use, 0, 0, flow, inlet) / 60;
    // The mean level over the time, by Simpson's rule on the solution of the balance.
    const settles = inlet - (1000 * use) / flow;
    const at = (t: number): number => settles + (from - settles) * Math.exp((-flow / volume) * t);
    const steps = 200;
    let mean = 0;
    for (let i = 0; i <= steps; i++) {
      const factor = i === 0 || i === steps ? 1 : i % 2 ? 4 : 2;
      mean += (factor * at((hours * i) / steps)) / (3 * steps);
    }
    const came = (flow * hours * (inlet - mean)) / 1000;
    expect(((from - to) * volume) / 1000 + came).toBeCloseTo(use * hours, 6);
  });

  it('is 0 at the critical level, and has a sentence where it never gets there or lacks the inlet', () => {
    expect(numberOf('OXYGEN.MINUTES', 7800, 2, 'Nile tilapia', 50)).toBe(0);
    expect(errorOf('OXYGEN.MINUTES', 7800, 6, 2, 50, 60)).toMatch(
      /^#NUM! .* the supply covers the use/,
    );
    expect(errorOf('OXYGEN.MINUTES', 7800, 6, 2, 10, 0, 0, 7800, 7)).toMatch(
      /settles at 5\.7 mg\/L/,
    );
    expect(errorOf('OXYGEN.MINUTES', 7800, 6, 2, 50, 0, 0, 7800)).toMatch(/inlet is missing/);
  });

  it('is longer with more water, more oxygen, fewer fish, and any flow that brings oxygen', () => {
    const tank = (...args: number[]): number => numberOf('OXYGEN.MINUTES', ...args);
    const plain = tank(7800, 6, 2, 80);
    expect(tank(9000, 6, 2, 80)).toBeGreaterThan(plain);
    expect(tank(7800, 7, 2, 80)).toBeGreaterThan(plain);
    expect(tank(7800, 6, 2, 60)).toBeGreaterThan(plain);
    expect(tank(7800, 6, 2, 80, 0, 0, 3000, 7)).toBeGreaterThan(plain);
    expect(tank(7800, 6, 2, 80, 0, 2)).toBeLessThan(plain);
  });
});

describe('OXYGEN.TRANSFER', () => {
  it('falls to nothing where tank water is full, and is negative above', () => {
    const full = numberOf('OXYGEN.FULL', 25);
    expect(numberOf('OXYGEN.TRANSFER', 1, 25, full, 1, 1)).toBeCloseTo(0, 12);
    expect(numberOf('OXYGEN.TRANSFER', 1, 25, full + 1, 1, 1)).toBeLessThan(0);
    expect(errorOf('AIR.DIFFUSED', 50, 1, 25, full)).toMatch(/takes no oxygen from air/);
  });
  it('gives less on a mountain and in salt water, and as much more for a larger rating', () => {
    const low = numberOf('OXYGEN.TRANSFER', 1, 25, 5);
    expect(numberOf('OXYGEN.TRANSFER', 1, 25, 5, null, null, null, null, 1500)).toBeLessThan(low);
    expect(numberOf('OXYGEN.TRANSFER', 1, 25, 5, null, null, null, 15)).toBeLessThan(low);
    expect(numberOf('OXYGEN.TRANSFER', 7, 25, 5)).toBeCloseTo(7 * low, 12);
  });
});

describe('blower and pump of the UVI farm', () => {
  // Rakocy et al. 2004 (read): four tanks of 7.8 m3, 17.5 kg of feed a day; 2.21 kW of pump and blowers.
  it('draw 0.5 to 2 times the recorded 2.21 kW', () => {
    const oxygen = numberOf('LOAD.OXYGEN', 17490) / 24;
    const air = numberOf('AIR.DIFFUSED', oxygen, 1, 28, 5.5);
    const blower = numberOf('AIR.BLOWER', air, 1);
    const pump = numberOf('FLOW.WATTS', 4 * 100 * 60, 2);
    expect((blower + pump) / 2210).toBeGreaterThan(0.5);
    expect((blower + pump) / 2210).toBeLessThan(2);
  });
});

describe('CARBON.STRIPPED', () => {
  it('closes the balance: what the air takes is what the water loses', () => {
    for (const ratio of [1, 3, 5, 8]) {
      const least = carbonDioxideUnder(420, 25);
      const left = numberOf('CARBON.STRIPPED', 15, ratio, 25);
      expect((15 - left) / (15 - least)).toBeCloseTo(strippedShare(ratio), 12);
    }
  });
  it('climbs fast from 1 to 5 and hardly beyond 8, whatever comes in (Hu et al. 2011, abstract, read)', () => {
    const gone = (from: number, ratio: number): number =>
      1 - numberOf('CARBON.STRIPPED', from, ratio) / from;
    for (const from of [7, 12, 20]) {
      expect(gone(from, 5)).toBeGreaterThan(0.8);
      expect(gone(from, 5)).toBeLessThan(0.9);
      expect(gone(from, 5) - gone(from, 1)).toBeGreaterThan(0.4);
      expect(gone(from, 12) - gone(from, 8)).toBeLessThan(0.03);
    }
  });
  it('keeps what the air keeps: 0.63 mg/L at 25 °C under 420 ppm (Henry constant 0.034 mol/L/atm, memory)', () => {
    expect(Math.abs(carbonDioxideUnder(420, 25) - 0.034 * 420e-6 * 44010)).toBeLessThan(0.005);
    expect(numberOf('CARBON.STRIPPED', 0.3, 5, 25)).toBeGreaterThan(0.3);
    expect(numberOf('CARBON.STRIPPED', 20, 50, 25, 2000)).toBeCloseTo(
      carbonDioxideUnder(2000, 25),
      9,
    );
  });
});
