import { type Card, cautionsOf } from '../functions/card';
import { equationLines } from '../functions/formula';
import { NAMESPACE } from '../functions/card-list';
import { parameterLine } from '../functions/metadata';
import { sourceLine } from '../functions/source-words';
import { unitWord } from '../functions/unit-word';
import { exampleFormula, plainEquivalent } from './card-record';

/** "GILL.FEED.DAY(fish, weight, [species])". */
export const signature = (card: Card): string =>
  `${NAMESPACE}.${card.id}(${card.parameters
    .map(({ name, optional }) => (optional ? `[${name}]` : name))
    .join(', ')})`;

const withUnit = (text: string, unit: string): string =>
  unit ? `${text}, ${unitWord(unit)}` : text;

const resultLines = (card: Card): readonly string[] =>
  card.columns
    ? card.columns.map(({ name, unit }) => withUnit(name, unit))
    : [withUnit(card.result.meaning, card.result.unit)];

/** One function for reading: what it takes and gives, how, and on whose word. */
export function cardPage(card: Card): string {
  const plain = plainEquivalent(card);
  const section = (head: string, lines: readonly string[]): string[] => [
    '',
    head,
    ...lines.map((line) => `  ${line}`),
  ];
  return [
    signature(card),
    `${card.summary}.`,
    ...section(
      'Takes',
      card.parameters.map((parameter) => `${parameter.name}: ${parameterLine(parameter)}`),
    ),
    ...section(card.columns ? 'Gives a block with the columns' : 'Gives', resultLines(card)),
    ...section('Method', [
      card.method,
      ...(card.formula === undefined ? [] : equationLines(card.formula)),
      ...Object.entries(card.symbols ?? {}).map(([symbol, meaning]) => `  ${symbol}: ${meaning}`),
    ]),
    ...section('Holds for', [card.validity]),
    ...(cautionsOf(card).length > 0 ? section('Caution', cautionsOf(card)) : []),
    ...section('Sources', card.sources.map(sourceLine)),
    ...section(
      'Examples',
      card.examples.map(
        (example) =>
          `${exampleFormula(card, example)} gives ${
            Array.isArray(example.result) ? JSON.stringify(example.result) : String(example.result)
          }: ${example.says}`,
      ),
    ),
    ...section(
      "With the spreadsheet's own functions, the arguments in A1, B1, ...",
      (typeof plain === 'string' ? [plain] : plain).map((formula) => `=${formula}`),
    ),
  ].join('\n');
}
