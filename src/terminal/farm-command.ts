import { extname } from 'node:path';
import { openBook } from '../ooxml/open-book';
import { UnreadableFile } from '../ooxml/unreadable-file';
import type { BookSnapshot } from '../plan/book-snapshot';
import type { Farm } from '../plan/farm';
import { type BookReading, NoPlanFound, readBook } from '../plan/read-book';
import { readArguments } from './command-arguments';
import type { Command } from './command';
import { farmOf } from './farm-file';
import { Mistake } from './mistake';
import { readWorkbookFile, writeOutputFile } from './workbook-file';

const options = {
  out: { type: 'string' },
  force: { type: 'boolean', default: false },
} as const;

/** Reads a workbook file; what is no workbook becomes a sentence. */
export async function bookFromFile(path: string): Promise<BookSnapshot> {
  const bytes = await readWorkbookFile(path);
  try {
    return openBook(bytes);
  } catch (problem) {
    if (problem instanceof UnreadableFile) throw new Mistake(`${path}: ${problem.message}`);
    throw problem;
  }
}

function reading(book: BookSnapshot, path: string): BookReading {
  try {
    return readBook(book);
  } catch (problem) {
    if (problem instanceof NoPlanFound) throw new Mistake(`${path}: ${problem.message}`);
    throw problem;
  }
}

/** The farm of a planning workbook as its cells are now; cells that are wrong become a sentence each. */
export async function farmFromBook(path: string): Promise<Farm> {
  const { file, faults } = reading(await bookFromFile(path), path);
  if (faults.length === 0) return farmOf(file, path);
  throw new Mistake(`${path}: ${faults.map(({ says }) => says).join('\n')}`);
}

/** Reads the farm from a planning workbook: exit status 0 with the farm file written, 1 where a cell is wrong. */
export const farm: Command = async (args) => {
  const { values, positionals } = readArguments(args, options);
  const [path, ...more] = positionals;
  const { out, force } = values;
  if (path === undefined || more.length > 0 || out === undefined) {
    throw new Mistake(
      'farm takes one workbook and a name for the farm file: farm BOOK.xlsx --out FARM.json',
    );
  }
  if (extname(out).toLowerCase() !== '.json')
    throw new Mistake(`--out takes the name of a .json file; got ${out}.`);
  const { file, faults } = reading(await bookFromFile(path), path);
  if (faults.length > 0) {
    for (const { says } of faults) console.log(says);
    console.log(
      `${out} was not written: ${faults.length} ${faults.length === 1 ? 'cell is' : 'cells are'} wrong.`,
    );
    return 1;
  }
  await writeOutputFile(out, `${JSON.stringify(file, null, 2)}\n`, { input: path, force });
  const lists = Object.entries(file).flatMap(([key, value]) =>
    Array.isArray(value) && key !== 'months' && key !== 'feedWeights'
      ? [`${key} ${value.length}`]
      : [],
  );
  console.log(`${out}: ${lists.join(', ')}.`);
  return 0;
};
