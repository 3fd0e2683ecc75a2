import { extname } from 'node:path';
import { NoPlanFound, readBook } from '../plan/read-book';
import { rowPlacesOf } from '../records/row-place';
import { NoSuchLot, trace as traceOf } from '../records/trace';
import { type RowPlace, traceInWords } from '../records/trace-words';
import { tracePage } from '../report/trace-page';
import type { Command } from './command';
import { readArguments } from './command-arguments';
import { bookFromFile } from './farm-command';
import { farmFromFile, farmOf } from './farm-file';
import { Mistake } from './mistake';
import { writeOutputFile } from './workbook-file';

async function source(path: string) {
  if (extname(path).toLowerCase() === '.json')
    return { farm: await farmFromFile(path), place: undefined };
  try {
    const reading = readBook(await bookFromFile(path));
    const { file, faults } = reading;
    if (faults.length > 0)
      throw new Mistake(`${path}: ${faults.map(({ says }) => says).join('\n')}`);
    return { farm: farmOf(file, path), place: rowPlacesOf(reading) };
  } catch (problem) {
    if (problem instanceof NoPlanFound) throw new Mistake(`${path}: ${problem.message}`);
    throw problem;
  }
}

/** Says where a lot or the goods of a day came from and went: exit status 1 where no row knows it. */
export const trace: Command = async (args) => {
  const { values, positionals } = readArguments(args, {
    json: { type: 'boolean', default: false },
    out: { type: 'string' },
    force: { type: 'boolean', default: false },
  });
  const [path, asked, ...more] = positionals;
  const { out, json, force } = values;
  if (path === undefined || asked === undefined || more.length > 0)
    throw new Mistake(
      "trace takes a workbook or farm file and a lot or a day: trace BOOK.xlsx '2026-04-03'",
    );
  if (out !== undefined && extname(out).toLowerCase() !== '.html')
    throw new Mistake(`--out takes the name of a .html file; got ${out}.`);
  const { farm, place } = await source(path);
  try {
    const found = traceOf(asked, farm);
    if (out !== undefined) {
      await writeOutputFile(out, tracePage(found, farm, place), { input: path, force });
      console.log(`${out}: open it in a browser and print it.`);
    } else if (json) console.log(JSON.stringify(found, undefined, 2));
    else for (const line of textOf(found, place)) console.log(line);
    return 0;
  } catch (problem) {
    if (!(problem instanceof NoSuchLot)) throw problem;
    console.log(problem.message);
    return 1;
  }
};

const textOf = (found: ReturnType<typeof traceOf>, place: RowPlace | undefined): string[] =>
  traceInWords(found, place).flatMap(({ title, sections }) => [
    title,
    ...sections.flatMap(({ head, lines }) => [
      `  ${head}`,
      ...lines.flatMap(({ says, where, warns }) => [
        `    ${says}${where === undefined ? '' : ` [${where}]`}`,
        ...(warns === undefined ? [] : [`      ${warns}!`]),
      ]),
    ]),
    '',
  ]);
