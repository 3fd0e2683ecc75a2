import { extname } from 'node:path';
import { GillError } from '../core/errors';
import { nearestName } from '../core/nearest-name';
import type { Farm } from '../plan/farm';
import { FEWEST_BATCHES } from '../plan/own-figure-rows';
import { type OwnRecord, ownRecords } from '../experience/figures-of-registers';
import { recordLine, recordName } from '../experience/records-text';
import { takenOver, type Way, ways } from '../experience/taken-over';
import { readArguments } from './command-arguments';
import type { Command } from './command';
import { farmFromBook } from './farm-command';
import { farmFromFile, farmOf } from './farm-file';
import { Mistake } from './mistake';
import { writeOutputFile } from './workbook-file';

const isWhole = ({ planted, month }: OwnRecord): boolean =>
  planted === undefined && month === undefined;

/** "lettuce: bed_days = blend" */
function choiceOf(text: string, records: readonly OwnRecord[]): { record: OwnRecord; way: Way } {
  const [name = '', word = ''] = text.split('=').map((part) => part.trim());
  const way = ways.find((one) => one === word.toLowerCase());
  const known = records.filter(isWhole);
  const record = known.find((one) => recordName(one).toLowerCase() === name.toLowerCase());
  if (record === undefined) {
    const near = nearestName(name, known.map(recordName));
    throw new Mistake(`the records hold no figure "${name}"; the nearest is "${near}"`);
  }
  if (way === undefined) {
    throw new Mistake(
      `--take needs a way behind the figure: --take "${recordName(record)} = blend" (or = own)`,
    );
  }
  return { record, way };
}

/** Lists a farm's own figures from its registers; with --take a farm file in which they count. */
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
  if (out !== undefined && extname(out).toLowerCase() !== '.json') {
    throw new Mistake(`--out takes the name of a .json file; got ${out}.`);
  }
  const isFile = extname(path).toLowerCase() === '.json';
  const farm: Farm = isFile ? await farmFromFile(path) : await farmFromBook(path);
  const found = ownRecords(farm);
  if (json) console.log(JSON.stringify(found, null, 2));
  else if (found.length === 0) {
    console.log(
      'The registers hold no finished batch, no second weighing and no sale yet: nothing to learn from.',
    );
  } else for (const one of found) console.log(recordLine(one));
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
    taken.push(`${recordName(record)}, ${way === 'own' ? 'own' : 'weighed against the table'}`);
  }
  farmOf(file, out);
  await writeOutputFile(out, `${JSON.stringify(file, null, 2)}\n`, { input: path, force });
  if (!json) console.log(`${out}: taken over ${taken.join('; ')}.`);
  return 0;
};
