import { GillError } from '../core/errors';
import { evaluate } from '../engine/evaluate-formula';
import { cards, findCard } from '../functions/card-list';
import { questions } from '../functions/questions';
import { searchEntry, searchIds } from '../functions/search';
import { answerText } from './answer-text';
import { withQuotedDates } from './bare-dates';
import { exampleFormula } from './card-record';
import type { Command } from './command';
import { Mistake } from './mistake';
import { withCommas } from './separators';

/** Words rather than a formula: nothing is called and nothing begins like a formula. */
const isQuestion = (text: string): boolean =>
  /\p{L}{2}.*\s/u.test(text) && !/^=|\(/.test(text.trim());

const MOST_ANSWERS = 3;

/** Functions that may answer a question in words, each with an example to be changed. */
function answersTo(question: string): readonly string[] {
  const entries = cards.map((card) => searchEntry(card, questions));
  const found = searchIds(entries, question)
    .slice(0, MOST_ANSWERS)
    .flatMap((id) => findCard(id) ?? []);
  const lines = found.flatMap((card) => {
    const [example] = card.examples;
    return [`  ask '${exampleFormula(card, example).slice(1)}'`, `      ${card.summary}`];
  });
  return found.length === 0
    ? ['ask takes a formula, such as GILL.FEED.DAY(640,235); functions lists them all.']
    : [
        'ask takes a formula. With your own figures in it, one of these may be the answer:',
        ...lines,
      ];
}

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
  if (single && errors.length > 0 && isQuestion(formula)) {
    for (const line of answersTo(formula)) console.error(line);
  }
  return errors.length === 0 ? 0 : 1;
};
