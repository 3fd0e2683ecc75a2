import { type Crop, usual } from '../../src/core/tables/crops';
import { describe, expect, it } from 'vitest';
import { asTyped, readFarm } from '../../src/plan/farm';
import { cropRecords } from '../../src/experience/crop-records';
import { type OwnRecord, ownRecords } from '../../src/experience/figures-of-registers';
import { countedFarm, takenOver } from '../../src/experience/taken-over';
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
  const losses = 0.1; // What Sowing brings along where nothing is typed.

  it('counts wherever the figures of the tables are asked for, and what was typed stays', () => {
    const figures = ['tgc', 'survival', 'bed_days', 'plants_per_seed', 'units_per_plant'] as const;
    const all = figures.reduce(
      (made, figure) => takenOver(farm, made, { record: record(figure), way: 'own' }),
      file,
    );
    const read = readFarm(all);
    const lettuce = read.crops?.['lettuce'];
    const grams = usual(cropTable.book.find('lettuce') as Crop, 'piece_weight');
    expect(read.species?.['Nile tilapia']?.['tgc']).toBeCloseTo(record('tgc').mean, 4);
    expect(read.stock.survival).toBeCloseTo(record('survival').mean, 4);
    expect(lettuce?.['bed_days']).toBeCloseTo(record('bed_days').mean, 3);
    expect(lettuce?.['germination']).toBeCloseTo(
      Math.min(1, record('plants_per_seed').mean / (1 - losses)),
      4,
    );
    expect(lettuce?.['kg_per_plant']).toBeCloseTo(
      (record('units_per_plant').mean * grams) / 1000,
      4,
    );
    expect(asTyped(read)).toMatchObject({
      crops: undefined,
      species: undefined,
      stock: farm.stock,
    });
    // Nothing else has changed in the file.
    expect({ ...all, ownFigures: 0 }).toEqual({ ...file, ownFigures: 0 });
  });

  it('is between table and own where they are weighed together', () => {
    const { mean, table, blend } = record('bed_days');
    const made = takenOver(farm, file, { record: record('bed_days'), way: 'blend' });
    const value = readFarm(made).crops?.['lettuce']?.['bed_days'];
    expect(value).toBeCloseTo(blend.figure, 3);
    expect(Math.sign(blend.figure - (table?.usual ?? 0))).toBe(Math.sign(mean - blend.figure));
  });

  it('gives way to a figure that was typed on Crops', () => {
    const made = takenOver(farm, file, { record: record('bed_days'), way: 'own' });
    const typed = readFarm({ ...made, crops: { lettuce: { bed_days: 33 } } });
    expect(typed.crops?.['lettuce']?.['bed_days']).toBe(33);
  });

  it('needs five batches, or the grower’s consent', () => {
    const few = { ...record('bed_days'), batches: 4 };
    expect(() => takenOver(farm, file, { record: few, way: 'own' })).toThrow(
      'Days from planting out to the first cut of lettuce rests on 4 batches, and fewer than 5 count only with a "yes" beside it that few are enough',
    );
    const made = takenOver(farm, file, { record: few, way: 'own', fewAreEnough: true });
    expect(readFarm(made).crops?.['lettuce']?.['bed_days']).toBeCloseTo(few.mean, 3);
    const [row] = made['ownFigures'] as [object];
    expect(() => readFarm({ ...made, ownFigures: [{ ...row, few: undefined }] })).toThrow(
      'ownFigures[0].use must be "table", since the figure rests on 4 batches',
    );
  });

  it('is of the whole year', () => {
    const part = { ...record('bed_days'), planted: 'March to May' } as const;
    expect(() => takenOver(farm, file, { record: part, way: 'own' })).toThrow(/whole year/);
    const row = { figure: 'Price', of: 'lettuce', part: 'May', batches: 9, mean: 1, use: 'own' };
    expect(() => readFarm({ ...file, ownFigures: [row] })).toThrow(/must be left blank/);
  });

  it('acts on what the plan computes with, and alone', () => {
    expect(() => takenOver(farm, file, { record: record('water_a_day'), way: 'own' })).toThrow(
      'nothing in the plan computes with it',
    );
    const water = { figure: 'Fresh water added a day', batches: 9, mean: 900, use: 'own' };
    expect(() => readFarm({ ...file, ownFigures: [water] })).toThrow(
      'ownFigures[0].use must be left blank: nothing in the plan computes with this figure',
    );
    const both = (['germination', 'plants_per_seed'] as const).reduce(
      (made, figure) => takenOver(farm, made, { record: record(figure), way: 'own' }),
      file,
    );
    expect(() => readFarm(both)).toThrow('"Plants from a seed" of lettuce is in use');
    const alone = takenOver(farm, file, { record: record('germination'), way: 'own' });
    expect(readFarm(alone).crops?.['lettuce']?.['germination']).toBeCloseTo(
      record('germination').mean,
      4,
    );
  });

  it('stands once, and is of a crop or a species of the tables', () => {
    const row = { figure: 'Price', of: 'lettuce', batches: 9, mean: 1 };
    expect(() => readFarm({ ...file, ownFigures: [row, row] })).toThrow(/twice/);
    expect(() => readFarm({ ...file, ownFigures: [{ ...row, of: 'dragon' }] })).toThrow(
      /must be a crop by its name/,
    );
  });
});

describe('a farm whose registers are counted again', () => {
  it('keeps its switches, and its figures are those of the tables without them', () => {
    const made = takenOver(farm, file, { record: record('bed_days'), way: 'own' });
    const counted = countedFarm(readFarm(made));
    expect(counted.ownFigures.find(({ use }) => use === 'own')).toMatchObject({
      figure: 'Days from planting out to the first cut',
      of: 'lettuce',
    });
    // What counts already does not become the table that it is set against.
    expect(ownRecords(counted)).toEqual(records);
    expect(countedFarm(counted).file).toBe(counted.file);
  });

  it('keeps a figure in use where too few batches are left in the registers', () => {
    const made = takenOver(farm, file, { record: record('bed_days'), way: 'own' });
    const counted = countedFarm(readFarm({ ...made, plantings: [] }));
    expect(counted.crops?.['lettuce']?.['bed_days']).toBeCloseTo(record('bed_days').mean, 3);
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
