import { describe, expect, it } from 'vitest';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { figuresOf } from './plan-figures';

/**
 * The commercial raft system of the University of the Virgin Islands as a farm file: Rakocy, Bailey, Shultz
 * & Thoman 2004, Update on tilapia and vegetable production in the UVI aquaponic system, abstract (77 Nile
 * tilapia stocked a m3, 61.5 kg/m3 at harvest, 813.8 g, 98.3 % survival, conversion 1.7, 4.16 t a year), and
 * the system's page: four tanks of 7.8 m3, one harvested every six weeks, six raft tanks with 214 m2.
 * 79.2 g at stocking: SRAC 454 (recalled; it agrees with 4.4 g a day over 24 weeks).
 * 81.5 g of feed a m2 and day follows from conversion, tonnage and area; the system's own range is 60 to 100.
 */
const STOCKED = 601;
const COEFFICIENT = 1.1;
const weightAt = (weeks: number): number =>
  (Math.cbrt(79.2) + (COEFFICIENT / 1000) * 28 * 7 * weeks) ** 3;

const month = { water: 28, high: 31, low: 24, humidity: 0.75 };
const raftSystem = {
  name: 'Raft system',
  units: 'metric',
  asOf: '2026-01-05',
  site: { place: 'Caribbean island', latitude: 17.7, altitude: 20 },
  months: Array.from({ length: 12 }, () => month),
  water: { total: 110000, sump: 600 },
  filter: { media: 0, specificSurface: 200 },
  feed: { protein: 0.32, price: 1 },
  stock: {
    species: 'Nile tilapia',
    wanted: 4160 / 12,
    startWeight: 79.2,
    harvestWeight: 813.8,
    survival: 0.983,
  },
  tanks: [0, 6, 12, 18].map((weeks, i) => ({
    name: `Tank ${i + 1}`,
    volume: 7800,
    species: 'Nile tilapia',
    fish: Math.round(STOCKED * 0.983 ** (weeks / 24)),
    weight: weightAt(weeks),
    density: 70,
  })),
  beds: Array.from({ length: 6 }, (_, i) => ({
    name: `Raft ${i + 1}`,
    kind: 'raft',
    length: 214 / 6 / 1.2,
    width: 1.2,
    crop: 'basil',
    plants: 285,
    sown: '2025-11-10',
    planted: '2025-12-01',
  })),
};

const { number, numbers } = figuresOf(planWorkbook(readFarm(raftSystem), { formulas: 'live' }));

describe('the published raft system in the plan', () => {
  it('is harvested every six weeks, within 5 %', () => {
    expect(Math.abs(number('Stock_interval') / 6 - 1)).toBeLessThan(0.05);
  });

  it('stocks 601 fish a tank (77 a m3), within 5 %', () => {
    expect(Math.abs(number('Stock_batch') / STOCKED - 1)).toBeLessThan(0.05);
  });

  it('gives 4.16 t a year, within 8 %: whole tanks are sold, so many in 53 weeks', () => {
    expect(Math.abs((12 * number('Stock_yield')) / 4160 - 1)).toBeLessThan(0.08);
  });

  it('stands at 61.5 kg/m3 before a harvest, within 8 %', () => {
    const density = Math.max(...numbers('Ahead_fullest')) * 70;
    expect(Math.abs(density / 61.5 - 1)).toBeLessThan(0.08);
  });

  it('feeds 81.5 g a m2 and day on average, within 10 %', () => {
    const feed = numbers('Ahead_feed');
    const mean = feed.reduce((sum, grams) => sum + grams, 0) / feed.length;
    const area = numbers('Beds_area').reduce((sum, m2) => sum + m2, 0);
    expect(area).toBeCloseTo(214, 6);
    expect(Math.abs(mean / area / 81.5 - 1)).toBeLessThan(0.1);
  });
});
