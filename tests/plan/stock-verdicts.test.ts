import { describe, expect, it } from 'vitest';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { numberOf } from '../tools/card-value';
import { figuresOf } from './plan-figures';

/**
 * Tilapia die when they are handled below 65 °F, 18.3 °C (text of SRAC 283); they eat above 17 °C (FAO 589).
 * The house is cold in April and warm from May to September.
 */
const COLD = 17.6;
const WARM = 27;

function verdictsOf(
  tanks: readonly { readonly fish: number; readonly weight?: number; readonly species?: string }[],
  more: { readonly wanted?: number; readonly april?: number; readonly always?: number } = {},
) {
  const { wanted = 20, april = COLD, always } = more;
  const farm = readFarm({
    name: 'Cold spring',
    units: 'metric',
    asOf: '2026-04-06',
    site: { place: 'Valley', latitude: 44, altitude: 50 },
    months: Array.from({ length: 12 }, (_, i) => ({
      water: always ?? (i === 3 ? april : i > 3 && i < 9 ? WARM : COLD),
      high: 24,
      low: 12,
      humidity: 0.75,
    })),
    water: { total: 30000, sump: 3000 },
    filter: { media: 0, specificSurface: 500 },
    feed: { price: 1 },
    stock: {
      species: 'Nile tilapia',
      wanted,
      startWeight: 50,
      harvestWeight: 600,
      survival: 0.95,
    },
    tanks: tanks.map((tank, i) => ({
      name: `T${i + 1}`,
      volume: 7800,
      species: 'Nile tilapia',
      ...tank,
    })),
    beds: [{ name: 'B1', kind: 'raft', length: 10, width: 2 }],
  });
  const plan = planWorkbook(farm, { formulas: 'live' });
  const looksAt = ['Site', 'Fish log', 'Tanks', 'Stock plan', 'Tank year', 'Species'];
  return figuresOf({
    ...plan,
    sheets: plan.sheets.filter(({ name }) => looksAt.includes(name)),
    names: plan.names.filter(({ sheet }) => looksAt.includes(sheet)),
  });
}

describe('advice in water in which handling kills', () => {
  it('is to wait with fish to sell, move or stock', () => {
    const { all } = verdictsOf([
      { fish: 600, weight: 640 },
      { fish: 1500, weight: 310 },
      { fish: 2000, weight: 400 },
      { fish: 0 },
    ]);
    const [sell, grow, over, stock] = all('Stock_task');
    expect(sell).toBe('too cold to sell: wait');
    expect(grow).toBe('too cold to move: air, less feed');
    expect(over).toBe('too cold to move: air, less feed');
    expect(stock).toBe('too cold to stock fish: wait');
    // 7.8 m3 at 60 kg/m3 hold 1170 fish of 400 g.
    expect(all('Tanks_verdict')[2]).toBe(
      'over its limit: 830 too many. Not to be moved, too cold: more air, less feed',
    );
  });

  it('is to go ahead where the water is warm enough', () => {
    const { all } = verdictsOf(
      [{ fish: 600, weight: 640 }, { fish: 2000, weight: 400 }, { fish: 0 }],
      { april: 18.5 },
    );
    const [sell, move, stock] = all('Stock_task');
    expect(sell).toBe('sell');
    expect(move).toMatch(/^move \d+ fish$/);
    expect(stock).toMatch(/^stock \d+ fish$/);
    expect(all('Tanks_verdict')[1]).toBe('over its limit: move 830 fish');
  });

  it('trout are not netted in water above 20 °C (common practice)', () => {
    const trout = [{ fish: 600, weight: 640, species: 'rainbow trout' }];
    expect(verdictsOf(trout, { april: 20.5 }).all('Stock_task')[0]).toBe('too warm to sell: wait');
    expect(verdictsOf(trout, { april: 12 }).all('Stock_task')[0]).toBe('sell');
  });

  it('the forecast sells and stocks in weeks of warm water alone', () => {
    const { numbers } = verdictsOf([{ fish: 600, weight: 640 }, { fish: 0 }]);
    const [water, sold, stocked] = ['Weeks_water', 'Ahead_sold', 'Ahead_stocked'].map(numbers);
    expect(sold?.filter((kilos) => kilos > 0).length).toBeGreaterThan(0);
    expect(stocked?.filter((fish) => fish > 0).length).toBeGreaterThan(0);
    water?.forEach((degrees, week) => {
      if (degrees >= 18.3) return;
      expect(sold?.[week]).toBe(0);
      // Stocked in the week after the row that shows them.
      if ((water[week + 1] ?? 0) < 18.3) expect(stocked?.[week]).toBe(0);
    });
  });
});

describe('room for more fish', () => {
  it('counts at the weight at which they are sold', () => {
    const { all } = verdictsOf([
      { fish: 700, weight: 95 },
      { fish: 900, weight: 95 },
      { fish: 700, weight: 650 },
    ]);
    // 60 kg/m3 in 7.8 m3: 780 fish of 600 g, 720 of 650 g.
    expect(all('Tanks_room').slice(0, 3)).toEqual([80, -120, 20]);
    expect(numberOf('STOCK.LIMIT', 7800, 600, 60)).toBe(780);
    expect(all('Tanks_verdict').slice(0, 3)).toEqual([
      'room left',
      'room now; 120 too many when they are sold',
      'nearly full',
    ]);
  });
});

describe('whether the tanks are large enough', () => {
  const stocked = [
    { fish: 700, weight: 560 },
    { fish: 700, weight: 300 },
    { fish: 700, weight: 100 },
  ];
  it('is said only where the forecast reaches what is wanted', () => {
    const warm = verdictsOf(stocked, { wanted: 150, always: WARM });
    expect(warm.number('Stock_yield')).toBeGreaterThan(150);
    expect(warm.all('Stock_verdict')[0]).toMatch(/^The tanks are large enough, and the year/);
    const cold = verdictsOf(stocked, { wanted: 150, always: 20 });
    expect(cold.number('Stock_yield')).toBeLessThan(0.98 * 150);
    expect(cold.all('Stock_verdict')[0]).not.toMatch(/large enough/);
  });
  it('is denied where the rotation does not fit', () => {
    expect(verdictsOf(stocked, { wanted: 500, always: WARM }).all('Stock_verdict')[0]).toMatch(
      /^The tanks are too small/,
    );
  });
});
