import { describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import type { WorkbookModel } from '../../src/plan/workbook-model';
import { planWorkbook } from '../../src/plan/plan';
import { figuresOf } from './plan-figures';

const bare: unknown = {
  ...demoFarm,
  tanks: [
    ...demoFarm.tanks.slice(0, 2),
    { name: 'Unweighed', volume: 7800, species: 'Nile tilapia', fish: 500 },
    { name: '=1+1', volume: 5000, species: 'rainbow trout' },
  ],
  beds: [
    { name: 'B1', kind: 'raft', length: 5, width: 1 },
    { name: 'B2', kind: 'raft', length: 5, width: 1, crop: 'lettuce' },
    { name: 'B3', kind: 'raft', length: 5, width: 1, crop: 'peas', sown: '2026-03-02' },
  ],
  markets: [
    { crop: 'rocket', unit: 'kg', perWeek: 4, price: 9, every: 7, firstHarvest: '2026-05-01' },
    { crop: 'basil', unit: 'bunch', perWeek: 30, price: 1, every: 7, firstHarvest: '2026-05-01' },
    { crop: 'lettuce', unit: 'piece', perWeek: 30, price: 1, every: 7, firstHarvest: '2026-05-01' },
  ],
  waterTests: [{ date: '2026-04-06', ph: 7.1 }, { date: '2026-04-07' }],
  harvests: [],
  costs: [],
};

const model: WorkbookModel = planWorkbook(readFarm(bare), { formulas: 'live' });
const { values, all } = figuresOf(model);

describe('cells that a grower may leave blank', () => {
  it('never show an error', () => {
    const errors = model.sheets.flatMap((sheet) =>
      sheet.rows.flatMap((row, r) =>
        row.flatMap((_, c) => {
          const value = values(sheet.name, r, c);
          return value instanceof GillError
            ? [`${sheet.name} ${r + 1},${c + 1}: ${value.message}`]
            : [];
        }),
      ),
    );
    expect(errors).toEqual([]);
  });

  it('a tank without a mean weight has no biomass and no feed, and says what is missing', () => {
    expect(all('Tanks_biomass')[2]).toBe('');
    expect(all('Tanks_feed')[2]).toBe('');
    expect(all('Tanks_verdict')[2]).toBe('put its lines in the Fish log right');
    expect(String(all('Stock_verdict')[0])).toContain('Left out of the forecast');
  });

  it('an empty tank is empty', () => {
    expect(all('Tanks_density')[3]).toBe('');
    expect(all('Tanks_verdict')[3]).toBe('empty');
  });

  it('a name that begins with = stays text', () => {
    expect(all('Tanks_name')[3]).toBe('=1+1');
    const cell = model.sheets.find(({ name }) => name === 'Tanks')?.rows.flat();
    expect(cell?.some((one) => one?.value === '=1+1' && one.formula === undefined)).toBe(true);
  });

  it('a bed without crop or dates has neither dates nor feed', () => {
    expect([0, 1].map((i) => all('Beds_first_cut')[i])).toEqual(['', '']);
    expect(all('Beds_state').slice(0, 2)).toEqual(['empty', 'no dates yet']);
    expect(all('Beds_feed')[0]).toBe('');
    expect(all('Beds_feed')[1]).toBe(0);
  });

  it('a market without a yield goes by that of the crop, in kilograms, pieces or bunches', () => {
    expect(all('Sowing_gives')[0]).toBe(0.06);
    // 4 kg a week of 0.06 kg a plant: 67 plants, more seeds.
    expect(all('Sowing_plants')[0]).toBe(67);
    expect(all('Sowing_gives')[1]).toBeCloseTo(180 / 36, 9);
    expect(all('Sowing_gives')[2]).toBe(1);
  });

  it('a test of pH alone gives no ammonia and no carbon dioxide', () => {
    expect(all('Water_unionised').slice(0, 2)).toEqual(['', '']);
    expect(all('Water_carbon_dioxide').slice(0, 2)).toEqual(['', '']);
    expect(all('Dose_base')[0]).toBe('');
  });

  it('prepared rows give nothing', () => {
    const filled = { Tanks: 4, Beds: 3, Sowing: 3, Water: 2, Harvest: 0 };
    for (const [prefix, count] of Object.entries(filled)) {
      for (const { name, sheet } of model.names) {
        if (
          !name.startsWith(`${prefix}_`) ||
          !['Tanks', 'Beds', 'Sowing', 'Water log', 'Harvest log'].includes(sheet)
        )
          continue;
        const rest = all(name)
          .slice(count)
          .filter((value) => value !== undefined && value !== '');
        if (name !== 'Sowing_losses') expect(rest, name).toEqual([]);
      }
    }
  });
});
