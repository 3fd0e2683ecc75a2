import { countedFarm } from '../../src/experience/taken-over';
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { computedValues } from '../../src/engine/engine';
import { followStep } from '../../src/ooxml/follow/follow-step';
import { openTraced } from '../../src/ooxml/open-book';
import { Package } from '../../src/ooxml/package';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { cellAddress, columnNumber, readArea } from '../../src/plan/addresses';
import { BookCells, type CellPlace } from '../../src/plan/book-snapshot';
import { type Farm, readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { readBook } from '../../src/plan/read-book';
import { renamedPlan } from '../../src/plan/renamed-plan';
import { WrongChange } from '../../src/renew/changed-farm';
import { NotRenewable, renew, type Renewal } from '../../src/renew/renew';
import { sampleFarm } from '../tools/farms';
import { few } from '../tools/how-many';
import { recalculated } from '../tools/libreoffice';
import { lintXlsx } from '../tools/lint-xlsx';
import { livedIn } from '../tools/lived-in-book';
import { partText } from '../tools/planted';
import { farmDifferences } from '../tools/same-farm';
import { schemaFaults } from '../tools/schema';

const fixtures = new Map<string, Uint8Array>();
function fixture(name: string): Uint8Array {
  const url = new URL(`../plan/fixtures/${name}-0.1.0.xlsx`, import.meta.url);
  const bytes = fixtures.get(name) ?? readFileSync(url);
  fixtures.set(name, bytes);
  return bytes;
}

const read = new WeakMap<Uint8Array, BookCells>();
/** The cells of a workbook, read once. */
function cellsOf(bytes: Uint8Array): BookCells {
  const cells = read.get(bytes) ?? new BookCells(openTraced(bytes));
  read.set(bytes, cells);
  return cells;
}
const farmOf = (bytes: Uint8Array): Farm => readBook(cellsOf(bytes)).farm as Farm;

/** A formula of one's own, with a value from before. */
const own = (formula: string) => ({ formula, value: 0 });

const larkfield = sampleFarm('larkfield-school');
const plain = planWorkbook(larkfield, { formulas: 'plain' });
const book = writeXlsx(plain, () => 0);

describe('workbooks of version 0.1.0', () => {
  /** Renewed; with what was typed, and nothing lost. */
  const renewedAsTyped = (name: string, values: typeof computedValues): Uint8Array => {
    const before = fixture(name);
    const { bytes, losses, carried } = renew(before, { values });
    expect(losses).toEqual([]);
    expect(carried.own).toBe(0);
    // A renewal counts the registers.
    expect(farmDifferences(countedFarm(farmOf(before)), farmOf(bytes))).toEqual([]);
    expect(cellsOf(bytes).hasSheet('Season')).toBe(true);
    return bytes;
  };

  it.each(few(1, ['larkfield-school', 'aldermoor-springs']))(
    '%s becomes a valid file with all that was typed, and renewing it again changes nothing',
    (name) => {
      const bytes = renewedAsTyped(name, computedValues);
      expect(schemaFaults(bytes)).toBe('');
      expect(lintXlsx(bytes)).toEqual([]);
      const again = renew(bytes);
      expect(again.losses).toEqual([]);
      expect(farmDifferences(farmOf(bytes), farmOf(again.bytes))).toEqual([]);
    },
  );
});

/** Made when some of what is one sheet today was several, all typed cells of those with figures of its own. */
describe('a workbook with more sheets than a plan has today', () => {
  const made = new URL('../plan/fixtures/larkfield-school-many-sheets.xlsx', import.meta.url);
  const before = new Uint8Array(readFileSync(made));
  /** Sheets that are gone, the sheet that each stands on, and some of its names. */
  const gone = [
    ['Spacings', 'Money', ['Space_crop', 'Space_row_a', 'Space_income_b']],
    ['What to buy', 'Money', ['Plant_watts_lamps', 'Plant_outage', 'Plant_price_pumps']],
    ['Stock weeks', 'Stock plan', ['Weeks_date', 'Weeks_fish', 'Weeks_handling_high']],
    ['Batch', 'Stock plan', ['Batch_weeks']],
    ['Pumps', 'Plant room', ['Pump_elbows', 'Pumps_tank', 'Pumps_status']],
    ['Doses', 'Balance', ['Most_unionised', 'Dose_iron_share', 'Nutrient_calcium_base']],
  ] as const;
  const all = gone.flatMap(([, , names]) => [...names]);
  const placeOf = (from: BookCells, name: string): string => {
    const found = from.name(name);
    const sheet = found?.sheet ?? '';
    return `${sheet.includes(' ') ? `'${sheet}'` : sheet}!${cellAddress(found?.area.row ?? 0, found?.area.column ?? 0)}`;
  };
  // Own cells far to the right on the same line of each, and formulas that look at cells of sheets that go.
  const source = livedIn(before, {
    cells: Object.fromEntries(
      gone.flatMap(([sheet], i) => [
        [`${sheet}!GA3`, `my own ${i + 1}`],
        [`${sheet}!GB3`, `=2*${10 + i}`],
      ]),
    ),
    sheets: {
      'My sums': [
        all.map((name) => own(placeOf(cellsOf(before), name))),
        gone.map(([sheet]) => own(`'${sheet}'!GB3`)),
      ],
    },
  });
  let renewal: Renewal;
  let cells: BookCells;
  beforeAll(() => {
    renewal = renew(source);
    cells = cellsOf(renewal.bytes);
  });

  it('keeps all that was typed, and loses nothing', () => {
    const file: unknown = JSON.parse(
      readFileSync(new URL('larkfield-school-many-sheets.json', made), 'utf8'),
    );
    expect(renewal.losses).toEqual([]);
    // What the registers come to is counted anew.
    expect(farmDifferences(countedFarm(readFarm(file)), countedFarm(farmOf(before)))).toEqual([]);
    expect(farmDifferences(countedFarm(readFarm(file)), farmOf(renewal.bytes))).toEqual([]);
    expect(schemaFaults(renewal.bytes)).toBe('');
  });

  it('has the sheets of today, and says where those that are gone stand', () => {
    const today = planWorkbook(farmOf(renewal.bytes), { formulas: 'live' });
    expect(cells.sheetNames).toEqual([...today.sheets.map(({ name }) => name), 'My sums']);
    expect(renewal.notes.filter((note) => note.startsWith('What stood on'))).toEqual(
      gone.map(([was, is]) => `What stood on the sheet ${was} stands on ${is} now.`),
    );
  });

  it('points own formulas at the same cells, and keeps own cells of sheets that are gone', () => {
    const formulas = (row: number, columns: number): (string | undefined)[] =>
      Array.from(
        { length: columns },
        (_, column) => cells.at({ sheet: 'My sums', row, column }).formula,
      );
    expect(formulas(0, all.length)).toEqual(all.map((name) => placeOf(cells, name)));
    expect(renewal.carried.own).toBe(2 * gone.length);
    formulas(1, gone.length).forEach((formula, i) => {
      const [sheet = '', address = ''] = (formula ?? '').replaceAll("'", '').split('!');
      expect(sheet).toBe(gone[i]?.[1]);
      const at = readArea(address) ?? { row: 0, column: 1 };
      const place = { sheet, row: at.row, column: at.column };
      expect(cells.at(place).formula).toBe(`2*${10 + i}`);
      expect(cells.at({ ...place, column: place.column - 1 }).value).toBe(`my own ${i + 1}`);
    });
  });
});

describe('a workbook in which somebody has worked', () => {
  const tanks = cellsOf(fixture('larkfield-school')).width('Tanks');
  const letter = (column: number): string => cellAddress(0, column).replace(/\d/g, '');
  const seenBy = letter(tanks);
  const further = letter(tanks + 2);
  /** The cell of a figure of a table, by the name of its row. */
  const figure = (name: string, row: string): string => {
    const old = cellsOf(fixture('larkfield-school'));
    const area = old.name(name)?.area;
    const sheet = old.name(name)?.sheet ?? '';
    for (let at = 0; area && at < old.end(sheet); at++)
      if (old.at({ sheet, row: at, column: 0 }).value === row)
        return `${sheet}!${cellAddress(at, area.column)}`;
    throw new Error(`no row ${row} of ${name}`);
  };
  const source = livedIn(fixture('larkfield-school'), {
    columns: { Tanks: ['Seen by'] },
    cells: {
      [`Tanks!${seenBy}5`]: 'Seen by',
      [`Tanks!${seenBy}6`]: 'Ada',
      [`Tanks!${seenBy}7`]: 'Bo',
      [`Tanks!${further}5`]: 'Twice the water',
      [`Tanks!${further}6`]: '=2*B6',
      [`Tanks!${further}7`]: '=2*$B7',
      'Site!E10': 'measured on the roof',
      'Money!B13': 99,
      [figure('Crop_bed_days', 'lettuce')]: 41,
      [figure('Fish_tgc', 'Nile tilapia')]: 0.91,
    },
    sheets: {
      'My sums': [
        [{ value: 'Water of both' }, own('SUM(Tanks!B6:B7)')],
        [{ value: 'All water' }, own('SUM(Tanks!$B$6:$B$11)')],
        [{ value: 'First tank' }, own('Tanks!A6&" of "&Farm_name')],
        [{ value: 'Where' }, own('Site!B10+Farm_altitude')],
        [{ value: 'By name' }, own('SUM(Tanks_volume)')],
        [{ value: 'By table' }, own('COUNTA(Tanks_register[Seen by])')],
        [{ value: 'By column' }, own('SUM(Tanks!B:B)')],
        [{ value: 'First name' }, own('First_tank')],
        [{ value: 'Own cell' }, own(`Tanks!${further}6`)],
        [{ value: 'Lettuce' }, own('INDEX(Crop_bed_days,1)+Beds!C6')],
        [{ value: 'Bare' }, own('"Tanks!B6"&B1')],
      ],
    },
    names: [
      { name: 'First_tank', sheet: 'Tanks', area: { row: 5, column: 0, rows: 1, columns: 1 } },
    ],
  });
  let renewal: Renewal;
  let cells: BookCells;
  let after: Farm;
  beforeAll(() => {
    renewal = renew(source, { changes: { tanks: 5, beds: 12 }, values: computedValues });
    cells = cellsOf(renewal.bytes);
    after = readBook(cells).farm as Farm;
  });
  const formula = (row: number): string | undefined =>
    cells.at({ sheet: 'My sums', row, column: 1 }).formula;
  const columnOf = (head: string): number => {
    for (let column = 0; column < cells.width('Tanks'); column++)
      if (cells.at({ sheet: 'Tanks', row: 4, column }).value === head) return column;
    throw new Error(`no head ${head}`);
  };
  const tank = (row: number, column: number): CellPlace => ({ sheet: 'Tanks', row, column });

  it('has more tanks and beds, and every typed cell of the older ones', () => {
    const before = farmOf(source);
    expect(after.tanks.map(({ name }) => name)).toHaveLength(5);
    expect(after.beds).toHaveLength(12);
    const first = {
      ...after,
      tanks: after.tanks.slice(0, before.tanks.length),
      beds: after.beds.slice(0, before.beds.length),
    };
    expect(farmDifferences(countedFarm(before), first)).toEqual([]);
    expect(after.crops).toMatchObject({ lettuce: { bed_days: 41 } });
    expect(after.species).toMatchObject({ 'Nile tilapia': { tgc: 0.91 } });
  });

  it('keeps own columns beside their tanks, and own cells', () => {
    const seen = columnOf('Seen by');
    expect([5, 6].map((row) => cells.at(tank(row, seen)).value)).toEqual(['Ada', 'Bo']);
    const twice = columnOf('Twice the water');
    expect(twice).toBe(seen + 2);
    const shown = letter(1);
    expect(cells.at(tank(5, twice)).formula).toBe(`2*${shown}6`);
    expect(cells.at(tank(6, twice)).formula).toBe(`2*$${shown}7`);
    expect(cells.at({ sheet: 'Site', row: 9, column: 4 }).value).toBe('measured on the roof');
    expect(partText(renewal.bytes, 'xl/workbook.xml')).toContain('My sums');
  });

  it('keeps own formulas pointing at the same things', () => {
    expect(formula(0)).toBe('SUM(Tanks!B6:B7)');
    expect(formula(2)).toBe('Tanks!A6&" of "&Farm_name');
    expect(formula(3)).toBe('Site!B10+Farm_altitude');
    expect(formula(6)).toBe('SUM(Tanks!B:B)');
    expect(formula(7)).toBe('First_tank');
    expect(formula(8)).toBe(`Tanks!${letter(columnOf('Twice the water'))}6`);
    expect(formula(10)).toBe('"Tanks!B6"&B1');
    // What reached to the end of the register does so still.
    const last = 5 + after.tanks.length;
    expect(Number(/\$B\$6:\$B\$(\d+)/.exec(formula(1) ?? '')?.[1])).toBeGreaterThanOrEqual(last);
  });

  it('says what was typed over a formula and cannot stay', () => {
    expect(renewal.losses.filter(({ kind }) => kind === 'points nowhere')).toEqual([]);
    const over = renewal.losses.filter(({ kind }) => kind === 'typed over');
    expect(over.map(({ where }) => where)).toEqual(['Money!B13']);
  });

  it('is a valid file, in which LibreOffice computes the same', async () => {
    expect(schemaFaults(renewal.bytes)).toBe('');
    // Own formulas that hang on the plan are computed when the file is opened, and show nothing of before.
    const faults = lintXlsx(renewal.bytes);
    expect(
      faults.filter((one) => !/^(?:My sums!|Tanks!AC).* without the value it gave$/.test(one)),
    ).toEqual([]);
    expect(faults.filter((one) => one.startsWith('My sums!'))).toHaveLength(11);
    const both = await recalculated(
      new Map([
        ['renewed.xlsx', renewal.bytes],
        ['old.xlsx', source],
      ]),
    );
    const [values, old] = [both.get('renewed.xlsx'), both.get('old.xlsx')];
    for (const row of [0, 2, 3, 7, 8, 9, 10])
      expect([row, values?.('My sums', row, 1)]).toEqual([row, old?.('My sums', row, 1)]);
    const volumes = after.tanks.map(({ volume }) => volume);
    const litres = volumes.reduce((sum, volume) => sum + volume, 0);
    expect(values?.('My sums', 4, 1)).toBeCloseTo(litres, 3);
    expect(Number(values?.('My sums', 1, 1)) * 3.785411784).toBeCloseTo(litres, 3);
    expect(values?.('My sums', 5, 1)).toBe(2);
  });
});

describe('what cannot be kept', () => {
  it('is refused where an own sheet or name stands in the way, or fewer tanks are asked for', () => {
    const taken = livedIn(fixture('larkfield-school'), {
      sheets: { Season: [[{ value: 'Mine' }]] },
    });
    expect(() => renew(taken)).toThrow(NotRenewable);
    expect(() => renew(taken)).toThrow(/a sheet "Season".*give yours another name/);
    expect(() => renew(book, { changes: { tanks: 1 } })).toThrow(WrongChange);
    expect(() => renew(book, { changes: { tanks: 1 } })).toThrow(
      /which are to go is for you to say/,
    );
    const wrong = livedIn(book, { cells: { 'Tanks!B6': -3 } });
    expect(() => renew(wrong)).toThrow(/Tanks!B6 \(Water, gal\) must be/);
  });
});

describe('where the first tank is gone', () => {
  const part = 'xl/worksheets/added1.xml';
  const last = 5 + larkfield.tanks.length;
  let renewal: Renewal;
  beforeAll(() => {
    const source = Package.open(
      livedIn(book, { sheets: { Mine: [[own('Tanks!B6*2'), own('Tanks!B7')]] } }),
    );
    const withRules = source
      .text(part)
      .replace(
        '</sheetData>',
        `</sheetData><conditionalFormatting sqref="A1"><cfRule type="expression" priority="1"><formula>Tanks!$B$7&gt;5</formula></cfRule></conditionalFormatting><dataValidations count="1"><dataValidation type="list" sqref="A1"><formula1>Tanks!$A$7:$A$${last}</formula1></dataValidation></dataValidations><hyperlinks><hyperlink ref="A1" location="Tanks!A7"/></hyperlinks>`,
      );
    source.replace(part, withRules);
    const { tanks, ...rest } = readBook(cellsOf(book)).file;
    const farm = { ...rest, tanks: (tanks as unknown[]).slice(1) };
    renewal = renew(source.bytes(), { changes: { farm } });
  });

  it('a formula that read it is reported, and only that one points nowhere', () => {
    const { losses, bytes } = renewal;
    expect(losses.map(({ where, kind }) => [where, kind])).toEqual([['Mine!A1', 'points nowhere']]);
    expect(losses[0]?.says).toMatch(/=Tanks!B6\*2: Tanks!B6 has no counterpart/);
    const cells = cellsOf(bytes);
    expect(cells.at({ sheet: 'Mine', row: 0, column: 0 }).formula).toBe('#REF!*2');
    expect(cells.at({ sheet: 'Mine', row: 0, column: 1 }).formula).toBe('Tanks!B6');
  });

  it('marks, rules and links of own sheets are re-pointed as well as their cells', () => {
    const xml = Package.open(renewal.bytes).text(part);
    expect(xml).toContain('<formula>Tanks!$B$6&gt;5</formula>');
    expect(xml).toMatch(new RegExp(`<formula1>Tanks!\\$A\\$6:\\$A\\$${last - 1}</formula1>`));
    expect(xml).toContain('location="Tanks!A6"');
  });
});

it('keeps what stands in inserted lines, and finds the plan around them', () => {
  const file = Package.open(fixture('aldermoor-springs'));
  for (const [sheet, at] of [
    ['Site', 5],
    ['Stock plan', 9],
  ] as const)
    followStep(file, { kind: 'lines', sheet, dimension: 'row', at, count: 2, like: at - 1 });
  const source = livedIn(file.bytes(), {
    cells: { 'Site!B6': 'a line of mine', 'Site!B7': 12 },
    sheets: { Mine: [[own('Site!B7+Site!B12'), own('Site!B6')]] },
  });
  const { bytes, losses, notes } = renew(source);
  expect(losses).toEqual([]);
  expect(notes.join()).toMatch(/Site!B6 is Site!([A-Z]+)6 now, Site!B7 is Site!\1?7 now/);
  const before = cellsOf(source);
  const cells = cellsOf(bytes);
  const shown = (column: number): unknown[] => {
    const { formula = '' } = cells.at({ sheet: 'Mine', row: 0, column });
    return formula.split('+').map((reference) => {
      const [, letters = '', row] = /^Site!([A-Z]+)(\d+)$/.exec(reference) ?? [];
      return cells.at({ sheet: 'Site', row: Number(row) - 1, column: columnNumber(letters) }).value;
    });
  };
  expect(shown(0)).toEqual([12, before.at({ sheet: 'Site', row: 11, column: 1 }).value]);
  expect(shown(1)).toEqual(['a line of mine']);
});

it('keeps the names that somebody gave to the sheets of the plan', () => {
  const named = renamedPlan(plain, new Map([['tanks', 'Basins']]), new Map());
  const source = livedIn(
    writeXlsx(named, () => 0),
    {
      sheets: { Mine: [[own('Basins!B6')]] },
    },
  );
  const { bytes, losses } = renew(source, { changes: { day: '2027-02-01' } });
  expect(losses).toEqual([]);
  const cells = cellsOf(bytes);
  expect(cells.hasSheet('Tanks')).toBe(false);
  expect(cells.at({ sheet: 'Mine', row: 0, column: 0 }).formula).toBe('Basins!B6');
  expect(
    farmDifferences({ ...larkfield, asOf: farmOf(bytes).asOf }, farmOf(bytes)).filter(
      (one) => !/^\.(?:tanks|beds|ownFigures)/.test(one),
    ),
  ).toEqual([]);
});

it('stops when told to, before anything is made', () => {
  const steps: string[] = [];
  expect(() =>
    renew(book, {
      progress: ({ share, doing }) => {
        steps.push(doing);
        if (share >= 0.3) throw new Error('ended');
      },
    }),
  ).toThrow('ended');
  expect(steps.length).toBeGreaterThan(1);
});

describe('with a tank more', () => {
  const source = livedIn(book, { sheets: { Mine: [[{ value: 'one' }, own('A1&"x"')]] } });
  const copy = source.slice();
  let bytes: Uint8Array;
  beforeAll(() => {
    ({ bytes } = renew(source, { changes: { tanks: larkfield.tanks.length + 1 } }));
  });

  it('leaves its input unchanged, and every part that does not belong to the plan', () => {
    expect(source).toEqual(copy);
    const part = 'xl/worksheets/added1.xml';
    expect(Package.open(bytes).text(part)).toBe(Package.open(source).text(part));
  });

  it('puts the new tank behind the last, like it and empty', () => {
    const farm = farmOf(bytes);
    const [last, fresh] = farm.tanks.slice(-2);
    expect(fresh).toMatchObject({ volume: last?.volume, species: last?.species, fish: 0 });
    expect(readFarm(JSON.parse(farm.file)).tanks).toHaveLength(farm.tanks.length);
  });
});
