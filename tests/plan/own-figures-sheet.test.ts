import { describe, expect, it } from 'vitest';
import { speciesOf } from '../../src/ahead/own-tables';
import { checkSheets } from '../../src/check/check';
import { GillError } from '../../src/core/errors';
import { type Crop, usual } from '../../src/core/tables/crops';
import { countedFarm } from '../../src/experience/taken-over';
import { cropTable } from '../../src/functions/crop-table';
import { speciesTable } from '../../src/functions/species-table';
import { type Farm, readFarm } from '../../src/plan/farm';
import type { FormulaMode } from '../../src/plan/live-or-plain';
import {
  acts,
  figureNameOf,
  figureWords,
  type FigureWords,
  isOfStage,
} from '../../src/plan/own-figure-rows';
import { planWorkbook } from '../../src/plan/plan';
import { simulatedFarm } from '../tools/simulated-farm';
import { figuresOf } from './plan-figures';

type Json = Record<string, unknown>;
type Row = { figure: FigureWords; of?: string; part?: string; batches: number };

const counted = countedFarm(simulatedFarm(7, { lots: 6, batches: 12 }).farm);
const file = JSON.parse(counted.file) as Json & { ownFigures: Row[]; markets: Json[] };

/** One figure alone may act on a cell: plants from a seed here, in place of the germination, and a life or its stages. */
const isSwitched = ({ figure, part }: Row, byStage: boolean): boolean =>
  part === undefined &&
  acts(figureNameOf(figure)) &&
  figure !== figureWords.germination &&
  (byStage ? figure !== figureWords.survival : !isOfStage(figureNameOf(figure)));

/** The farm with every figure of the whole year switched so, and prices and a wish typed. */
const switchedTo = (use: string, more: Json = {}, byStage = false): Json => ({
  ...file,
  stock: {
    species: 'Nile tilapia',
    startWeight: 20,
    harvestWeight: 400,
    wanted: 40,
    survival: 0.9,
  },
  markets: file.markets.map((market) => ({ ...market, price: 1.3, every: 7 })),
  ownFigures: file.ownFigures.map((row) => (isSwitched(row, byStage) ? { ...row, use } : row)),
  ...more,
});

const planOf = (farm: Farm, formulas: FormulaMode = 'plain') =>
  figuresOf(planWorkbook(farm, { formulas }));

/** What the plan's cells of a crop and of a fish hold. */
function inTables({ all }: ReturnType<typeof planOf>) {
  const row = (names: string, name: string): number => all(names).indexOf(name);
  const [lettuce, tilapia] = [row('Crop_name', 'lettuce'), row('Fish_name', 'Nile tilapia')];
  return {
    tgc: all('Fish_tgc')[tilapia],
    fcr: all('Fish_fcr')[tilapia],
    bed_days: all('Crop_bed_days')[lettuce],
    germination: all('Crop_germination')[lettuce],
    kg_per_plant: all('Crop_kg_per_plant')[lettuce],
    survival: all('Stock_survival_counts')[0],
    price: all('Sowing_price_counts')[0],
  };
}

const inFarm = (farm: Farm) => ({
  tgc: farm.species?.['Nile tilapia']?.['tgc'],
  fcr: farm.species?.['Nile tilapia']?.['fcr'],
  bed_days: farm.crops?.['lettuce']?.['bed_days'],
  germination: farm.crops?.['lettuce']?.['germination'],
  kg_per_plant: farm.crops?.['lettuce']?.['kg_per_plant'],
  survival: farm.stock.survival,
  price: farm.markets[0]?.price,
});

const near = (figures: Record<string, unknown>) =>
  Object.fromEntries(
    Object.entries(figures).map(([name, value]) => [name, expect.closeTo(value as number, 9)]),
  );

const few = 'Growth coefficient';
const farms = {
  table: readFarm(switchedTo('table')),
  own: readFarm(switchedTo('own')),
  // Another figure is typed on Crops, and one is switched in the workbook that rests on three batches.
  odd: readFarm(switchedTo('blend', { crops: { lettuce: { bed_days: 33 } } }, true)),
};
const plans = {
  table: planOf(farms.table),
  own: planOf(farms.own, 'live'),
  odd: planOf({
    ...farms.odd,
    ownFigures: farms.odd.ownFigures.map((row) =>
      row.figure === few ? { ...row, batches: 3 } : row,
    ),
  }),
};

