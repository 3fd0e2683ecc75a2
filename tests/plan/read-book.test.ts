import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { openBook } from '../../src/ooxml/open-book';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { cellAddress } from '../../src/plan/addresses';
import type { BookSnapshot, SnapshotValue } from '../../src/plan/book-snapshot';
import { demoFarm } from '../../src/plan/demo-farm';
import { type Farm, readFarm } from '../../src/plan/farm';
import type { FormulaMode } from '../../src/plan/live-or-plain';
import { planWorkbook } from '../../src/plan/plan';
import { NoPlanFound, readBook } from '../../src/plan/read-book';
import { anyFarm } from '../tools/any-farm';
import { sampleFarm } from '../tools/farms';
import { few } from '../tools/how-many';
import { differences } from '../tools/same-farm';
import {
  fileOf,
  kinds,
  otherThan,
  throughGrid,
  throughLibreOffice,
  throughOpenedFile,
} from '../tools/there-and-back';

describe('a farm written into a workbook is read back the same', () => {
  it.each(kinds)('through our own files: %s, %s', (units, formulas) => {
    fc.assert(
      fc.property(anyFarm(units), (json) => {
        const farm = readFarm(json);
        expect(otherThan(farm, openBook(fileOf(farm, formulas)))).toEqual([]);
      }),
      // A hundred of them go these ways and more: npm run soak:farms.
      { numRuns: 1, endOnFailure: true },
    );
  });

  it.each(['metric', 'US'] as const)(
    'and is written in the same words from then on: %s',
    (units) => {
      const [json] = fc.sample(anyFarm(units), 1);
      const once = readBook(openBook(fileOf(readFarm(json), 'plain')));
      const twice = readBook(openBook(fileOf(once.farm as Farm, 'live')));
      expect(twice.file).toEqual(once.file);
    },
  );

  it("through the workbench's grid, and the file that it is saved as", () => {
    const [json] = fc.sample(anyFarm('US'), 1);
    expect(throughGrid(readFarm(json), 'live')).toEqual([]);
  });

  it('through a file that the workbench opened, changed and saved', async () => {
    const [json] = fc.sample(anyFarm('metric'), 1);
    expect(await throughOpenedFile(readFarm(json), 'plain')).toEqual([]);
  });

  it('through LibreOffice', () => {
    const farms = new Map(
      few(1, [kinds[0], kinds[3]])
        .flatMap((kind) => (kind ? [kind] : []))
        .map(([units, formulas]): [string, readonly [Farm, FormulaMode]] => [
          `${units}-${formulas}`,
          [readFarm(fc.sample(anyFarm(units), 2)[1]), formulas],
        ]),
    );
    for (const [name, faults] of throughLibreOffice(farms))
      expect([name, faults]).toEqual([name, []]);
  });

  it('and one that does not is reported', () => {
    const [json] = fc.sample(anyFarm('US'), 1);
    const farm = readFarm(json);
    const tanks = farm.tanks.map((tank) => ({ ...tank, volume: tank.volume + 1 }));
    expect(otherThan({ ...farm, tanks }, openBook(fileOf(farm, 'plain'))).length).toBeGreaterThan(
      0,
    );
  });
});

describe('workbooks of version 0.1.0', () => {
  it.each([
    ['larkfield-school', 1],
    ['aldermoor-springs', 0.25],
  ] as const)('%s: every typed cell is read', (name, depth) => {
    const fixture = (end: string): URL =>
      new URL(`./fixtures/${name}-0.1.0.${end}`, import.meta.url);
    const { faults, farm, file } = readBook(openBook(readFileSync(fixture('xlsx'))));
    expect(faults).toEqual([]);
    // Depths of single beds stood in no cell then; the flooded depth was a typed one.
    expect(file['figures']).toEqual({ Flood_depth: depth });
    const sample = readFarm(JSON.parse(readFileSync(fixture('json'), 'utf8')));
    const beds = sample.beds.map((bed) => ({ ...bed, depth: undefined }));
    const back = { ...farm, figures: undefined };
    expect(differences({ ...sample, beds }, back)).toEqual([]);
  });
});

const farm = sampleFarm('larkfield-school');
const plan = planWorkbook(farm, { formulas: 'plain' });
const book = openBook(writeXlsx(plan, () => 0));

/** A book with other contents in some cells; a text that begins with = is a formula that shows 7. */
function withCells(
  changes: Readonly<Record<string, SnapshotValue>>,
  shown: SnapshotValue = 7,
): BookSnapshot {
  const sheets = book.sheets.map((sheet) => {
    const [formulas, values] = [sheet.formulas, sheet.values].map((rows) =>
      rows.map((row) => [...row]),
    ) as [SnapshotValue[][], SnapshotValue[][]];
    for (const [address, content] of Object.entries(changes)) {
      const [, name, letters = '', digits] = /^(.*)!([A-Z])(\d+)$/.exec(address) ?? [];
      if (name !== sheet.name) continue;
      const [row, column] = [Number(digits) - 1, letters.charCodeAt(0) - 65];
      const isFormula = typeof content === 'string' && content.startsWith('=');
      (formulas[row] as SnapshotValue[])[column] = content;
      (values[row] as SnapshotValue[])[column] = isFormula ? shown : content;
    }
    return { ...sheet, formulas, values };
  });
  return { ...book, sheets };
}

