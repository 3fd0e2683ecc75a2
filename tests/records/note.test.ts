import { describe, expect, it } from 'vitest';
import { isoText, serialFromIsoText } from '../../src/core/serial-date';
import { computedValues } from '../../src/engine/engine';
import { openBook } from '../../src/ooxml/open-book';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import {
  BookCells,
  type Cells,
  type CellPlace,
  type FoundCell,
} from '../../src/plan/book-snapshot';
import { demoFarm } from '../../src/plan/demo-farm';
import { type Farm, readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { type BookReading, readBook } from '../../src/plan/read-book';
import { dueRows, sundayOf } from '../../src/records/due';
import type { HappeningId } from '../../src/records/happenings';
import {
  type CellWrite,
  type Entries,
  type Noted,
  propose,
  proposeNote,
  rowMark,
  takeBack,
} from '../../src/records/note';
import { doubtOfHarvest, faultOfPlanting } from '../../src/records/planting-rules';
import { oneOf, randomNumbers } from '../soak/random';

const [bedA = '', bedB = ''] = demoFarm.beds.map(({ name }) => name);

/** A workbook with a few rows in each register. */
const small = readFarm({
  ...demoFarm,
  asOf: '2026-04-13',
  fishLog: [
    { date: '2026-01-05', tank: 'Tank 1', what: 'stocked', fish: 400, weight: 50 },
    { date: '2026-02-05', tank: 'Tank 1', what: 'sold', fish: 390 },
    {
      date: '2026-04-14',
      tank: 'Tank 1',
      what: 'moved',
      fish: 5,
      toTank: 'Tank 2',
      planned: 'planned',
    },
  ],
  plantings: [
    { batch: 'L1', crop: 'lettuce', sown: '2026-02-20', bed: bedA, planted: '2026-03-10' },
    { batch: 'L2', crop: 'lettuce', sown: '2026-03-20' },
  ],
  treatments: [{ date: '2026-04-10', where: bedA, what: 'soap', wait: 7 }],
  tanks: demoFarm.tanks.map(({ name, volume, species }) => ({ name, volume, species })),
  beds: demoFarm.beds
    .slice(0, 4)
    .map(({ name, kind, length, width }) => ({ name, kind, length, width })),
  waterTests: [],
  harvests: [],
});

const written = new Map<Farm, BookCells>();

/** An open workbook whose cells can be typed into. */
class Book implements Cells {
  private readonly typed = new Map<string, string | number | undefined>();
  private reading: BookReading | undefined;
  private constructor(private readonly inner: BookCells) {}
  static of(farm: Farm): Book {
    let cells = written.get(farm);
    if (!cells) {
      const plan = planWorkbook(farm, { formulas: 'plain' });
      cells = new BookCells(openBook(writeXlsx(plan, () => 0)));
      written.set(farm, cells);
    }
    return new Book(cells);
  }
  get names() {
    return this.inner.names;
  }
  name = (name: string) => this.inner.name(name);
  end = (sheet: string) => this.inner.end(sheet);
  at(place: CellPlace): FoundCell {
    const key = `${place.sheet}!${place.row},${place.column}`;
    const found = this.inner.at(place);
    return this.typed.has(key) ? { ...found, value: this.typed.get(key) ?? '' } : found;
  }
  type(cells: readonly CellWrite[]): void {
    this.reading = undefined;
    for (const { sheet, row, column, value } of cells)
      this.typed.set(`${sheet}!${row},${column}`, value);
  }
  read = (): BookReading => (this.reading ??= readBook(this));
}

const note = (
  book: Book,
  id: HappeningId,
  entries: Entries,
  date = '2026-04-13',
  instead?: { list: 'fishLog' | 'plantings'; at: number },
) => proposeNote(book.read(), book, id, { date, entries, today: '2026-04-20', instead });

const noted = (proposal: ReturnType<typeof note>): Noted => {
  if (proposal.refused !== undefined) throw new Error(proposal.refused);
  return proposal.noted;
};

describe('a note', () => {
  it.each([
    ['weighed', { tank: 'Tank 1', weight: '300' }, 'fishLog', { what: 'weighed', weight: 300 }],
    ['died', { tank: 'tank 1', fish: '2' }, 'fishLog', { what: 'died', fish: 2 }],
    ['moved', { tank: 'Tank 1', toTank: 'Tank 3', fish: '4' }, 'fishLog', { toTank: 'Tank 3' }],
    ['sold', { tank: 'Tank 1', fish: '4', weight: '1.1 lb' }, 'fishLog', { what: 'sold' }],
    ['fed', { tank: 'Tank 1', given: '120 g', feed: 'grower 3 mm' }, 'feedLog', { given: 0.12 }],
    [
      'added',
      { added: '300', baseGiven: '40', base: 'potassium bicarbonate' },
      'waterTests',
      { added: 300, baseGiven: 40, base: 'potassium bicarbonate' },
    ],
    [
      'stocked',
      { tank: 'Tank 2', fish: '300', weight: '40', lot: '007' },
      'fishLog',
      { lot: '007' },
    ],
    ['counted', { tank: 'Tank 1', fish: '9' }, 'fishLog', { fish: 9 }],
    ['tested', { ph: '7.1', oxygen: '6' }, 'waterTests', { ph: 7.1, oxygen: 6 }],
    ['sown', { crop: 'kale', seeds: '80' }, 'plantings', { crop: 'kale', seeds: 80 }],
    ['treated', { where: 'all', what: 'salt', wait: '0' }, 'treatments', { where: 'all', wait: 0 }],
    [
      'cut',
      { bed: 'Tank 1', quantity: '9.5', unit: 'kg', price: '8' },
      'harvests',
      { crop: 'Nile tilapia' },
    ],
  ] as const)(
    '%s is one row of its register, and can be taken back',
    (id, entries, list, holds) => {
      const book = Book.of(small);
      const before = book.read().file;
      const done = noted(note(book, id, entries));
      book.type(done.cells);
      const { file, farm } = book.read();
      expect(farm?.[list].at(-1)).toMatchObject(holds);
      expect(farm?.[list]).toHaveLength(small[list].length + 1);
      const back = takeBack(done, book);
      if (!('cells' in back)) throw new Error(back.refused);
      book.type(back.cells);
      expect(book.read().file).toEqual(before);
      expect(file).not.toEqual(before);
    },
  );

  it('in the batch that it speaks of: planted out, cut for the first time, cleared', () => {
    const book = Book.of(small);
    book.type(noted(note(book, 'planted', { batch: rowMark(1), bed: bedB, plants: '150' })).cells);
    expect(book.read().farm?.plantings[1]).toMatchObject({ bed: bedB, plants: 150 });
    const cut = note(book, 'cut', { bed: bedB, quantity: '10', unit: 'piece', price: '1' });
    book.type(noted(cut).cells);
    const { farm } = book.read();
    expect(farm?.harvests.at(-1)).toMatchObject({ crop: 'lettuce', bed: bedB, quantity: 10 });
    expect(farm?.plantings[1]?.firstCut).toBe(serialFromIsoText('2026-04-13'));
    book.type(noted(note(book, 'cleared', { bed: bedB }, '2026-04-15')).cells);
    expect(book.read().farm?.plantings[1]?.cleared).toBe(serialFromIsoText('2026-04-15'));
  });

  it.each([
    ['moved', { tank: 'Tank 1', toTank: 'Tank 2', fish: '11' }, /holds 10 fish .* 11 cannot leave/],
    ['died', { tank: 'Tank 9', fish: '1' }, /no tank "Tank 9"; the nearest name is/],
    ['weighed', { tank: 'Tank 2', weight: '90' }, /Tank 2 holds no fish/],
    ['weighed', { tank: 'Tank 1' }, /type mean weight/],
    ['tested', { ph: '71' }, /must be a pH from 3 to 12/],
    ['tested', {}, /at least one figure/],
    ['planted', { batch: rowMark(1), bed: bedA, plants: '150' }, /was not cleared of line 6 on/],
    ['cut', { bed: bedB, quantity: '1', unit: 'kg', price: '1' }, /was empty on 2026-04-13/],
    ['cleared', { bed: bedB }, /nothing to clear/],
    ['fed', { tank: 'Tank 2', given: '2' }, /Tank 2 holds no fish on 2026-04-13/],
    ['fed', { tank: 'Tank 9', given: '2' }, /no tank "Tank 9"/],
    ['fed', { tank: 'Tank 1', given: '-2' }, /must be a number from 0/],
    ['added', { base: 'limestone' }, /how much water or base/],
    ['added', { baseGiven: '40' }, /which base/],
    ['treated', { where: 'Tank1x', what: 'salt', wait: '0' }, /no tank or bed called "Tank1x"/],
  ] as const)('%s that cannot be is refused with a sentence', (id, entries, says) => {
    const proposal = note(Book.of(small), id, entries);
    expect(proposal.refused).toMatch(says);
  });

  it('that makes a later row impossible is refused, and names that row', () => {
    const proposal = note(Book.of(small), 'died', { tank: 'Tank 1', fish: '11' }, '2026-02-01');
    expect(proposal.refused).toMatch(/Then line 7 of the Fish log cannot be: .*390 cannot leave/);
  });

  it('of tomorrow is refused; within the days to wait it draws a warning', () => {
    const book = Book.of(small);
    expect(note(book, 'died', { tank: 'Tank 1', fish: '1' }, '2026-04-21').refused).toMatch(
      /still to come/,
    );
    const cut = note(book, 'cut', { bed: bedA, quantity: '1', unit: 'piece', price: '1' });
    expect(cut.refused).toBeUndefined();
    expect('doubts' in cut && cut.doubts).toEqual([
      `${bedA} was treated, and the days to wait were not over: see Treatments.`,
    ]);
    const later = note(
      book,
      'cut',
      { bed: bedA, quantity: '1', unit: 'piece', price: '1' },
      '2026-04-17',
    );
    expect('doubts' in later && later.doubts).toEqual([]);
  });

  it('of ten times the planned feed of those fish draws a warning', () => {
    const book = Book.of(small);
    // Ten tilapia that grew from 50 g for 98 days take some 2 % of their weight a day.
    const fed = (given: string) => note(book, 'fed', { tank: 'Tank 1', given });
    const much = fed('1.2');
    expect('doubts' in much && much.doubts).toEqual([
      expect.stringMatching(
        /^Tank 1 got 1\.2 kg on 2026-04-13; by the plan its fish take 0\.0\d+ kg a day\.$/,
      ),
    ]);
    const usual = fed('0.05');
    expect('doubts' in usual && usual.doubts).toEqual([]);
  });

  it('of the same thing on the same day must be confirmed', () => {
    const book = Book.of(small);
    book.type(noted(note(book, 'died', { tank: 'Tank 1', fish: '1' })).cells);
    const again = note(book, 'died', { tank: 'Tank 1', fish: '1' });
    expect('doubts' in again && again.doubts).toEqual(['The same stands in line 9 already.']);
  });

  it('cannot be taken back once somebody changed its row', () => {
    const book = Book.of(small);
    const done = noted(note(book, 'died', { tank: 'Tank 1', fish: '1' }));
    book.type(done.cells);
    const last = done.rows.at(-1) as CellWrite;
    book.type([{ ...last, value: 'heron' }]);
    expect(takeBack(done, book)).toEqual({
      refused: expect.stringMatching(/^Fish log!J9 was changed since/) as string,
    });
  });

  it('that differs from the plan marks the planned row in the same step', () => {
    const book = Book.of(small);
    const done = noted(
      note(book, 'moved', { tank: 'Tank 1', toTank: 'Tank 2', fish: '6' }, '2026-04-15', {
        list: 'fishLog',
        at: 2,
      }),
    );
    book.type(done.cells);
    const { farm } = book.read();
    expect(farm?.fishLog[2]?.planned).toBe('otherwise');
    expect(farm?.fishLog[3]).toMatchObject({ fish: 6, toTank: 'Tank 2' });
  });

  it('says where the register has no prepared line left', () => {
    const book = Book.of(small);
    const reading = book.read();
    const lines = reading.free.get('fishLog') ?? [];
    const used = new Map(reading.free).set('fishLog', lines.slice(lines.length - 10));
    const { refused } = propose({ ...reading, free: used }, book, [
      { list: 'fishLog', fields: { date: '2026-04-13', tank: 'Tank 1', what: 'died', fish: 1 } },
    ]);
    expect(refused).toMatch(/no prepared line left/);
  });
});

/** Rows of every kind of fault, in any order. */
function anyPlantings(seed: number, count: number): unknown[] {
  const random = randomNumbers(seed);
  const day = (): string => isoText(46000 + Math.floor(random() * 200));
  const maybe = <T>(share: number, value: T): T | undefined =>
    random() < share ? value : undefined;
  return Array.from({ length: count }, () =>
    Object.fromEntries(
      Object.entries({
        crop: oneOf(random, ['lettuce', 'kale', 'basil']),
        bed: maybe(0.9, oneOf(random, [bedA, bedB, ` ${bedB.toLowerCase()}`, 'nowhere'])),
        sown: maybe(0.6, day()),
        planted: maybe(0.85, day()),
        plants: maybe(0.5, Math.floor(random() * 300)),
        firstCut: maybe(0.2, day()),
        cleared: maybe(0.5, day()),
        planned: maybe(0.1, oneOf(random, ['otherwise', 'not done'])),
      }).filter(([, value]) => value !== undefined),
    ),
  );
}

it('says of rows of Plantings and Harvest log what their sheets say, and is due what Week asks for', () => {
  const random = randomNumbers(5);
  const farm = readFarm({
    ...demoFarm,
    asOf: '2026-04-13',
    tanks: demoFarm.tanks.map(({ name, volume, species }) => ({ name, volume, species })),
    beds: demoFarm.beds
      .slice(0, 4)
      .map(({ name, kind, length, width }) => ({ name, kind, length, width })),
    fishLog: demoFarm.fishLog,
    plantings: anyPlantings(11, 90),
    treatments: [
      { date: '2026-02-01', where: bedA, what: 'soap', wait: 30 },
      { date: '2026-03-20', where: 'All', what: 'lime', wait: 3 },
    ],
    harvests: Array.from({ length: 60 }, () => ({
      date: isoText(46000 + Math.floor(random() * 200)),
      crop: 'lettuce',
      bed: oneOf(random, [bedA, bedB, 'Tank 1']),
      quantity: 1,
      unit: 'kg',
      price: 1,
    })),
  });
  const plan = planWorkbook(farm, { formulas: 'plain' });
  const at = computedValues(plan);
  const shows = (name: string, row: number): unknown => {
    const found = plan.names.find((one) => one.name === name);
    if (!found) throw new Error(`no ${name}`);
    return at(found.sheet, found.area.row + row, found.area.column);
  };
  const faults = farm.plantings.map(
    (_, row) => faultOfPlanting(row, farm, (other) => `line ${other + 6}`) ?? '',
  );
  expect(new Set(faults.map((text) => text.replace(/\d.*/, ''))).size).toBeGreaterThan(6);
  // The sheet has the name of a bed as it was typed, with the spaces around it.
  expect(faults).toEqual(
    farm.plantings.map((_, row) => String(shows('Plantings_says', row)).trim()),
  );
  const doubts = farm.harvests.map((row) => doubtOfHarvest(row, farm) ?? '');
  expect(new Set(doubts.map((text) => text.slice(-12))).size).toBeGreaterThan(2);
  expect(doubts).toEqual(farm.harvests.map((_, row) => shows('Harvest_says', row)));
  const asked = farm.fishLog.flatMap((_, row) => (shows('Fishlog_asked', row) === '' ? [] : [row]));
  expect(
    dueRows(farm)
      .flatMap(({ list, at }) => (list === 'fishLog' ? [at] : []))
      .sort((a, b) => a - b),
  ).toEqual(asked.sort((a, b) => a - b));
  expect(sundayOf(farm)).toBe((shows('Farm_week', 0) as number) + 6);
});
