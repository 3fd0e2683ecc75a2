import { describe, expect, it } from 'vitest';
import { checkSheets } from '../../src/check/check';
import type { SheetValue } from '../../src/check/open-sheet';
import { randomSource } from '../../src/experience/random-source';

const START = 45300;
const LOGS = 100;

/**
 * Usual figure and standard deviation of its logarithm, from reading to reading: what the ranges of tests in
 * running systems look like; common practice, no source.
 */
const columns = {
  'Water (°C)': [26, 0.05],
  'TAN (mg/L)': [0.8, 0.35],
  'Nitrite (mg/L)': [0.3, 0.4],
  'Nitrate (mg/L)': [60, 0.25],
  'Oxygen (mg/L)': [6, 0.08],
  'Alkalinity (mg/L)': [60, 0.15],
  'Iron (mg/L)': [1.5, 0.3],
} as const;
const heads = ['Date', 'Temp', 'TAN', 'Nitrite', 'Nitrate', 'Oxygen', 'Alkalinity', 'Iron'];

function waterLog(seed: number): SheetValue[][] {
  const { normal } = randomSource(seed);
  const rows = Array.from({ length: 40 }, (_, week) => [
    START + 7 * week,
    ...Object.values(columns).map(([usual, deviation]) =>
      Number((usual * Math.exp(deviation * normal())).toPrecision(2)),
    ),
  ]);
  return [heads, ...rows];
}

function fishLog(seed: number): SheetValue[][] {
  const { normal, share } = randomSource(seed);
  const rows: SheetValue[][] = [];
  for (let tank = 1; tank <= 4; tank++) {
    const coefficient = 0.6 + 0.8 * share();
    const name = `Tank ${tank}`;
    for (let month = 0; month <= 6; month++) {
      const weight = (Math.cbrt(15) + (coefficient / 1000) * 27 * 30 * month) ** 3;
      rows.push([
        START + 30 * month + tank,
        name,
        month === 0 ? 'stocked' : 'weighed',
        500,
        Math.round(10 * weight * (1 + 0.05 * normal())) / 10,
      ]);
    }
  }
  return [['Date', 'Tank', 'What', 'Fish', 'Mean weight (g)'], ...rows];
}

function harvestLog(seed: number): SheetValue[][] {
  const { normal } = randomSource(seed);
  const rows = Array.from({ length: 40 }, (_, week) => [
    START + 7 * week,
    week % 2 === 0 ? 'lettuce' : 'kale',
    'piece',
    Math.round(150 * Math.exp(0.3 * normal())),
    Number((1.2 * Math.exp(0.08 * normal())).toFixed(2)),
  ]);
  return [['Date', 'Crop', 'Sold by', 'How many', 'Price of one'], ...rows];
}

const logs = {
  'Water log': { make: waterLog, from: 1 },
  'Fish log': { make: fishLog, from: 4 },
  'Harvest log': { make: harvestLog, from: 3 },
} as const;
type LogName = keyof typeof logs;

/** What the check says of slips in a log, by cell; other rules than those of slips are not asked. */
const slipsIn = (name: LogName, values: SheetValue[][]): string[] =>
  checkSheets([{ name, from: 'A1', values, formulas: values }])
    .filter(({ why }) => /point that slips|No fish grows or shrinks/.test(why))
    .map(({ address }) => address);
const address = (row: number, column: number): string => `${'ABCDEFGH'[column]}${row + 1}`;

describe.each(Object.keys(logs) as LogName[])('the %s', (name) => {
  const { make, from } = logs[name];

  it('rarely objects to clean sheets: less than 2 percent of the figures draw a finding', () => {
    let [figures, alarms] = [0, 0];
    for (let seed = 1; seed <= LOGS; seed++) {
      const values = make(seed);
      figures += (values.length - 1) * ((values[0]?.length ?? 0) - from);
      alarms += slipsIn(name, values).length;
    }
    expect(alarms / figures).toBeLessThan(0.02);
  });

  it('finds at least 95 percent of the figures that are wrong by a factor of ten', () => {
    const { share } = randomSource(77);
    let found = 0;
    for (let seed = 1; seed <= LOGS; seed++) {
      const values = make(seed).map((row) => [...row]);
      const clean = new Set(slipsIn(name, values));
      const row = 1 + Math.floor(share() * (values.length - 1));
      const column = from + Math.floor(share() * ((values[0]?.length ?? 0) - from));
      const right = values[row]?.[column] as number;
      (values[row] as SheetValue[])[column] = share() < 0.5 ? right * 10 : right / 10;
      const named = slipsIn(name, values).filter((one) => !clean.has(one));
      // Of two weighings that contradict each other the later one is named.
      if (named.some((one) => one === address(row, column) || one === address(row + 1, column)))
        found++;
    }
    expect(found / LOGS).toBeGreaterThanOrEqual(0.95);
  });
});

describe('a finding', () => {
  it('says what is usual and what was probably meant', () => {
    const values = waterLog(3);
    (values[20] as SheetValue[])[4] = 620;
    const [found] = checkSheets([
      { name: 'Water log', from: 'A1', values, formulas: values },
    ]).filter(({ why }) => /point that slips/.test(why));
    expect(found).toMatchObject({ level: 'watch', address: 'E21' });
    expect(found?.what).toMatch(/nitrate of 620 where \d+ is usual\.$/);
    expect(found?.remedy).toMatch(/^Type 62 if that was meant/);
  });

  it('ignores fish that came from another tank, and those left after the largest were sold', () => {
    const log = (...rows: SheetValue[][]): SheetValue[][] => [
      ['Date', 'Tank', 'What', 'Fish', 'Mean weight (g)', 'To tank'],
      [START, 'A', 'stocked', 500, 20],
      [START, 'B', 'stocked', 500, 400],
      ...rows,
    ];
    const moved = log(
      [START + 20, 'B', 'moved', 100, '', 'A'],
      [START + 30, 'A', 'weighed', 30, 170],
    );
    const sold = log([START + 20, 'B', 'sold', 400, 480], [START + 30, 'B', 'weighed', 30, 150]);
    expect(slipsIn('Fish log', moved)).toEqual([]);
    expect(slipsIn('Fish log', sold)).toEqual([]);
    expect(slipsIn('Fish log', log([START + 30, 'B', 'weighed', 30, 42]))).toEqual(['E4']);
  });
});