const saysOf = (
  changes: Readonly<Record<string, SnapshotValue>>,
  shown?: SnapshotValue,
): string[] => readBook(withCells(changes, shown)).faults.map(({ says }) => says);

describe('a wrong cell is named, together with what would be right', () => {
  it.each<[string, Readonly<Record<string, SnapshotValue>>, RegExp]>([
    [
      'too high',
      { 'Site!B10': 95 },
      /^Site!B10 \(Latitude, degrees\) must be a number from -90 to 90/,
    ],
    ['blank', { 'Tanks!B6': '' }, /^Tanks!B6 \(Water, gal\) is blank/],
    [
      'in the farm’s units',
      { 'Tanks!B7': 0 },
      /^Tanks!B7 \(Water, gal\) must be a number above 0 .*gal; got 0/,
    ],
    ['an unknown crop', { 'Beds!F6': 'lettus' }, /^Beds!F6 \(Crop\) .*"lettuce"; got "lettus"/],
    [
      'no date',
      { 'Water log!A6': 'Monday' },
      /^Water log!A6 \(Date\) is text .*not a date: type it/,
    ],
    [
      // The sheet's own formulas pass over it.
      'a number as text in a register',
      { 'Water log!D6': '0.5' },
      /^Water log!D6 \(Total ammonia-N.*\) is text \("0.5"\), not a number: type the number alone/,
    ],
    [
      'a time of day in the Fish log',
      { 'Fish log!A6': 46100.5 },
      /^Fish log!A6 \(Date\) has a time of day/,
    ],
    ['no day of the plan', { 'Site!B8': 12 }, /^Site!B8 \(Day of the plan\) must be a date/],
    ['half a row', { 'Money!A17': 'Rent' }, /^Money!B17 \(A month\) is blank/],
    [
      'a crop of one’s own',
      { 'Crops!A9': 'sea kale' },
      /^Crops!A9 \(Name\) is no crop of the table/,
    ],
  ])('%s', (_, changes, says) => {
    const found = saysOf(changes);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(says);
  });

  it('an error in a typed cell', () => {
    expect(saysOf({ 'Tanks!B6': '=1/0' }, new GillError('#DIV/0!', '').code)[0]).toMatch(
      /^Tanks!B6 \(Water, gal\) shows #DIV\/0!/,
    );
  });

  it('a workbook without a plan, or with two', () => {
    expect(() => readBook({ sheets: [], names: [] })).toThrow(NoPlanFound);
    const second = book.names.map((one) => ({ ...one, name: `${one.name}_2` }));
    const both = { ...book, names: [...book.names, ...second] };
    expect(() => readBook(both)).toThrow(/2 plans/);
    expect(readBook(both, '_2').faults).toEqual([]);
  });
});

describe('a grower’s changes to the cells are read as they were meant', () => {
  const addressOf = (named: string): string => {
    const found = book.names.find(({ name }) => name === named);
    if (!found) throw new Error(`no cell is called ${named}`);
    return `${found.sheet}!${cellAddress(found.area.row, found.area.column)}`;
  };
  const read = (
    changes: Readonly<Record<string, SnapshotValue>>,
  ): Readonly<Record<string, unknown>> => {
    const { faults, file } = readBook(withCells(changes));
    expect(faults).toEqual([]);
    return file;
  };

  it('a formula of one’s own in place of a figure', () => {
    expect(read({ 'Tanks!B6': '=3+4' })['tanks']).toMatchObject([{ volume: 7 }, {}]);
  });

  it('a figure over a formula of the plan, a preset overwritten, one cleared', () => {
    const { figures } = read({ 'Site!B15': 45, [addressOf('Least_acidity')]: '' });
    expect(figures).toEqual({ House_changes: 45, Least_acidity: null });
  });

  it('figures of a crop and of a fish', () => {
    const name = (one: string) => book.names.find(({ name }) => name === one)?.area.column ?? 0;
    const letter = (column: number): string => String.fromCharCode(65 + column);
    const sheet = book.sheets.find(({ name }) => name === 'Crops');
    const row = (sheet?.values.findIndex(([first]) => first === 'lettuce') ?? 0) + 1;
    const { crops } = read({
      [`Crops!${letter(name('Crop_bed_days'))}${row}`]: 41,
      [`Crops!${letter(name('Crop_start'))}${row}`]: 'plugs',
    });
    expect(crops).toEqual({ lettuce: { bed_days: 41, start: 'plugs' } });
  });

  it('a row typed far below the others, and none for what is blank', () => {
    const before = (read({})['beds'] as unknown[]).length;
    const beds = read({
      'Beds!A13': 'North',
      'Beds!B13': 'raft',
      'Beds!C13': 12,
      'Beds!D13': 4,
    })['beds'] as Record<string, unknown>[];
    expect(beds).toHaveLength(before + 1);
    expect(beds.at(-1)).toEqual({ name: 'North', kind: 'raft', length: 12, width: 4 });
  });

  it('the demo farm has no figures that nobody typed', () => {
    const demo = openBook(fileOf(readFarm(demoFarm), 'plain'));
    expect(Object.keys(readBook(demo).file)).not.toContain('figures');
    expect(readBook(demo).file['crops']).toEqual(demoFarm.crops);
    expect(Object.keys(readBook(demo).file)).not.toContain('species');
  });
});
