import { execFileSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, delimiter, join } from 'node:path';
import { type CellValue, readXlsx } from 'hucre/xlsx';
import { type ErrorCode, GillError } from '../../src/core/errors';
import type { ComputedValues } from '../../src/plan/computed-values';

/** LibreOffice as a second spreadsheet: computes a file anew, and draws it. */

const MINUTES = 60_000;
const CALC_FILTER = 'xlsx:Calc MS Excel 2007 XML';
/** All sheets, each into its own file: comma, quote, UTF-8, from line 1, numbers in full. */
const CSV_FILTER = 'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1';

export type Target = 'xlsx' | 'csv' | 'pdf';
const filters: Readonly<Record<Target, string>> = {
  xlsx: CALC_FILTER,
  csv: CSV_FILTER,
  pdf: 'pdf',
};

function program(names: readonly string[], advice: string): string {
  const folders = (process.env['PATH'] ?? '').split(delimiter);
  const places = folders.flatMap((folder) => names.map((name) => join(folder, name)));
  const usual = '/Applications/LibreOffice.app/Contents/MacOS/soffice';
  const found = [...places, ...(names.includes('soffice') ? [usual] : [])].find(existsSync);
  if (found === undefined) throw new Error(advice);
  return found;
}

export const findSoffice = (): string =>
  program(
    ['soffice', 'soffice.exe', 'soffice.com', 'libreoffice'],
    'LibreOffice Calc is needed to check workbooks: install it (Debian: apt-get install libreoffice-calc-nogui).',
  );

const findPdfToPng = (): string =>
  program(
    ['pdftoppm', 'pdftoppm.exe'],
    'pdftoppm is needed to draw workbooks: install poppler (Debian: apt-get install poppler-utils).',
  );

/** What LibreOffice does with the values in a file: compute all anew, or trust them as it usually does. */
export type Recalculation = 'hard' | 'usual';
const RECALCULATE_ALWAYS = 0;
const RECALCULATE_NEVER = 1;

function profileSettings(recalculation: Recalculation): string {
  const mode = recalculation === 'hard' ? RECALCULATE_ALWAYS : RECALCULATE_NEVER;
  return `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"><item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>${mode}</value></prop></item></oor:items>`;
}

const scratchFolder = (): string => mkdtempSync(join(tmpdir(), 'gillbed-'));

/** Runs with a folder that is gone afterwards. */
function inScratch<T>(work: (folder: string) => T): T {
  const folder = scratchFolder();
  try {
    return work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/**
 * Converts workbooks, all in one run with a profile of its own, and gives the bytes of every file that came
 * out by its name (a csv comes out once for each sheet: "name-Sheet.csv").
 */
export function convert(
  files: ReadonlyMap<string, Uint8Array>,
  target: Target,
  recalculation: Recalculation = 'hard',
): Map<string, Uint8Array> {
  return inScratch((folder) => {
    const [profile, input, output] = ['profile', 'in', 'out'].map((name) => join(folder, name)) as [
      string,
      string,
      string,
    ];
    mkdirSync(join(profile, 'user'), { recursive: true });
    mkdirSync(input);
    writeFileSync(
      join(profile, 'user', 'registrymodifications.xcu'),
      profileSettings(recalculation),
    );
    for (const [name, bytes] of files) writeFileSync(join(input, name), bytes);
    const paths = [...files.keys()].map((name) => join(input, name));
    execFileSync(
      findSoffice(),
      [
        `-env:UserInstallation=file://${profile}`,
        '--headless',
        '--norestore',
        '--convert-to',
        filters[target],
        '--outdir',
        output,
        ...paths,
      ],
      { stdio: 'pipe', timeout: 10 * MINUTES },
    );
    const made = existsSync(output) ? readdirSync(output) : [];
    for (const name of files.keys()) {
      const stem = basename(name, '.xlsx');
      if (!made.some((file) => file.startsWith(stem))) {
        throw new Error(`LibreOffice could not open ${name}`);
      }
    }
    return new Map(made.sort().map((name) => [name, readFileSync(join(output, name))]));
  });
}

/** Values of a file, by sheet name, row and column from 0. */
export type SheetValues = ComputedValues;

const DAY_MS = 86_400_000;
/** Serial of 1970-01-01. */
const UNIX_EPOCH = 25_569;

const valueOf = (value: CellValue): number | string | boolean | undefined =>
  value instanceof Date ? value.getTime() / DAY_MS + UNIX_EPOCH : (value ?? undefined);

/** Values as they stand in a file, read by a library that had no part in writing it. */
export async function readValues(bytes: Uint8Array): Promise<ComputedValues> {
  const book = await readXlsx(bytes);
  const sheets = new Map(book.sheets.map((sheet) => [sheet.name, sheet]));
  return (name, row, column) => {
    const sheet = sheets.get(name);
    if (!sheet) throw new Error(`The file has no sheet called "${name}"`);
    const value = valueOf(sheet.rows[row]?.[column] ?? null);
    return sheet.cells?.get(`${row},${column}`)?.type === 'error'
      ? new GillError(String(value) as ErrorCode, 'as the file says')
      : value;
  };
}

/** The values that LibreOffice finds in each workbook, by file name. */
export async function recalculated(
  files: ReadonlyMap<string, Uint8Array>,
  recalculation: Recalculation = 'hard',
): Promise<Map<string, ComputedValues>> {
  const out = new Map<string, ComputedValues>();
  for (const [name, bytes] of convert(files, 'xlsx', recalculation)) {
    out.set(name, await readValues(bytes));
  }
  return out;
}

/** Pictures of the printed pages of a workbook, in order. */
export function pages(bytes: Uint8Array, dotsPerInch = 80): Uint8Array[] {
  const pdf = convert(new Map([['book.xlsx', bytes]]), 'pdf').get('book.pdf');
  if (!pdf) throw new Error('LibreOffice made no pages');
  return inScratch((folder) => {
    const file = join(folder, 'book.pdf');
    writeFileSync(file, pdf);
    execFileSync(findPdfToPng(), ['-r', String(dotsPerInch), '-png', file, join(folder, 'page')]);
    return readdirSync(folder)
      .filter((name) => name.endsWith('.png'))
      .sort()
      .map((name) => readFileSync(join(folder, name)));
  });
}
