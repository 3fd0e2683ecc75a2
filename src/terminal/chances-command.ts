import { extname } from 'node:path';
import { type Chances, chances as play } from '../chances/chances';
import { chancesWorkbook, momentInWords } from '../chances/chances-sheet';
import { chancesText } from '../chances/chances-text';
import { planMark } from '../chances/plan-mark';
import { inputs, type Spreads, spreadsOf, withTyped } from '../chances/spreads';
import { GillError } from '../core/errors';
import { withFreeNames } from '../plan/free-names';
import { addModelSheets } from '../ooxml/add-model-sheets';
import { RefusedChange } from '../ooxml/cell-changes';
import { openBook } from '../ooxml/open-book';
import { Package } from '../ooxml/package';
import type { Farm } from '../plan/farm';
import { readBook } from '../plan/read-book';
import type { SheetModel } from '../plan/workbook-model';
import { readArguments } from './command-arguments';
import type { Command } from './command';
import { farmFromBook } from './farm-command';
import { farmFromFile } from './farm-file';
import { Mistake } from './mistake';
import { readWorkbookFile, writeOutputFile } from './workbook-file';

/** A whole number of an option. */
function whole(text: string, name: string, [least, most]: readonly [number, number]): number {
  const value = Number(text);
  if (Number.isInteger(value) && value >= least && value <= most) return value;
  throw new Mistake(`--${name} takes a whole number from ${least} to ${most}; got ${text}.`);
}

/** "yield = 20, 5": per cent from batch to batch, and from year to year. */
function withSpread(spreads: Spreads, text: string): Spreads {
  const [name = '', figures = ''] = text.split('=').map((part) => part.trim());
  const input = inputs.find((known) => known === name.toLowerCase());
  if (input === undefined) {
    throw new Mistake(`--spread takes one of ${inputs.join(', ')}; got "${name}".`);
  }
  const [batch = NaN, year = NaN, ...more] = figures
    .split(',')
    .map((share) => (share.trim() === '' ? NaN : Number(share.replace('%', ''))));
  if (!Number.isFinite(batch + year) || more.length > 0) {
    throw new Mistake(
      `--spread takes per cent from batch to batch and from year to year: --spread "${input} = 15, 5"; got "${text}".`,
    );
  }
  try {
    return withTyped(spreads, input, { batch: batch / 100, year: year / 100 });
  } catch (fault) {
    if (fault instanceof GillError || fault instanceof RefusedChange)
      throw new Mistake(`${fault.message}.`);
    throw fault;
  }
}

/** A copy of the workbook with the chances on a sheet behind its own. */
function withSheet(
  bytes: Uint8Array,
  farm: Farm,
  found: Chances,
): [book: Uint8Array, sheet: string] {
  const book = openBook(bytes);
  const { sheets, title } = withFreeNames(
    chancesWorkbook({
      farm,
      found,
      mark: planMark(readBook(book).file),
      written: momentInWords(new Date()),
    }),
    { sheets: book.sheets.map(({ name }) => name), names: [] },
  );
  const file = Package.open(bytes);
  addModelSheets(file, { sheets, title, values: () => undefined });
  return [file.bytes(), (sheets[0] as SheetModel).name];
}

/** Plays the weeks to come many times by chance and says in which band they end. */
export const chances: Command = async (args) => {
  const { values, positionals } = readArguments(args, {
    weeks: { type: 'string', default: '52' },
    years: { type: 'string', default: '1000' },
    seed: { type: 'string', default: '1' },
    spread: { type: 'string', multiple: true, default: [] },
    out: { type: 'string' },
    force: { type: 'boolean', default: false },
    json: { type: 'boolean', default: false },
  });
  const [path, ...more] = positionals;
  if (path === undefined || more.length > 0) {
    throw new Mistake('chances takes one workbook or farm file: chances BOOK.xlsx');
  }
  const isFile = extname(path).toLowerCase() === '.json';
  const { out, force } = values;
  if (out !== undefined && (isFile || extname(out).toLowerCase() !== '.xlsx')) {
    throw new Mistake(
      'chances --out writes a copy of a workbook with the chances on a sheet of it: chances BOOK.xlsx --out BOOK2.xlsx',
    );
  }
  const farm = isFile ? await farmFromFile(path) : await farmFromBook(path);
  try {
    const found = play({
      farm,
      weeks: whole(values.weeks, 'weeks', [8, 60]),
      years: whole(values.years, 'years', [100, 100000]),
      seed: whole(values.seed, 'seed', [0, 2147483647]),
      spreads: values.spread.reduce(withSpread, spreadsOf(farm)),
    });
    console.log(values.json ? JSON.stringify(found, null, 2) : chancesText(found, farm).join('\n'));
    if (out !== undefined) {
      const [bytes, sheet] = withSheet(await readWorkbookFile(path), farm, found);
      await writeOutputFile(out, bytes, { input: path, force });
      if (!values.json)
        console.log(`${out}: written on the sheet ${sheet}, as numbers that follow nothing.`);
    }
    return 0;
  } catch (fault) {
    if (fault instanceof GillError || fault instanceof RefusedChange)
      throw new Mistake(`${path}: ${fault.message}`);
    throw fault;
  }
};
