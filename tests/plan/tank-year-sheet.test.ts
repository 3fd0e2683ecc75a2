import { describe, expect, it } from 'vitest';
import { fishOfFarm } from '../../src/ahead/fish-farm';
import { expectedSurvival } from '../../src/ahead/fish-wanted';
import { speciesOf } from '../../src/ahead/own-tables';
import { tankYear } from '../../src/core/fish-turns';
import { isoText } from '../../src/core/serial-date';
import { type Farm, readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { toShown } from '../../src/plan/quantities';
import { fishRowsOf } from '../../src/plan/registers-of-farm';
import { sampleFarm } from '../tools/farms';
import { few } from '../tools/how-many';
import { valuesOf } from '../tools/values-of';
import { figuresOf } from './plan-figures';

/** A farm with rows to come of every kind, some without figures, one that cannot be, in any order. */
function farmAhead(name: Parameters<typeof sampleFarm>[0], rows: (farm: Farm) => object[]): Farm {
  const farm = sampleFarm(name);
  const file = JSON.parse(farm.file) as { fishLog?: object[] };
  return readFarm({ ...file, fishLog: [...(file.fishLog ?? []), ...rows(farm)] });
}

const many = (farm: Farm): object[] => {
  const [a, b, c = farm.tanks[0]] = farm.tanks;
  const on = (days: number): string => isoText(farm.asOf + days);
  const planned = { planned: 'planned' };
  const [one, two, three] = [a, b, c].map((tank) => (tank as Farm['tanks'][number]).name);
  return [
    { date: on(40), tank: one, what: 'sold', ...planned },
    { date: on(15), tank: one, what: 'moved', toTank: two, fish: 20, ...planned },
    { date: on(9), tank: one, what: 'weighed', ...planned },
    { date: on(47), tank: one, what: 'stocked', fish: 150, weight: 20, lot: 'new', ...planned },
    { date: on(22), tank: two, what: 'counted', fish: 70, ...planned },
    { date: on(23), tank: two, what: 'sold', fish: 5, weight: 140, ...planned },
    { date: on(60), tank: two, what: 'died', fish: 3, ...planned },
    { date: on(75), tank: two, what: 'sold', fish: 999999, ...planned },
    { date: on(90), tank: two, what: 'sold', fish: 1, ...planned },
    { date: on(140), tank: one, what: 'weighed', fish: 10, weight: 90, ...planned },
    { date: on(200), tank: three, what: 'moved', toTank: two, ...planned },
    { date: on(-5), tank: one, what: 'sold', fish: 2, ...planned },
    { date: on(300), tank: one, what: 'sold', fish: 4, planned: 'not done' },
  ];
};

const farms = few(2, [
  ['quillwater', many],
  ['larkfield-school', many],
  ['quillwater', () => []],
] as const);
const QUILLWATER = farmAhead('quillwater', many);
const quillwaterPlan = planWorkbook(QUILLWATER, { formulas: 'plain' });

describe.each(farms)('the Tank year of %s', (name, rows) => {
  const isSame = name === 'quillwater' && rows === many;
  const farm = isSame ? QUILLWATER : farmAhead(name, rows as (farm: Farm) => object[]);
  const model = isSame ? quillwaterPlan : planWorkbook(farm, { formulas: 'plain' });
  const valueAt = valuesOf(model);
  const { wanted } = fishOfFarm(farm, { weeks: 52 });
  const named = (name: string, tank: number): number => {
    const area = model.names.find((one) => one.name === name)?.area;
    const value = valueAt('Stock plan', area?.row ?? 0, (area?.column ?? 0) + tank);
    return typeof value === 'number' ? value : 0;
  };
  const tanks = farm.tanks.map(({ name, volume, species }) => ({
    name,
    volume,
    species: speciesOf(farm, species),
  }));
  const weeks = tankYear(
    fishRowsOf(farm.fishLog),
    {
      tanks,
      water: farm.months.map(({ water }) => water ?? NaN),
      asOf: farm.asOf,
      dailySurvival: expectedSurvival(wanted),
    },
    tanks.map(({ species: { facts } }, k) => ({
      sellAt:
        farm.tanks[k]?.species === farm.stock.species
          ? farm.stock.harvestWeight
          : facts.harvest_weight[0],
      startWeight: farm.stock.startWeight ?? NaN,
      handled: [facts.handling_low[0], facts.handling_high[0]],
      head: named('Weeks_head', k),
      first: named('Weeks_first', k),
    })),
    52,
  );

  it('has the density that rows and turns forecast, tank by tank and week by week', () => {
    let stocked = 0;
    weeks.forEach(({ week, density = 0 }, at) => {
      const tank = at % farm.tanks.length;
      const shown = valueAt('Tank year', 6 + week, 6 + tank);
      if (density > 0) stocked++;
      expect(shown, `${farm.tanks[tank]?.name}, week ${week}`).toBeCloseTo(
        toShown(density, 'density', farm.units),
        6,
      );
    });
    expect(stocked).toBeGreaterThan(52);
  });

  it('feeds them as rows and turns do', () => {
    const area = model.names.find((one) => one.name === 'Ahead_feed')?.area;
    for (let week = 0; week <= 52; week++) {
      const feed = weeks.reduce((sum, one) => sum + (one.week === week ? one.feed : 0), 0);
      const shown = valueAt('Tank year', (area?.row ?? 0) + week, area?.column ?? 0) as number;
      expect(Math.abs(shown - feed), `week ${week}: ${shown}, ${feed}`).toBeLessThan(
        1e-6 * Math.max(1, feed),
      );
    }
  });

  it('has Balance feed by it wherever a row is planned', () => {
    const ahead = model.names.find((one) => one.name === 'Ahead_rows')?.area;
    if (valueAt('Tank year', ahead?.row ?? 0, ahead?.column ?? 0) === 0) return;
    const sheet = model.sheets.find((one) => one.name === 'Balance');
    const series = sheet?.charts.find(({ title }) => title.startsWith('Feed given'))?.series[0]
      ?.area;
    for (const week of [0, 1, 26, 52]) {
      const feed = weeks.reduce((sum, one) => sum + (one.week === week ? one.feed : 0), 0);
      const shown = valueAt('Balance', (series?.row ?? 0) + week, series?.column ?? 0) as number;
      expect(shown / toShown(feed, 'feedDay', farm.units), `week ${week}`).toBeCloseTo(1, 9);
    }
  });
});

it('what is sold, stocked and fed in the year is one figure wherever it stands, with rows planned', () => {
  const farm = QUILLWATER;
  const { values, number, numbers } = figuresOf(quillwaterPlan);
  const right = (sheet: string, label: string): number => {
    for (let row = 0; row < 90; row++) {
      if (values(sheet, row, 0) === label) return values(sheet, row, 1) as number;
    }
    throw new Error(`${sheet} has no line ${label}`);
  };
  const ahead = (column: number): number[] =>
    Array.from({ length: 53 }, (_, week) => values('Tank year', 6 + week, column) as number);
  const sum = (figures: readonly number[]): number => figures.reduce((a, b) => a + b, 0);
  const month = (sum(ahead(2)) / (7 * 53)) * 30.4375;
  expect(month).toBeGreaterThan(100);
  expect(number('Stock_yield')).toBeCloseTo(month, 6);
  expect(right('Start', 'Fish to sell, mean of the year ahead')).toBeCloseTo(month, 6);
  expect(right('Stock plan', 'Sold on average in the year ahead')).toBeCloseTo(month, 6);
  expect(right('Stock plan', 'Most feed in the year ahead')).toBeCloseTo(Math.max(...ahead(4)), 6);
  const weeks = Array.from({ length: 200 }, (_, row) => row).find(
    (row) => values('Stock plan', row, 0) === 'In weeks',
  ) as number;
  [
    [3, 4],
    [4, 5],
    [5, 2],
    [6, 3],
  ].forEach(([column, there]) => {
    const shown = Array.from({ length: 53 }, (_, week) =>
      values('Stock plan', weeks + 1 + week, column as number),
    );
    expect(shown, `column ${column}`).toEqual(ahead(there as number));
  });
  const ofFirst = (what?: string) =>
    farm.fishLog
      .filter(
        ({ planned, date = 0, tank, ...row }) =>
          planned === 'planned' &&
          date >= farm.asOf &&
          tank === 'Tank 1' &&
          (what === undefined || row.what === what),
      )
      .sort((a, b) => (a.date as number) - (b.date as number));
  // The first tank's next row, its sale and its stocking are those of the Fish log.
  const line = Array.from({ length: 200 }, (_, row) => row).find(
    (row) => values('Stock plan', row, 0) === 'Tank 1' && values('Stock plan', row, 1) === 620,
  ) as number;
  const [next] = ofFirst();
  const sale = ofFirst('sold')[0];
  const stocking = ofFirst('stocked')[0];
  expect(numbers('Ahead_next_day')[0]).toBe(next?.date);
  expect(values('Stock plan', line, 3)).toBe(sale?.date);
  expect(values('Stock plan', line, 8)).toBe(stocking?.date);
  expect(values('Stock plan', line, 9)).toBe(stocking?.fish);
});

it('without a planned row the Tank year is that of the turns', () => {
  const farm = sampleFarm('quillwater');
  const file = JSON.parse(farm.file) as { fishLog: { planned?: string }[] };
  const fishLog = file.fishLog.filter((row) => row.planned === undefined);
  const { all, numbers } = figuresOf(
    planWorkbook(readFarm({ ...file, fishLog }), { formulas: 'plain' }),
  );
  expect(all('Ahead_fish')).toEqual(all('Weeks_fish'));
  expect(all('Ahead_weights')).toEqual(all('Weeks_weights'));
  expect(numbers('Ahead_sold').reduce((sum, kilos) => sum + kilos, 0)).toBeGreaterThan(3000);
});
