import { describe, expect, it } from 'vitest';
import { ask, askNumber, askRotation, askRows } from './ask';

/**
 * The commercial raft system of the University of the Virgin Islands (Rakocy, Bailey, Shultz & Thoman 2004,
 * abstract, and the system's own pages: read): four tanks of 7.8 m3, one harvested every six weeks, each
 * stocked for 24 weeks. The water's temperature is not printed; 27.28 degC is where the table's coefficient
 * takes 24 weeks from 79.2 to 813.8 g (weights at stocking: SRAC 454, memory, self-consistent).
 */
const nile = { start: 79.2, harvest: 813.8, survival: 0.983, density: 61.5, perCubicMetre: 77 };
const WATER = 27.28;
const within = (value: number, published: number, share: number): void => {
  expect(Math.abs(value / published - 1)).toBeLessThanOrEqual(share);
};

describe('published raft system with four tanks, Nile tilapia (read)', () => {
  const monthly = 4160 / 12;
  const plan = askRotation(
    monthly,
    nile.harvest,
    nile.start,
    WATER,
    'Nile tilapia',
    nile.survival,
    nile.density,
    4,
  );

  it('takes 24 weeks and harvests every six, within 1 %', () => {
    within(plan.days, 168, 0.01);
    within(plan.weeks, 6, 0.01);
  });
  it('needs tanks of 7.8 m3, within 1 %', () => {
    within(plan.litres, 7800, 0.01);
  });
  it('stocks 77 fish in a cubic metre, within 1 %', () => {
    within(plan.stocked / 7.8, nile.perCubicMetre, 0.01);
  });
  it('harvests 61.5 kg/m3 times 7.8 m3 at a time, within 1 %', () => {
    within(plan.batch, 61.5 * 7.8, 0.01);
  });
  it('eats what conversion 1.7 asks for (read), within 8 %', () => {
    const gainADay = (4160 * (1 - nile.start / nile.harvest) * 1000) / 365.25;
    within(plan.mean, 1.7 * gainADay, 0.08);
    const ratio = askNumber('FEED.CONVERSION', plan.mean / 1000, gainADay / 1000);
    within(ratio, 1.7, 0.08);
  });
  it('feeds 60 to 100 g/m2/day on 214 m2 of rafts (read), 81.5 on average (derived), within 8 %', () => {
    within(plan.mean / 214, 81.5, 0.08);
    expect(plan.mean / 214).toBeLessThan(100);
  });
  it('buys 601 fingerlings 8.7 times a year, within 1 %', () => {
    within(plan.fingerlings, (601 * 365.25) / 42, 0.01);
  });
});

describe('one of its tanks through the other cards', () => {
  it('STOCK.START: 590 fish at harvest need 601 (77 a cubic metre, 98.3 % alive; read)', () => {
    expect(ask('STOCK.START', 590, 0.983)).toBe(601);
  });
  it('STOCK.DENSITY: 590 fish of 813.8 g in 7.8 m3 are 61.5 kg/m3 (read), within 0.1', () => {
    expect(askNumber('STOCK.DENSITY', 590, 813.8, 7800)).toBeCloseTo(61.5, 0);
  });
  it('STOCK.LIMIT: at 61.5 kg/m3 it holds 589 fish of 813.8 g', () => {
    expect(ask('STOCK.LIMIT', 7800, 813.8, 61.5)).toBe(589);
  });
  it.each([
    ['Nile', 77, 79.2, 813.8, 0.983, 61.5],
    ['red', 154, 58.8, 512.5, 0.899, 70.7],
  ])(
    'STOCK.FORECAST, %s: from stocking to the published harvest density (read), within 0.5 kg/m3',
    (_, perCubicMetre, start, harvest, alive, density) => {
      const coefficient = askNumber('GROWTH.COEFFICIENT', start, harvest, 168, 28);
      const rows = askRows(
        'STOCK.FORECAST',
        perCubicMetre * 7.8,
        start,
        24,
        28,
        'tilapia',
        alive,
        7800,
        coefficient,
      );
      const last = rows.at(-1) as number[];
      expect(rows).toHaveLength(25);
      expect(last[0]).toBe(24);
      expect(last[1]).toBeCloseTo(perCubicMetre * 7.8 * alive, 6);
      expect(last[2]).toBeCloseTo(harvest, 6);
      expect(Math.abs((last[4] as number) - density)).toBeLessThan(0.5);
    },
  );
});

describe('common practice, no source', () => {
  it('900 to 1300 grown fish stand in an aerated tank of 7.8 m3', () => {
    // Grown: 350 to 500 g.
    expect(ask('STOCK.LIMIT', 7800, 500, 'tilapia')).toBe(936);
    expect(ask('STOCK.LIMIT', 7800, 390, 'tilapia')).toBe(1200);
    expect(ask('STOCK.LIMIT', 7800, 360, 'tilapia')).toBe(1300);
  });
});
