import { readFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import type { BookSnapshot } from '../../src/plan/book-snapshot';
import { type Farm, readFarm } from '../../src/plan/farm';
import type { WorkbookModel } from '../../src/plan/workbook-model';
import type { ComputedValues } from '../../src/plan/computed-values';
import {
  sampleFarms,
  sampleFiles,
  sampleWorkbooks,
  type SampleWorkbook,
} from '../../src/terminal/sample-workbooks';
import { openBook } from '../../src/ooxml/open-book';
import { countedFarm } from '../../src/experience/taken-over';
import { readBook } from '../../src/plan/read-book';
import { few } from '../tools/how-many';
import { farmDifferences } from '../tools/same-farm';
import { recalculated, type SheetValues } from '../tools/libreoffice';
import { lintXlsx } from '../tools/lint-xlsx';
import { schemaFaults } from '../tools/schema';

const folder = resolve('sample-workbooks');
const farms = [...sampleFarms(folder)];
/** Of the largest, the demo farm, `npm test` looks at what its files hold; `npm run test:long` makes it as well. */
const made = few(2, [...farms].reverse());
const workbooks = sampleWorkbooks(new Map(made));
const files = sampleFiles(workbooks);

interface Sample {
  readonly name: string;
  readonly live: WorkbookModel;
  readonly plain: WorkbookModel;
  readonly liveValues: ComputedValues;
  readonly plainValues: ComputedValues;
}

const workbook = (file: string): SampleWorkbook => {
  const found = workbooks.find((workbook) => workbook.file === file);
  if (!found) throw new Error(`There is no sample ${file}`);
  return found;
};

const samples = made.map(([file]): Sample => {
  const name = basename(file, '.json');
  const [live, plain] = [workbook(`${name}-live.xlsx`), workbook(`${name}-plain.xlsx`)];
  return {
    name,
    live: live.model,
    plain: plain.model,
    liveValues: live.values,
    plainValues: plain.values,
  };
});

let office: Map<string, SheetValues>;

beforeAll(async () => {
  office = await recalculated(new Map([...files].filter(([name]) => name.includes('-plain'))));
});

const isSame = (value: unknown, wanted: unknown): boolean => {
  if (wanted instanceof GillError) return value instanceof GillError;
  if (typeof wanted === 'number' && typeof value === 'number') {
    return Math.abs(value - wanted) <= 1e-9 * Math.max(1, Math.abs(wanted));
  }
  return (value ?? '') === (wanted ?? '');
};

/** Computed cells of a plan in which another set of values differs. */
function differences(
  model: WorkbookModel,
  wanted: ComputedValues,
  found: ComputedValues,
): string[] {
  return model.sheets.flatMap((sheet) =>
    sheet.rows.flatMap((row, r) =>
      row.flatMap((cell, c) => {
        if (!cell) return [];
        const a = wanted(sheet.name, r, c);
        const b = found(sheet.name, r, c);
        return isSame(b, a) ? [] : [`${sheet.name} ${r},${c}: ${String(b)}, not ${String(a)}`];
      }),
    ),
  );
}

describe('the folder of sample workbooks', () => {
  it('holds byte for byte what the script makes', () => {
    for (const [name, bytes] of files) {
      const there = readFileSync(join(folder, name));
      expect(Buffer.compare(there, Buffer.from(bytes)), name).toBe(0);
    }
  });

  it.each(farms.filter((one) => !made.includes(one)))(
    'holds of %s the farm and the same values live and plain, none of them an error',
    (file, json) => {
      const [live, plain] = ['live', 'plain'].map((kind) =>
        openBook(readFileSync(join(folder, file.replace('.json', `-${kind}.xlsx`)))),
      ) as [BookSnapshot, BookSnapshot];
      for (const book of [live, plain]) {
        const { farm } = readBook(book);
        expect(farmDifferences(countedFarm(readFarm(json)), farm as Farm)).toEqual([]);
      }
      const wrong = live.sheets.flatMap(({ name, values }, s) =>
        values.flatMap((row, r) =>
          row.flatMap((value, c) => {
            const other = plain.sheets[s]?.values[r]?.[c];
            const isRight = isSame(other, value) && !/^#[A-Z]/.test(String(value));
            return isRight ? [] : [`${name} ${r},${c}: ${String(value)}, plain ${String(other)}`];
          }),
        ),
      );
      expect(wrong).toEqual([]);
      expect(live.sheets.flatMap(({ values }) => values.flat()).length).toBeGreaterThan(10_000);
    },
  );

  it('has three farms, one of them in American units, one in the south', () => {
    const read = farms.map(([, json]) => readFarm(json));
    expect(read).toHaveLength(3);
    expect(read.map((farm) => farm.units)).toContain('US');
    expect(read.some((farm) => (farm.site.latitude ?? 0) < 0)).toBe(true);
  });
});

describe.each(samples)('$name', ({ name, live, plain, liveValues, plainValues }) => {
  it('shows no error in any cell', () => {
    for (const [model, values] of [
      [live, liveValues],
      [plain, plainValues],
    ] as const) {
      const wrong = model.sheets.flatMap((sheet) =>
        sheet.rows.flatMap((row, r) =>
          row.flatMap((_, c) => {
            const value = values(sheet.name, r, c);
            const bad =
              value instanceof GillError || (typeof value === 'number' && !Number.isFinite(value));
            return bad ? [`${sheet.name} ${r},${c}: ${String(value)}`] : [];
          }),
        ),
      );
      expect(wrong).toEqual([]);
    }
  });

  it('has the same values plain and live, in the grid’s engine', () => {
    expect(differences(plain, liveValues, plainValues)).toEqual([]);
  });

  it('has the same values when LibreOffice recalculates it', () => {
    const found = office.get(`${name}-plain.xlsx`) as SheetValues;
    const computed: WorkbookModel = {
      ...plain,
      sheets: plain.sheets.map((sheet) => ({
        ...sheet,
        rows: sheet.rows.map((row) =>
          row.map((cell) => (cell?.formula === undefined ? undefined : cell)),
        ),
      })),
    };
    expect(differences(computed, liveValues, found as ComputedValues)).toEqual([]);
  });

  // Of one farm the live workbook, of the other the plain one, and in the long form both of each.
  const kinds = ['live', 'plain'];
  it.each(few(1, name === 'larkfield-school' ? kinds : [...kinds].reverse()))(
    '%s passes the schema check and the lint',
    (kind) => {
      const bytes = files.get(`${name}-${kind}.xlsx`) as Uint8Array;
      expect(schemaFaults(bytes)).toBe('');
      expect(lintXlsx(bytes)).toEqual([]);
    },
  );
});
