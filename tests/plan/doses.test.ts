import { describe, expect, it } from 'vitest';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { figuresOf } from './plan-figures';

/**
 * Alkalinity 60 mg/L, wanted 100. The bounds: gill damage from 0.05 mg/L of un-ionised ammonia-N (UF/IFAS FA16);
 * carbon dioxide below 20 mg/L (Clinical Guide to Fish Medicine); about pH 7.0 suits all (UVI nutrient page);
 * 14 days is common practice, no source.
 */
function dosesAfter(test: Record<string, number | string>) {
  const looksAt = ['Site', 'Stock plan', 'Balance', 'Water log', 'Species', 'Tanks', 'Fish log'];
  const farm = readFarm({
    ...demoFarm,
    waterTests: [
      { date: '2026-04-06', temperature: 26, ph: 7.2, tan: 0.5, alkalinity: 60, ...test },
    ],
  });
  const plan = planWorkbook(farm, { formulas: 'live' });
  const figures = figuresOf({
    ...plan,
    sheets: plan.sheets.filter(({ name }) => looksAt.includes(name)),
    names: plan.names.filter(({ sheet }) => looksAt.includes(sheet)),
  });
  return { grams: figures.all('Dose_base')[0], says: figures.all('Dose_base_says')[0], figures };
}

describe('limits of the water', () => {
  const limitsWith = (...species: readonly string[]) => {
    const farm = readFarm({
      ...demoFarm,
      fishLog: undefined,
      stock: { ...demoFarm.stock, species: 'Nile tilapia' },
      tanks: species.map((name, i) => ({
        name: `T${i}`,
        volume: 7800,
        species: name,
        ...(i < 2 && { fish: 100, weight: 200 }),
      })),
    });
    const looksAt = ['Site', 'Stock plan', 'Balance', 'Water log', 'Species', 'Tanks', 'Fish log'];
    const plan = planWorkbook(farm, { formulas: 'live' });
    const { number } = figuresOf({
      ...plan,
      sheets: plan.sheets.filter(({ name }) => looksAt.includes(name)),
      names: plan.names.filter(({ sheet }) => looksAt.includes(sheet)),
    });
    return [
      number('Most_unionised'),
      number('Most_nitrite'),
      number('Most_carbon_dioxide'),
      number('Least_oxygen'),
    ];
  };
  // Tilapia: UF/IFAS FA16 0.05, FAO 589 1 mg/L of nitrite, below 20 of CO2 (Clinical Guide to Fish Medicine).
  it('are those of the fish in the tanks, on shared water the strictest', () => {
    expect(limitsWith('Nile tilapia')).toEqual([0.05, 1, 20, 4]);
    // Manuals on trout, recalled: 0.0125, 0.1, 15 and 6.
    expect(limitsWith('rainbow trout')).toEqual([0.0125, 0.1, 15, 6]);
    expect(limitsWith('Nile tilapia', 'rainbow trout')).toEqual([0.0125, 0.1, 15, 6]);
    expect(limitsWith('Nile tilapia', 'channel catfish')).toEqual([0.05, 0.5, 20, 5]);
    // The third tank is empty.
    expect(limitsWith('Nile tilapia', 'Nile tilapia', 'rainbow trout')).toEqual([0.05, 1, 20, 4]);
  });
});

describe('base to add', () => {
  it('is dosed where all is well: 2.002 g of potassium bicarbonate for each g as CaCO3', () => {
    const { grams, says } = dosesAfter({});
    // KHCO3 100.115 g a mole and equivalent, CaCO3 50.04: IUPAC molar masses.
    expect(grams).toBeCloseTo(40 * 118 * 2.0005, -1);
    expect(says).toBe('up to the alkalinity wanted');
  });
  it.each([
    [{ alkalinity: 100 }, 0, /nothing to add by the last test/],
    [{ date: '2026-03-20' }, '', /days old: test again before you dose/],
    [{ ph: 7.7 }, '', /above 7.6: this water needs no base/],
    // 3.2 mg/L of TAN at pH 7.42 and 26 degC: 0.05 mg/L un-ionised by Emerson's pKa of 9.22.
    [{ tan: 4 }, '', /ammonia would harm gills/],
  ])('%j: %j', (test, amount, sentence) => {
    const { grams, says } = dosesAfter(test as Record<string, number | string>);
    expect(grams).toBe(amount);
    expect(says).toMatch(sentence);
  });
  it('aims no higher than the limit of carbon dioxide allows', () => {
    const { grams, says, figures } = dosesAfter({ ph: 6.8 });
    const bound = figures.number('Dose_base_bound');
    expect(bound).toBeGreaterThan(60);
    expect(bound).toBeLessThan(100);
    expect(grams).toBeCloseTo((bound - 60) * 118 * 2.0005, -1);
    expect(says).toMatch(/carbon dioxide passes its limit/);
    const none = dosesAfter({ ph: 6.6 });
    expect(none.grams).toBe(0);
    expect(none.says).toMatch(/give more air first/);
  });
});
