import { extname } from 'node:path';
import { chances as play } from '../chances/chances';
import { chancesText } from '../chances/chances-text';
import { GillError } from '../core/errors';
import { readArguments } from './command-arguments';
import type { Command } from './command';
import { farmFromBook } from './farm-command';
import { farmFromFile } from './farm-file';
import { Mistake } from './mistake';

/** A whole number of an option. */
function whole(text: string, name: string, [least, most]: readonly [number, number]): number {
  const value = Number(text);
  if (Number.isInteger(value) && value >= least && value <= most) return value;
  throw new Mistake(`--${name} takes a whole number from ${least} to ${most}; got ${text}.`);
}

/** Plays the weeks to come many times by chance and says in which band they end. */
export const chances: Command = async (args) => {
  const { values, positionals } = readArguments(args, {
    weeks: { type: 'string', default: '52' },
    years: { type: 'string', default: '1000' },
    seed: { type: 'string', default: '1' },
    json: { type: 'boolean', default: false },
  });
  const [path, ...more] = positionals;
  if (path === undefined || more.length > 0) {
    throw new Mistake('chances takes one workbook or farm file: chances BOOK.xlsx');
  }
  const isFile = extname(path).toLowerCase() === '.json';
  const farm = isFile ? await farmFromFile(path) : await farmFromBook(path);
  try {
    const found = play({
      farm,
      weeks: whole(values.weeks, 'weeks', [8, 60]),
      years: whole(values.years, 'years', [100, 100000]),
      seed: whole(values.seed, 'seed', [0, 2147483647]),
    });
    console.log(values.json ? JSON.stringify(found, null, 2) : chancesText(found, farm).join('\n'));
    return 0;
  } catch (fault) {
    if (fault instanceof GillError) throw new Mistake(`${path}: ${fault.message}`);
    throw fault;
  }
};
