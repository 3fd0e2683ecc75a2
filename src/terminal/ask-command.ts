import { GillError } from '../core/errors';
import { evaluate } from '../engine/evaluate-formula';
import { answerText } from './answer-text';
import { withQuotedDates } from './bare-dates';
import type { Command } from './command';
import { Mistake } from './mistake';
import { withCommas } from './separators';

/** Prints what one formula gives; an error's code and sentence go to standard error. */
export const ask: Command = async (args) => {
  const [formula, ...more] = args;
  if (formula === undefined || formula.trim() === '') {
    throw new Mistake("ask takes a formula in quotes: ask 'GILL.AMMONIA.UNIONISED(1,8,25)'");
  }
  if (more.length > 0) {
    throw new Mistake(`ask takes one formula; put quotes around it: ask '${args.join(' ')}'`);
  }
  const rows = evaluate(withQuotedDates(withCommas(formula)));
  const errors = rows.flat().flatMap(({ value }) => (value instanceof GillError ? [value] : []));
  const single = rows.length === 1 && rows[0]?.length === 1;
  if (!single || errors.length === 0) {
    console.log(rows.map((row) => row.map(answerText).join('\t')).join('\n'));
  }
  for (const { code, message } of errors) console.error(`${code} ${message}`);
  return errors.length === 0 ? 0 : 1;
};
