import { type Crop, usual } from '../../src/core/tables/crops';
import { describe, expect, it } from 'vitest';
import { readFarm } from '../../src/plan/farm';
import { cropRecords } from '../../src/experience/crop-records';
import { type OwnRecord, ownRecords } from '../../src/experience/figures-of-registers';
import { takenOver } from '../../src/experience/taken-over';
import { cropTable } from '../../src/functions/crop-table';
import { simulatedFarm } from '../tools/simulated-farm';

const { farm } = simulatedFarm(7, { lots: 6, batches: 12 });
const file = JSON.parse(farm.file) as Record<string, unknown>;
const records = ownRecords(farm);
const record = (figure: OwnRecord['figure']): OwnRecord =>
  records.find(
    (one) => one.figure === figure && one.planted === undefined && one.month === undefined,
  ) as OwnRecord;

describe('a figure taken over', () => {
  it('stands in the farm file where the plan looks for it', () => {
    const figures = [
      'tgc',
      'survival',
      'bed_days',
      'plants_per_seed',
      'units_per_plant',
      'price',
    ] as const;
    const all = figures.reduce(
      (made, figure) => takenOver(farm, made, { record: record(figure), way: 'own' }),
      file,
    );
    const read = readFarm(all);
    expect(read.species?.['Nile tilapia']?.['tgc']).toBeCloseTo(record('tgc').mean, 4);
    expect(read.stock.survival).toBeCloseTo(record('survival').mean, 4);
    expect(read.crops?.['lettuce']?.['bed_days']).toBeCloseTo(record('bed_days').mean, 3);
    expect(read.markets[0]).toMatchObject({
      germination: expect.closeTo(record('plants_per_seed').mean, 4) as number,
      perPlant: expect.closeTo(record('units_per_plant').mean, 4) as number,
      price: 1,
    });
    // Nothing else has changed, and what is taken over is what the records then call the table.
    expect({ ...all, species: 0, stock: 0, crops: 0, markets: 0 }).toEqual({
      ...file,
      species: 0,
      stock: 0,
      crops: 0,
      markets: 0,
    });
  });

  it('is between table and own where they are weighed together', () => {
    const { mean, table, blend } = record('bed_days');
    const made = takenOver(farm, file, { record: record('bed_days'), way: 'blend' });
    const value = readFarm(made).crops?.['lettuce']?.['bed_days'];
    expect(value).toBeCloseTo(blend.figure, 3);
    expect(Math.sign(blend.figure - (table?.usual ?? 0))).toBe(Math.sign(mean - blend.figure));
  });

  it('needs five batches, or the grower’s consent', () => {
    const few = { ...record('bed_days'), batches: 4 };
    expect(() => takenOver(farm, file, { record: few, way: 'own' })).toThrow(
      'Days from planting out to the first cut of lettuce rests on 4 batches, and fewer than 5 are not taken over unless you say that few are enough',
    );
    expect(() =>
      takenOver(farm, file, { record: few, way: 'own', fewAreEnough: true }),
    ).not.toThrow();
  });

  it('is of the whole year', () => {
    const part = { ...record('bed_days'), planted: 'March to May' } as const;
    expect(() => takenOver(farm, file, { record: part, way: 'own' })).toThrow(/whole year/);
  });
});

describe('records of crops', () => {
  const cropOf = (name: string) => cropTable.book.find(name);
  const batch = {
    crop: 'lettuce',
    bed: 'R1',
    plants: 100,
    planted: 45000,
    firstCut: 45030,
    cleared: 45037,
  };
  const harvest = {
    crop: 'lettuce',
    bed: 'r1 ',
    quantity: 90,
    unit: 'piece',
    price: 1.2,
    date: 45031,
  } as const;
  const yields = (plantings: readonly (typeof batch)[], harvests: readonly (typeof harvest)[]) =>
    cropRecords({
      plantings,
      harvests,
      markets: [{ crop: 'lettuce', unit: 'piece', perWeek: 10 }],
      cropOf,
    }).filter(({ figure }) => figure === 'units_per_plant');

  it('take harvests by bed and days, and leave out beds whose batches cannot be told apart', () => {
    expect(yields([batch], [harvest])).toEqual([expect.objectContaining({ value: 0.9 })]);
    expect(yields([batch], [{ ...harvest, date: 45060 } as unknown as typeof harvest])).toEqual([]);
    expect(yields([batch, { ...batch, planted: 45020 }], [harvest])).toEqual([]);
  });

  it('reckon harvests and prices in the unit of the market', () => {
    // Lettuce weighs what the crop table says of a piece: so many kg are as many pieces.
    const grams = usual(cropOf('lettuce') as Crop, 'piece_weight');
    const records = cropRecords({
      plantings: [batch],
      harvests: [{ ...harvest, quantity: (90 * grams) / 1000, unit: 'kg', price: 12 }],
      markets: [{ crop: 'lettuce', unit: 'piece', perWeek: 10 }],
      cropOf,
    });
    const of = (figure: string) => records.find((one) => one.figure === figure)?.value;
    expect(of('units_per_plant')).toBeCloseTo(0.9, 9);
    expect(of('price')).toBeCloseTo((12 * grams) / 1000, 9);
  });

  it('ignore planned rows and dates out of order', () => {
    const records = (row: object) =>
      cropRecords({ plantings: [{ ...batch, ...row }], harvests: [], markets: [], cropOf });
    expect(records({ planned: 'planned' })).toEqual([]);
    expect(records({ firstCut: 44990 }).map(({ figure }) => figure)).toEqual(['harvest_days']);
  });
});
