import { GillError } from '../core/errors';
import { type Card, cautionsOf, type Example } from '../functions/card';
import { equationLines } from '../functions/formula';
import { NAMESPACE } from '../functions/card-list';
import { plainFormula, plainSpillFormula } from '../functions/plain';
import type { Parameter } from '../functions/parameter';
import { cellAddress } from '../plan/addresses';

/** An example as it is typed into a cell. */
export function exampleFormula(card: Card, { args }: Example): string {
  const texts = args.map((value) =>
    value === null
      ? ''
      : typeof value === 'number'
        ? String(value)
        : `"${value.replaceAll('"', '""')}"`,
  );
  return `=${NAMESPACE}.${card.id}(${texts.join(',')})`;
}

/**
 * The formula with the spreadsheet's own functions, its arguments standing in cells A1, B1, ...
 * Spills: the formulas of the second row, the block beginning at A3.
 */
export function plainEquivalent(card: Card): string | readonly string[] {
  const cells = card.parameters.map((parameter, i) =>
    parameter.optional ? undefined : cellAddress(0, i),
  );
  try {
    if (!card.columns) return plainFormula(card, cells);
    const address = (row: number, column: number): string => cellAddress(row + 2, column);
    return card.columns.map((_, column) => plainSpillFormula(card, cells, 1, column, address));
  } catch (thrown) {
    if (thrown instanceof GillError) return `none: ${thrown.message}`;
    throw thrown;
  }
}

const parameterRecord = (parameter: Parameter): object => ({
  name: parameter.name,
  meaning: parameter.meaning,
  kind: parameter.kind,
  unit: parameter.unit,
  takes: parameter.takes,
  optional: parameter.optional,
  ...(parameter.defaultText !== undefined && { default: parameter.defaultText }),
  ...(parameter.names && { names: parameter.names() }),
});

/** All that a card says, as plain data. */
export const cardRecord = (card: Card): object => ({
  name: `${NAMESPACE}.${card.id}`,
  id: card.id,
  subject: card.subject,
  summary: card.summary,
  ...(card.searchWords && { searchWords: card.searchWords }),
  parameters: card.parameters.map(parameterRecord),
  ...(card.columns ? { columns: card.columns } : { result: card.result }),
  method: card.method,
  ...(card.formula !== undefined && { formula: equationLines(card.formula).join('; ') }),
  ...(card.symbols && { symbols: card.symbols }),
  sources: card.sources,
  validity: card.validity,
  ...(cautionsOf(card).length > 0 && { cautions: cautionsOf(card) }),
  examples: card.examples.map((example) => ({
    formula: exampleFormula(card, example),
    ...example,
  })),
  plain: plainEquivalent(card),
  ...(card.seeAlso && { seeAlso: card.seeAlso.map((id) => `${NAMESPACE}.${id}`) }),
});
