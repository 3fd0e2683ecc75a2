import { describe, expect, it } from 'vitest';
import { suppliedUnits } from '../../src/ahead/bed-plan';
import { writtenRows } from '../../src/ahead/written-rows';
import { seasonOfFarm } from '../../src/ahead/season-of-farm';
import { standingPlantings } from '../../src/ahead/standing-plantings';
import { firstMonday } from '../../src/ahead/planner-rows';
import { feedCalled } from '../../src/ahead/shortfall';
import { ABOVE_BASE, SHORT_DAY } from '../../src/core/season-limits';
import { calendarDate } from '../../src/core/serial-date';
import { dayLength } from '../../src/core/sun';
import { cropOf } from '../../src/ahead/own-tables';
import { computedValues } from '../../src/engine/engine';
import { type Farm, readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { sampleFarm } from '../tools/farms';

const WEEKS = 26;

/** A farm whose Plantings have rows of every kind: done, planned, side by side, sown alone, cut already, not done. */
function farmWithRows(name: 'aldermoor-springs' | 'larkfield-school'): Farm {
  const farm = sampleFarm(name);
  const file = JSON.parse(farm.file) as Record<string, unknown>;
  const beds = farm.beds.map(({ name }) => name);
  const crops = farm.markets.map(({ crop }) => crop);
  const batches = Array.from({ length: 30 }, (_, at) => ({
    crop: crops[at % crops.length] as string,
    bed: beds[(at * 5) % beds.length] as string,
    plants: 12 + at,
    area: 1,
    sown: farm.asOf + 5 * at,
    plantedOut: farm.asOf + 5 * at + 21,
    firstCut: 0,
    cleared: 0,
  }));
  const { plantings } = writtenRows(farm, [], batches);
  const shown = plantings.map(({ sown, planted, ...row }, at) => ({
    ...row,
    sown: day(sown as number),
    planted: day(planted as number),
    // Some of them are the grower's own.
    ...(at % 4 === 0 && { remark: 'mine' }),
  }));
  return readFarm({
    ...file,
    plantings: [
      ...((file['plantings'] as object[] | undefined) ?? []),
      ...shown,
      { crop: crops[0], bed: beds[0], plants: 30, sown: day(farm.asOf - 10) },
      { crop: crops[0], bed: beds[1], planted: day(farm.asOf + 100), planned: 'not done' },
    ],
  });
}

const day = (serial: number): string =>
  new Date(Date.UTC(1899, 11, 30) + serial * 864e5).toISOString().slice(0, 10);

describe.each(['aldermoor-springs', 'larkfield-school'] as const)('the Season of %s', (name) => {
  const farm = farmWithRows(name);
  const model = planWorkbook(farm, { formulas: 'plain' });
  const valueAt = computedValues(model);
  const sheet = model.sheets.find((one) => one.name === 'Season')!;
  const cell = (row: number, column: number): unknown => valueAt('Season', row, column);
  const lineOf = (text: string): number =>
    sheet.rows.findIndex((row) => String(row[0]?.value ?? '').startsWith(text));
  const { season } = seasonOfFarm(farm, { weeks: WEEKS });
  const means = farm.months.map(({ high, low }) => ((high ?? NaN) + (low ?? NaN)) / 2);
  const standing = standingPlantings(farm, firstMonday(farm), means);

  it('expects the harvest that the planner expects of the same rows', () => {
    const first = lineOf('Expected harvest') + 3;
    const supplied = suppliedUnits(season, []);
    let compared = 0;
    season.crops.forEach((crop, c) => {
      const row = Array.from({ length: 20 }, (_, at) => first + at).find(
        (at) => cell(at, 0) === crop.name,
      ) as number;
      let short = 0;
      for (let week = 0; week < WEEKS; week++) {
        const expected = supplied[c]?.[week] as number;
        expect(cell(row, 2 + week), `${crop.name}, week ${week}`).toBeCloseTo(expected, 5);
        short += Math.max(0, (crop.wanted[week] as number) - expected);
        if (expected > 0) compared++;
      }
      expect(cell(row, 2 + WEEKS + 1), `${crop.name}, short`).toBeCloseTo(short, 4);
    });
    expect(compared).toBeGreaterThan(20);
  });

  it('names the weeks in which a crop is cut in heat, cold or short days', () => {
    const first = lineOf('Expected harvest') + 3;
    let named = 0;
    season.crops.forEach((crop) => {
      const row = Array.from({ length: 20 }, (_, at) => first + at).find(
        (at) => cell(at, 0) === crop.name,
      ) as number;
      const { facts } = cropOf(farm, crop.name);
      const off = { 'too hot': 0, 'too cold': 0, 'short days': 0 };
      for (let week = 0; week < WEEKS; week++) {
        if (!((cell(row, 2 + week) as number) > 0)) continue;
        const thursday = season.from + 7 * week + 3;
        const air = means[calendarDate(thursday).month - 1] as number;
        if (facts.heat_limit !== undefined && air > (facts.heat_limit[0] as number))
          off['too hot']++;
        if (air < (facts.base_temp[0] as number) + ABOVE_BASE) off['too cold']++;
        if (dayLength(farm.site.latitude as number, thursday) < SHORT_DAY) off['short days']++;
      }
      const words = Object.entries(off).flatMap(([what, weeks]) =>
        weeks > 0 ? [`${weeks} ${what} `] : [],
      );
      expect(cell(row, 2 + WEEKS + 5), crop.name).toBe(words.join(''));
      named += words.length;
    });
    // In the school's garden some are cut in heat or in short days.
    if (name === 'larkfield-school') expect(named).toBeGreaterThan(0);
  });

  it('names in each bed and week what stands there', () => {
    const first = lineOf('What stands') + 2;
    let filled = 0;
    farm.beds.forEach(({ name: bed }, b) => {
      for (let week = 0; week < WEEKS; week++) {
        const monday = season.from + 7 * week;
        const there = standing.inBeds.filter(
          (one) =>
            one.bed === bed && one.batch.plantedOut < monday + 7 && one.batch.cleared > monday,
        );
        const text = String(cell(first + b, 2 + week));
        if (there.length > 0) filled++;
        expect(text === '', `${bed}, week ${week}: ${text}`).toBe(there.length === 0);
        const letters = text.replace(/^·/, '').replace(/\+?( ×)?$/, '');
        if (text !== '') {
          expect(
            there.some(({ crop }) => crop.name.startsWith(letters)),
            `${bed}, week ${week}: ${text}`,
          ).toBe(true);
        }
      }
    });
    expect(filled).toBeGreaterThan(20);
  });

  it('reckons the feed of the rows as the planner does', () => {
    const names = new Map(model.names.map((one) => [one.name, one]));
    const of = (name: string, row: number): unknown => {
      const { sheet: where, area } = names.get(name)!;
      return valueAt(where, area.row + row, area.column);
    };
    const called = feedCalled(season, []);
    for (const week of [0, 5, 12, 20]) {
      const monday = season.from + 7 * week;
      const sum = farm.plantings.reduce((all, _, row) => {
        const [out, free, calls] = ['out', 'free', 'calls'].map((one) =>
          of(`Plantings_${one}`, row),
        );
        const stands =
          typeof out === 'number' && out <= monday && typeof free === 'number' && free > monday;
        return all + (stands && typeof calls === 'number' ? calls : 0);
      }, 0);
      expect(sum, `week ${week}`).toBeCloseTo(called[week] as number, 6);
    }
  });
});
