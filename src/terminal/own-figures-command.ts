import { extname } from 'node:path';
import { GillError } from '../core/errors';
import { nearestName } from '../core/nearest-name';
import type { Farm } from '../plan/farm';
import { FEWEST_BATCHES } from '../plan/own-figure-rows';
import { type OwnRecord, ownRecords } from '../experience/figures-of-registers';
import { recordLine, recordName } from '../experience/records-text';
import { switchedCells } from '../experience/switches-in-book';
import { takenOver, type Way, ways } from '../experience/taken-over';
import { RefusedChange } from '../ooxml/cell-changes';
import { openBook } from '../ooxml/open-book';
import { typedIntoBook } from '../ooxml/typed-into-book';
import { readBook } from '../plan/read-book';
import { readArguments } from './command-arguments';
import type { Command } from './command';
import { farmFromBook } from './farm-command';
import { farmFromFile, farmOf } from './farm-file';
import { Mistake } from './mistake';
import { readWorkbookFile, writeOutputFile } from './workbook-file';

const isWhole = ({ planted, month }: OwnRecord): boolean =>
  planted === undefined && month === undefined;

/** "lettuce: bed_days = blend" */
function choiceOf(text: string, records: readonly OwnRecord[]): { record: OwnRecord; way: Way } {
  const [name = '', word = ''] = text.split('=').map((part) => part.trim());
  const way = ways.find((candidate) => candidate === word.toLowerCase());
  const known = records.filter(isWhole);
  const record = known.find(
    (candidate) => recordName(candidate).toLowerCase() === name.toLowerCase(),
  );
  if (record === undefined) {
    const near = nearestName(name, known.map(recordName));
    throw new Mistake(`the records hold no figure "${name}"; the nearest is "${near}"`);
  }
  if (way === undefined) {
    throw new Mistake(
      `--take needs a way behind the figure: --take "${recordName(record)} = blend" (or = own, = table)`,
    );
  }
  return { record, way };
}

const wayWords: Readonly<Record<Way, string>> = {
  own: 'own',
  blend: 'weighed against the table',
  table: 'the table’s again',
};

/** A copy of the workbook in whose own cells the figures are switched. */
async function switchedBook(
  path: string,
  file: Readonly<Record<string, unknown>>,
): Promise<Uint8Array> {
  const bytes = await readWorkbookFile(path);
  const book = openBook(bytes);
  const reading = readBook(book);
  try {
    const cells = switchedCells(reading, file, { dayShift: book.dayShift });
    return typedIntoBook(bytes, cells, [...reading.places.values()]);
  } catch (fault) {
    if (fault instanceof GillError || fault instanceof RefusedChange)
      throw new Mistake(`${path}: ${fault.message}`);
    throw fault;
  }
}

/** Lists a farm's own figures from its registers; with --take a farm file, or a copy of the workbook, in which they count. */
export const ownFigures: Command = async (args) => {
  const { values, positionals } = readArguments(args, {
    take: { type: 'string', multiple: true },
    few: { type: 'boolean', default: false },
    out: { type: 'string' },
    json: { type: 'boolean', default: false },
    force: { type: 'boolean', default: false },
  });
  const [path, ...more] = positionals;
  const { take = [], few, out, json, force } = values;
  if (path === undefined || more.length > 0) {
    throw new Mistake('own-figures takes one workbook or farm file: own-figures BOOK.xlsx');
  }
  if (take.length > 0 !== (out !== undefined)) {
    throw new Mistake(
      '--take and --out go together: --take "lettuce: bed_days = blend" --out FARM2.json',
    );
  }
  const isFile = extname(path).toLowerCase() === '.json';
  const ending = out === undefined ? undefined : extname(out).toLowerCase();
  if (ending !== undefined && ending !== '.json' && (ending !== '.xlsx' || isFile)) {
    throw new Mistake(
      isFile
        ? `From a farm file --out writes a farm file (.json); got ${out}.`
        : `--out takes the name of a .json file, or of an .xlsx file for a copy of the workbook; got ${out}.`,
    );
  }
  const farm: Farm = isFile ? await farmFromFile(path) : await farmFromBook(path);
  const found = ownRecords(farm);
  if (json) console.log(JSON.stringify(found, null, 2));
  else if (found.length === 0) {
    console.log(
      'The registers hold no finished batch, no second weighing and no sale yet: nothing to learn from.',
    );
  } else for (const record of found) console.log(recordLine(record));
  if (out === undefined) return 0;

  let file = JSON.parse(farm.file) as Record<string, unknown>;
  const taken: string[] = [];
  for (const text of take) {
    const { record, way } = choiceOf(text, found);
    try {
      file = takenOver(farm, file, { record, way, fewAreEnough: few });
    } catch (fault) {
      if (!(fault instanceof GillError)) throw fault;
      throw new Mistake(`${fault.message}${record.batches < FEWEST_BATCHES ? ' (--few)' : ''}`);
    }
    taken.push(`${recordName(record)}, ${wayWords[way]}`);
  }
  farmOf(file, out);
  const written =
    ending === '.xlsx' ? await switchedBook(path, file) : `${JSON.stringify(file, null, 2)}\n`;
  await writeOutputFile(out, written, { input: path, force });
  if (!json) console.log(`${out}: taken over ${taken.join('; ')}.`);
  return 0;
};
