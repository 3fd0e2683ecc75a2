/** Rows of the planner into a copy of the farm file or the workbook that was read, and out of it. */
import { extname } from 'node:path';
import { bookChange } from '../ahead/rows-in-book';
import { changedFarmFile } from '../ahead/rows-in-farm-file';
import type { RowPlaces } from '../ahead/planner-rows';
import type { WrittenRows } from '../ahead/written-rows';
import { isoText } from '../core/serial-date';
import { computedValues } from '../engine/engine';
import { RefusedChange } from '../ooxml/cell-changes';
import { openBook } from '../ooxml/open-book';
import { typedIntoBook } from '../ooxml/typed-into-book';
import { writeXlsx } from '../ooxml/write-xlsx';
import { demoFarm } from '../plan/demo-farm';
import type { Farm } from '../plan/farm';
import { countedFarm } from '../experience/taken-over';
import { planWorkbook } from '../plan/plan';
import { readBook } from '../plan/read-book';
import { farmFromBook } from './farm-command';
import { farmOf, jsonFromFile } from './farm-file';
import { Mistake } from './mistake';
import { type OutputOptions, readWorkbookFile, writeOutputFile } from './workbook-file';

/** A farm, and what it was read from. */
export interface Source {
  readonly farm: Farm;
  /** The farm file; undefined where a workbook was read. */
  readonly file?: object;
  readonly bytes?: Uint8Array;
  readonly name: string;
}

/** `path` undefined: the demo farm. */
export async function readSource(path: string | undefined): Promise<Source> {
  if (path === undefined) {
    return { farm: farmOf(demoFarm, 'The demo farm'), file: demoFarm, name: 'the demo farm' };
  }
  if (extname(path).toLowerCase() === '.xlsx') {
    return { farm: await farmFromBook(path), bytes: await readWorkbookFile(path), name: path };
  }
  const file = await jsonFromFile(path);
  return { farm: farmOf(file, path), file: file as object, name: path };
}

const rowWord = (count: number): string => (count === 1 ? '1 row' : `${count} rows`);

function told(out: string, gone: RowPlaces, rows: WrittenRows): string {
  const changes = [
    ['Fish log', rows.fishLog.length, gone.fishLog.length],
    ['Plantings', rows.plantings.length, gone.plantings.length],
  ] as const;
  const says = changes.flatMap(([sheet, fresh, back]) =>
    fresh + back === 0
      ? []
      : [
          `${sheet}: ${[...(fresh > 0 ? [`${rowWord(fresh)} planned`] : []), ...(back > 0 ? [`${rowWord(back)} of the planner taken back`] : [])].join(', ')}`,
        ],
  );
  return says.length === 0
    ? `${out}: no row of the planner in it, nothing changed.`
    : `${out}: ${says.join('; ')}. Rows typed by hand are as they were.`;
}

/**
 * Writes the source with the rows in its registers, and without those that go. A workbook changes in its own cells; from
 * a farm file comes another farm file, or its plan. Gives what was done in words.
 */
export async function writeRows(
  out: string,
  { farm, file, bytes, name }: Source,
  gone: RowPlaces,
  rows: WrittenRows,
  options: OutputOptions,
): Promise<string> {
  const toBook = extname(out).toLowerCase() === '.xlsx';
  if (file !== undefined) {
    const changed = changedFarmFile(file, farm, gone, rows);
    if (toBook) {
      const model = planWorkbook(countedFarm(farmOf(changed, out)), { formulas: 'live' });
      await writeOutputFile(out, writeXlsx(model, computedValues(model)), options);
    } else {
      await writeOutputFile(out, `${JSON.stringify(changed, null, 2)}\n`, options);
    }
    return told(out, gone, rows);
  }
  if (bytes === undefined) throw new Error('neither a farm file nor a workbook was read');
  if (!toBook) {
    throw new Mistake(
      `From a workbook --out writes a workbook; got ${out}. Then farm ${'BOOK.xlsx'} --out FARM.json makes a farm file of it.`,
    );
  }
  const book = openBook(bytes);
  const reading = readBook(book);
  const { cells, left } = bookChange(reading, farm, gone, rows, { dayShift: book.dayShift });
  let changed: Uint8Array;
  try {
    changed = typedIntoBook(bytes, cells, [...reading.places.values()]);
  } catch (problem) {
    if (problem instanceof RefusedChange) throw new Mistake(`${name}: ${problem.message}`);
    throw problem;
  }
  const without = [
    ['Fish log', left.fishLog, rows.fishLog.at(-left.fishLog)?.date],
    ['Plantings', left.plantings, rows.plantings.at(-left.plantings)?.planted],
  ] as const;
  await writeOutputFile(out, changed, options);
  const written: WrittenRows = {
    fishLog: rows.fishLog.slice(0, rows.fishLog.length - left.fishLog),
    plantings: rows.plantings.slice(0, rows.plantings.length - left.plantings),
  };
  return [
    told(out, gone, written),
    ...without.flatMap(([sheet, count, day]) =>
      count === 0 || day === undefined
        ? []
        : [
            `${sheet} has no line for ${rowWord(count)} more, from ${isoText(day)} on: plan again when some are done, or make the workbook anew from its farm file.`,
          ],
    ),
  ].join('\n');
}