describe('the sheet Own figures', () => {
  it('puts own figures where the plan looks for them', () => {
    expect(inTables(plans.own)).toEqual(near(inFarm(farms.own)));
    expect(plans.own.all('Own_says').filter((says) => (says ?? '') !== '')).toEqual([]);
    // What is reckoned with them changes with them: growth, and the seeds of a batch.
    expect(plans.own.number('Stock_days')).not.toBeCloseTo(plans.table.number('Stock_days'), 1);
    expect(plans.own.numbers('Sowing_seeds')).not.toEqual(plans.table.numbers('Sowing_seeds'));
  });

  it('feeds by growth times conversion, on the sheets as in the planner', () => {
    const lines = Object.entries(farms).map(([name, farm]) => {
      const { all, numbers } = plans[name as keyof typeof plans];
      const line = all('Fish_name').indexOf('Nile tilapia');
      const wide = speciesOf(farm, 'Nile tilapia').feedRates.length;
      return [numbers('Fish_feed_rates').slice(line * wide, (line + 1) * wide), farm] as const;
    });
    for (const [rates, farm] of lines.slice(0, 2)) {
      expect(rates).toEqual(
        speciesOf(farm, 'Nile tilapia').feedRates.map((rate) => expect.closeTo(rate, 12) as number),
      );
    }
    const [table, own] = lines.map(([rates]) => rates) as [number[], number[]];
    const { tgc, fcr } = inFarm(farms.own);
    expect((own[5] ?? NaN) / (table[5] ?? NaN)).toBeCloseTo(
      ((tgc as number) / 1.1) * ((fcr as number) / 1.7),
      9,
    );
  });

  it('has survival follow its stages, and refuses them beside that of a whole life', () => {
    const { survival = NaN } = farms.odd.stock;
    expect(plans.odd.number('Stock_survival_counts')).toBeCloseTo(survival, 9);
    expect(Math.abs(survival - 0.9)).toBeGreaterThan(0.001);
    const both = switchedTo('own', {}, true) as { ownFigures: (Row & { use?: string })[] };
    const rows = both.ownFigures.map((row) =>
      row.figure === figureWords.survival ? { ...row, use: 'own' } : row,
    );
    expect(() => readFarm({ ...both, ownFigures: rows })).toThrow(
      /since "Share of a lot that is sold" is in use and holds it already/,
    );
  });

  it('leaves the tables as they are where the switch says table', () => {
    const lettuce = cropTable.book.find('lettuce') as Crop;
    expect(inTables(plans.table)).toEqual(
      near({
        tgc: speciesTable.book.find('Nile tilapia')?.facts.tgc[0],
        fcr: speciesTable.book.find('Nile tilapia')?.facts.fcr[0],
        bed_days: usual(lettuce, 'bed_days'),
        germination: usual(lettuce, 'germination'),
        kg_per_plant: usual(lettuce, 'kg_per_plant'),
        survival: 0.9,
        price: 1.3,
      }),
    );
  });

  it('has the figure between table and own in this order', () => {
    const [table, mean, blend] = (['Own_table', 'Own_mean', 'Own_blend'] as const).map((name) =>
      plans.table.all(name),
    ) as [unknown[], unknown[], number[]];
    const rows = table.flatMap((usual, i) =>
      // A price that was typed after the registers were counted has no figure between yet.
      typeof usual === 'number' && typeof blend[i] === 'number'
        ? [[usual, blend[i], mean[i]] as [number, number, number]]
        : [],
    );
    expect(rows.length).toBeGreaterThan(5);
    for (const [usual, between, own] of rows) {
      expect(between).toBeGreaterThanOrEqual(Math.min(usual, own) - 1e-9);
      expect(between).toBeLessThanOrEqual(Math.max(usual, own) + 1e-9);
    }
  });

  it('gives an error and a sentence where the switch cannot hold, and the check names it', () => {
    const { tgc, bed_days, ...others } = inTables(plans.odd);
    expect(tgc).toBeInstanceOf(GillError);
    expect(bed_days).toBe(33);
    const blended = Object.entries(near(inFarm(farms.odd)));
    expect(others).toEqual(Object.fromEntries(blended.filter(([name]) => name in others)));
    const sheet = 'Own figures';
    const values = Array.from({ length: 40 }, (_, row) =>
      Array.from({ length: 25 }, (_, column) => plans.odd.values(sheet, row, column) ?? ''),
    ) as Parameters<typeof checkSheets>[0][number]['values'];
    const found = checkSheets([{ name: sheet, from: 'A1', values, formulas: values }]);
    expect(found.map(({ what }) => what)).toEqual([
      expect.stringContaining(
        'rests on 3 of the 5 batches that it needs: type yes under “Few are enough”, or choose table',
      ),
      expect.stringContaining('another figure is typed on Crops and counts'),
    ]);
  });
});
