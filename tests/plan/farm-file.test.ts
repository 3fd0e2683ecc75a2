import { describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { strFromU8, unzipSync } from 'fflate';
import { openSheets } from '../../src/ooxml/open-sheets';
import { computedValues } from '../../src/engine/engine';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { LARGE_FARM } from '../soak/soak-size';
import { farmOfSize, inWords } from '../tools/farms';
import { few } from '../tools/how-many';
import { lintXlsx } from '../tools/lint-xlsx';
import { schemaFaults } from '../tools/schema';

type Json = Record<string, unknown>;

/** The demo farm with one field changed; `path` as the error names it. */
function changed(path: string, value: unknown): Json {
  const farm = structuredClone(demoFarm) as unknown as Json;
  const steps = path.split(/[.[\]]+/).filter(Boolean);
  let at: Json = farm;
  for (const step of steps.slice(0, -1)) at = at[step] as Json;
  const last = steps.at(-1) ?? '';
  if (value === undefined) delete at[last];
  else at[last] = value;
  return farm;
}

describe('a wrong farm file gets the path of the field and what would be right', () => {
  it.each<[string, unknown]>([
    ['name', ''],
    ['name', 7],
    ['units', 'imperial'],
    ['asOf', '13.4.2026'],
    ['asOf', '2026-02-30'],
    ['site.latitude', 95],
    ['site.latitude', 'north'],
    ['site.altitude', '12 kg'],
    ['months', []],
    ['months[0].water', 'warm'],
    ['months[0].water', 80],
    ['months[3].humidity', 75],
    ['water.total', 0],
    ['water.sump', -1],
    ['filter.media', null],
    ['feed.price', -2],
    ['stock.species', 'tilapa'],
    ['stock.wanted', 0],
    ['stock.survival', 1.2],
    ['stock.survival', '120 %'],
    ['tanks[0].volume', '7 m'],
    ['tanks[0].fish', 12.5],
    ['tanks[0].fish', -3],
    ['tanks[1].species', 'goldfish'],
    ['beds[2].kind', 'pot'],
    ['beds[2].crop', 'lettus'],
    ['beds[2].sown', 'yesterday'],
    ['beds[2].colour', 'green'],
    ['markets[0].every', 0],
    ['markets[0].unit', 'box'],
    ['waterTests[0].ph', 72],
    ['harvests[0].price', 'dear'],
  ])('%s: %j', (path, value) => {
    let said = '';
    try {
      readFarm(changed(path, value));
    } catch (problem) {
      said = (problem as Error).message;
    }
    expect(said).toContain(path.replace(/\.colour$/, ''));
    expect(said.length).toBeGreaterThan(path.length + 15);
    expect(said).not.toMatch(/undefined|\[object|NaN/);
  });

  it.each([null, 7, 'farm', [], {}])('%j is no farm', (json) => {
    expect(() => readFarm(json)).toThrow(/./);
  });

  it('lists every wrong field, not only the first', () => {
    const farm = changed('site.latitude', 95);
    (farm['water'] as Json)['sump'] = -1;
    expect(() => readFarm(farm)).toThrow(
      /site\.latitude[\s\S]*water\.sump|water\.sump[\s\S]*site\.latitude/,
    );
  });
});

describe('numbers with units', () => {
  it('are read in the unit of the plan', () => {
    const farm = readFarm(changed('tanks[0].volume', '1000 gal'));
    expect(farm.tanks[0]?.volume).toBeCloseTo(3785.41, 2);
    const warm = readFarm(changed('months[0].water', '78 degF'));
    expect(warm.months[0]?.water).toBeCloseTo(25.556, 3);
  });
});

/** What is wrong with a file whose formulas have no values yet. */
const faultsOfForm = (bytes: Uint8Array): string[] =>
  lintXlsx(bytes).filter((text) => !text.endsWith('without the value it gave'));

/** One tank, one bed, empty registers. */
const bare = {
  ...demoFarm,
  // What so small a tank can hold: density is an error where fish would be more than its water.
  stock: { ...demoFarm.stock, wanted: 10 },
  tanks: [{ name: 'Only', volume: 1000, species: 'Nile tilapia' }],
  beds: [{ name: 'Only', kind: 'raft', length: 2, width: 1 }],
  markets: [],
  waterTests: [],
  harvests: [],
  costs: [],
};

describe('text of the grower stays text', () => {
  it('even where it begins like a formula', () => {
    const tank = { ...bare.tanks[0], name: '=1+1' };
    const model = planWorkbook(readFarm({ ...bare, tanks: [tank] }), { formulas: 'live' });
    const tanks = model.sheets.find((sheet) => sheet.name === 'Tanks');
    const at = tanks?.rows.findIndex((row) => row[0]?.value === '=1+1') ?? -1;
    expect(at).toBeGreaterThan(0);
    expect(tanks?.rows[at]?.[0]?.formula).toBeUndefined();
    // Values of formulas play no part.
    const bytes = writeXlsx(model, () => undefined);
    const written = openSheets(bytes).find((sheet) => sheet.name === 'Tanks');
    expect(written?.formulas[at]?.[0]).toBe('=1+1');
    expect(written?.values[at]?.[0]).toBe('=1+1');
    expect(strFromU8(unzipSync(bytes)['xl/worksheets/sheet8.xml'] as Uint8Array)).not.toContain(
      '<f>1+1',
    );
    expect(faultsOfForm(bytes)).toEqual([]);
  });
});

const errorsIn = (json: unknown): string[] => {
  const model = planWorkbook(readFarm(json), { formulas: 'live' });
  const values = computedValues(model);
  return model.sheets.flatMap((sheet) =>
    sheet.rows.flatMap((row, r) =>
      row.flatMap((_, c) => {
        const value = values(sheet.name, r, c);
        return value instanceof GillError ? [`${sheet.name} ${r},${c}: ${value.message}`] : [];
      }),
    ),
  );
};

describe('small and large farms', () => {
  it('one tank without fish, one bed without a crop, empty registers: no error in any cell', () => {
    expect(errorsIn(bare)).toEqual([]);
  });

  it.each(
    few(1, [[10, 60] as const, LARGE_FARM]).map(
      ([tanks, beds]) => [inWords(tanks, beds), farmOfSize(tanks, beds)] as const,
    ),
  )('%s: written without a fault', (_, farm) => {
    const model = planWorkbook(farm, { formulas: 'live' });
    const bytes = writeXlsx(model, () => undefined);
    expect(schemaFaults(bytes)).toBe('');
    expect(faultsOfForm(bytes)).toEqual([]);
  });

  it('a bed described by more than its size has a crop', () => {
    const bed = { name: 'R01', kind: 'raft', length: 7.2, width: 1.2 };
    const read = (more: object): unknown =>
      readFarm({ ...demoFarm, plantings: [], beds: [{ ...bed, ...more }] }).plantings;
    expect(() => read({ planted: '2026-04-02' })).toThrow(
      /beds\[0\]\.crop must name the crop in "R01", since the file says "planted" of it/,
    );
    expect(read({})).toEqual([]);
    expect(read({ planted: '2026-04-02', crop: 'lettuce' })).toHaveLength(1);
  });
});
