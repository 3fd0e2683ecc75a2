import { quoted } from './literals';

/**
 * A card's formula in spreadsheet syntax: the result first, then its steps by name, each an expression of
 * parameters, steps and facts.
 *
 * `crop.bed_days` is a fact of the row that the parameter names; `area = ""` asks whether an argument is
 * left out, `pattern = "square"` and SWITCH know every spelling of a word. Beside the spreadsheet's functions
 * there are NO_ANSWER(), which is #NUM!, and ALONG(species.feed_rates, weight), which reads a block of a
 * table along straight lines, and NEGBINOM_INV(sure, wanted, share), the fewest failures that must be allowed
 * for so that `wanted` attempts succeed with a chance of `sure` (at most 5000 are looked at). A sign alone is
 * written as 0 - x: spreadsheets differ in -x^2.
 */
export type Formula = Readonly<Record<string, string>>;

/** The name of the result, and what it is. */
export const resultOf = (formula: Formula): readonly [name: string, text: string] => {
  const [first] = Object.entries(formula);
  if (!first) throw new Error('A formula without a result');
  return first;
};

/** The parts of `crop.bed_days`; undefined for a name without a dot. */
export function factName(name: string): readonly [parameter: string, fact: string] | undefined {
  const dot = name.indexOf('.');
  return dot < 0 ? undefined : [name.slice(0, dot), name.slice(dot + 1)];
}

/** A choice by the word of a parameter: SWITCH(salt, "sodium chloride", 1.65, ...). */
export const choiceBy = (
  parameter: string,
  cases: Readonly<Record<string, number | string>>,
): string =>
  `SWITCH(${parameter}, ${Object.entries(cases)
    .map(([word, then]) => `${quoted(word)}, ${then}`)
    .join(', ')})`;

/** The equations for reading, a line each; those of a text are parted by semicolons. */
export const equationLines = (formula: Formula | string): readonly string[] =>
  typeof formula === 'string'
    ? formula.split('; ')
    : Object.entries(formula).map(([name, text]) => `${name} = ${text}`);
