import type { Card } from './card';
import type { Parameter } from './parameter';
import { unitWord } from './unit-word';

/** The metadata file from which Excel learns the functions (functions.json). */
export interface FunctionsMetadata {
  readonly allowErrorForDataTypeAny: true;
  readonly functions: readonly FunctionMetadata[];
}

interface FunctionMetadata {
  readonly id: string;
  readonly name: string;
  readonly description: string;
  readonly helpUrl?: string;
  readonly parameters: readonly {
    readonly name: string;
    readonly description: string;
    readonly type: 'any';
    readonly dimensionality: 'matrix';
    readonly optional?: true;
  }[];
  readonly result: { readonly type: 'any'; readonly dimensionality: 'matrix' };
}

/** One line for a parameter: meaning, unit, range, default. */
export function parameterLine(parameter: Parameter): string {
  const unit = parameter.unit && parameter.kind !== 'name' ? `, ${unitWord(parameter.unit)}` : '';
  const left = parameter.defaultText ? `; left out: ${parameter.defaultText}` : '';
  return `${parameter.meaning}${unit} (${parameter.takes}${left})`;
}

/** File name of a function's page in the written reference. */
export const referencePage = (id: string): string =>
  `${id.toLowerCase().replaceAll('.', '-')}.html`;

/**
 * Every argument is declared as a range of anything: only so do ranges, text with units and error cells
 * reach the checks, which then answer with a sentence instead of a bare #VALUE!.
 */
export function functionsMetadata(cards: readonly Card[], helpBase?: string): FunctionsMetadata {
  return {
    allowErrorForDataTypeAny: true,
    functions: cards.map((card) => ({
      id: card.id,
      name: card.id,
      description: card.summary,
      ...(helpBase && { helpUrl: `${helpBase}${referencePage(card.id)}` }),
      parameters: card.parameters.map((parameter) => ({
        name: parameter.name,
        description: parameterLine(parameter),
        type: 'any' as const,
        dimensionality: 'matrix' as const,
        ...(parameter.optional && { optional: true as const }),
      })),
      result: { type: 'any', dimensionality: 'matrix' },
    })),
  };
}
