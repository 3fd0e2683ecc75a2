import { extname } from 'node:path';
import { computedValues } from '../engine/engine';
import { UnreadableFile } from '../ooxml/unreadable-file';
import { FarmFileError } from '../plan/farm';
import { NoPlanFound } from '../plan/read-book';
import { WrongChange } from '../renew/changed-farm';
import { NotRenewable, renew as renewed, type Renewal } from '../renew/renew';
import { readArguments } from './command-arguments';
import type { Command } from './command';
import { jsonFromFile } from './farm-file';
import { Mistake } from './mistake';
import { readWorkbookFile, writeOutputFile } from './workbook-file';

const options = {
  out: { type: 'string' },
  tanks: { type: 'string' },
  beds: { type: 'string' },
  day: { type: 'string' },
  farm: { type: 'string' },
  plain: { type: 'boolean', default: false },
  live: { type: 'boolean', default: false },
  yes: { type: 'boolean', default: false },
  force: { type: 'boolean', default: false },
} as const;

function count(option: string, text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const number = Number(text);
  if (!Number.isInteger(number) || number < 1)
    throw new Mistake(
      `${option} takes how many there are to be in all, such as ${option} 8; got ${text}.`,
    );
  return number;
}

function carried({ carried: { typed, own, sheets, formulas }, notes }: Renewal): string[] {
  return [
    `Carried: ${typed} typed cells, ${own} cells of your own beside the plan, ${sheets} sheets of your own; ${formulas} formulas point at the new places.`,
    ...notes,
  ];
}

/**
 * Renews the plan of a workbook. Exit status 0 with the workbook written; 1 where something would be lost and nobody
 * said --yes, or where the workbook cannot be renewed as it is: then nothing is written.
 */
export const renew: Command = async (args) => {
  const { values, positionals } = readArguments(args, options);
  const [path, ...more] = positionals;
  const { out, plain, live, yes, force, farm } = values;
  if (path === undefined || more.length > 0 || out === undefined)
    throw new Mistake(
      'renew takes one workbook and a name for the renewed one: renew BOOK.xlsx --out BOOK2.xlsx',
    );
  if (extname(out).toLowerCase() !== '.xlsx')
    throw new Mistake(`--out takes the name of an .xlsx file; got ${out}.`);
  if (plain && live)
    throw new Mistake('--plain and --live say opposite things: leave one of them out.');
  const changes = {
    tanks: count('--tanks', values.tanks),
    beds: count('--beds', values.beds),
    day: values.day,
    ...(farm !== undefined && { farm: (await jsonFromFile(farm)) as Record<string, unknown> }),
  };
  const bytes = await readWorkbookFile(path);
  let renewal: Renewal;
  try {
    renewal = renewed(bytes, {
      changes,
      formulas: plain ? 'plain' : live ? 'live' : undefined,
      values: computedValues,
    });
  } catch (problem) {
    if (problem instanceof NotRenewable) {
      for (const says of problem.sentences) console.log(says);
      console.log(`${out} was not written.`);
      return 1;
    }
    if (
      problem instanceof NoPlanFound ||
      problem instanceof WrongChange ||
      problem instanceof FarmFileError ||
      problem instanceof UnreadableFile
    )
      throw new Mistake(`${path}: ${problem.message}`);
    throw problem;
  }
  const { losses } = renewal;
  for (const { where, says } of losses) console.log(`${where}\t${says}`);
  for (const says of carried(renewal)) console.log(says);
  if (losses.length > 0 && !yes) {
    console.log(
      `${out} was not written: ${losses.length === 1 ? 'one thing' : `${losses.length} things`} above would not be as it was. Say --yes to have it all the same; ${path} stays as it is.`,
    );
    return 1;
  }
  await writeOutputFile(out, renewal.bytes, { input: path, force });
  console.log(`${out}: renewed.`);
  return 0;
};
