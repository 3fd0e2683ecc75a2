import { describe, expect, it } from 'vitest';
import { isOwnPlanting, ownRows, type RowPlaces, withoutRows } from '../../src/ahead/planner-rows';
import { bookChange } from '../../src/ahead/rows-in-book';
import { changedFarmFile } from '../../src/ahead/rows-in-farm-file';
import { type WrittenRows, writtenRows } from '../../src/ahead/written-rows';
import { openBook } from '../../src/ooxml/open-book';
import { typedIntoBook } from '../../src/ooxml/typed-into-book';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { type Farm, readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { readBook } from '../../src/plan/read-book';
import { sampleFarm } from '../tools/farms';
import { few } from '../tools/how-many';
import { differences } from '../tools/same-farm';

const NOTHING: RowPlaces = { fishLog: [], plantings: [] };
const NO_ROWS: WrittenRows = { fishLog: [], plantings: [] };

/** So many rows of a plan that says nothing of sense. */
function rowsFor(farm: Farm, count: number): WrittenRows {
  const beds = farm.beds.map(({ name }) => name);
  const tanks = farm.tanks.map(({ name }) => name);
  const from = farm.asOf + 14;
  return writtenRows(
    farm,
    Array.from({ length: count }, (_, at) => ({
      date: from + at,
      kind: (['stocked', 'moved', 'sold'] as const)[at % 3] as 'stocked',
      tank: tanks[at % tanks.length] as string,
      fish: 10 + at,
      planned: true as const,
      expected: 40,
      ...(at % 3 === 0 && { weight: 37.123456 + at / 7, lot: `lot ${at}` }),
      ...(at % 3 === 1 && { toTank: tanks[(at + 1) % tanks.length] as string }),
    })),
    Array.from({ length: count }, (_, at) => ({
      crop: farm.markets[at % farm.markets.length]?.crop as string,
      bed: beds[at % beds.length] as string,
      plants: 20 + at,
      area: 1,
      sown: from + at,
      plantedOut: from + at + 20,
      firstCut: from + at + 50,
      cleared: from + at + 60,
    })),
  );
}

const farms = ['larkfield-school', 'aldermoor-springs'] as const;

describe.each(few(1, farms))('rows of the planner in the workbook of %s', (name) => {
  const farm = sampleFarm(name);
  const model = planWorkbook(farm, { formulas: 'plain' });
  const bytes = writeXlsx(model, () => 0);
  const changed = (from: Uint8Array, gone: RowPlaces, rows: WrittenRows) => {
    const reading = readBook(openBook(from));
    const { cells, left } = bookChange(reading, reading.farm as Farm, gone, rows);
    return { left, bytes: typedIntoBook(from, cells, [...reading.places.values()]) };
  };
  const farmIn = (from: Uint8Array): Farm => readBook(openBook(from)).farm as Farm;

  it('are read back as written, and removed in one step', () => {
    const rows = rowsFor(farm, 12);
    const written = changed(bytes, NOTHING, rows);
    expect(written.left).toEqual({ fishLog: 0, plantings: 0 });
    const there = farmIn(written.bytes);
    expect(differences(there.fishLog.slice(-12), rows.fishLog)).toEqual([]);
    expect(differences(there.plantings.slice(-12), rows.plantings)).toEqual([]);
    expect(differences(withoutRows(there, ownRows(there, 'all')).fishLog, farm.fishLog)).toEqual(
      [],
    );
    const back = changed(written.bytes, ownRows(there, 'all'), NO_ROWS);
    expect(differences(farmIn(back.bytes).fishLog, farm.fishLog)).toEqual([]);
    expect(differences(farmIn(back.bytes).plantings, farm.plantings)).toEqual([]);
  });

  it('leave every formula unchanged', () => {
    const formulas = (from: Uint8Array) =>
      openBook(from).sheets.flatMap((sheet) =>
        sheet.formulas.flatMap((row, r) =>
          row.flatMap((cell, c) =>
            typeof cell === 'string' && cell.startsWith('=')
              ? [`${sheet.name} ${r} ${c} ${cell}`]
              : [],
          ),
        ),
      );
    const written = changed(bytes, NOTHING, rowsFor(farm, 5));
    expect(formulas(written.bytes)).toEqual(formulas(bytes));
  });

  it('lengthen the registers just as the plan itself would', () => {
    const count = 130;
    const rows = rowsFor(farm, count);
    const written = changed(bytes, NOTHING, rows);
    expect(written.left).toEqual({ fishLog: 0, plantings: 0 });
    const book = openBook(written.bytes);
    const there = readBook(book).farm as Farm;
    expect(there.plantings).toHaveLength(farm.plantings.length + count);
    const larger = planWorkbook(
      {
        ...farm,
        fishLog: [...farm.fishLog, ...rows.fishLog],
        plantings: [...farm.plantings, ...rows.plantings],
      },
      { formulas: 'plain' },
    );
    for (const sheetName of ['Plantings', 'Fish log']) {
      const grown = book.sheets.find((sheet) => sheet.name === sheetName);
      const made = larger.sheets.find((sheet) => sheet.name === sheetName);
      const wrong = (grown?.formulas ?? []).flatMap((row, r) =>
        row.flatMap((cell, c) => {
          // Over its heads is looked for lines below the first prepared ones, which have formulas now.
          if (r < (made?.tables[0]?.area.row ?? 0)) return [];
          // Beside the register stand the workings of all its rows together.
          if (c >= (made?.tables[0]?.area.columns ?? 0)) return [];
          const formula = made?.rows[r]?.[c]?.formula;
          if (formula === undefined) return [];
          return cell === `=${formula}` ? [] : [`${sheetName} ${r} ${c}: ${cell}, not ${formula}`];
        }),
      );
      expect(wrong).toEqual([]);
    }
    const end = 6 + farm.plantings.length + count - 1;
    expect(book.sheets.find(({ name }) => name === 'Plantings')?.formulas).toHaveLength(end);
  });

  it('report how many rows find no free line', () => {
    const { left } = changed(bytes, NOTHING, rowsFor(farm, 1100));
    // 60 prepared lines and as far as the names of the register reach below them.
    expect(left.plantings).toBe(1100 - 1060);
    expect(left.fishLog).toBe(1100 - 1060);
  });

  it('fill the lines of removed rows first', () => {
    const first = changed(bytes, NOTHING, rowsFor(farm, 6));
    const own = ownRows(farmIn(first.bytes), 'all');
    const second = changed(first.bytes, own, rowsFor(farm, 4));
    const there = farmIn(second.bytes);
    expect(there.plantings).toHaveLength(farm.plantings.length + 4);
    expect(ownRows(there, 'all').plantings).toHaveLength(4);
  });
});

describe('rows of the planner in a farm file', () => {
  const farm = sampleFarm('larkfield-school');
  const file = JSON.parse(farm.file) as object;

  it('are read back as written, and leave the file as it was when removed', () => {
    const rows = rowsFor(farm, 9);
    const changed = changedFarmFile(file, farm, NOTHING, rows);
    const there = readFarm(changed);
    expect(differences(there.fishLog.slice(-9), rows.fishLog)).toEqual([]);
    expect(differences(there.plantings.slice(-9), rows.plantings)).toEqual([]);
    const own = ownRows(there, 'all');
    expect(own.fishLog).toHaveLength(9);
    const back = changedFarmFile(changed, there, own, NO_ROWS);
    expect(readFarm(back).plantings).toEqual(farm.plantings);
    expect(readFarm(back).fishLog).toEqual(farm.fishLog);
  });

  it('belong to the grower once one of their figures is changed', () => {
    const [row] = rowsFor(farm, 1).plantings as [Farm['plantings'][number]];
    expect(isOwnPlanting(row)).toBe(true);
    expect(isOwnPlanting({ ...row, plants: (row.plants ?? 0) + 1 })).toBe(false);
    expect(isOwnPlanting({ ...row, planted: (row.planted ?? 0) - 7 })).toBe(false);
    expect(isOwnPlanting({ ...row, remark: 'mine' })).toBe(false);
    expect(isOwnPlanting({ ...row, planned: undefined })).toBe(false);
  });

  it('are told apart from the short form of a bed', () => {
    const bed = (farm.beds[0] as Farm['beds'][number]).name;
    const crop = farm.markets[0]?.crop as string;
    const short = JSON.parse(farm.file) as { beds: object[]; plantings?: object[] };
    short.plantings = [];
    short.beds[0] = {
      ...short.beds[0],
      crop,
      plants: 10,
      sown: '2026-01-05',
      planted: '2026-01-20',
    };
    const there = readFarm(short);
    const rows = rowsFor(there, 3);
    const changed = readFarm(changedFarmFile(short, there, NOTHING, rows));
    expect(ownRows(changed, 'all').plantings).toHaveLength(3);
    expect(changed.plantings.some((row) => row.bed === bed && row.planned === undefined)).toBe(
      true,
    );
  });
});
