import type { FunctionsMetadata } from '../../src/functions/metadata';

/** Limits of the manifest schema v1.30, and of "Custom functions naming guidelines" (Office Add-ins documentation). */
const NAME = /^[A-Za-z][A-Za-z0-9._]{2,63}$/;
const LIKE_A_CELL = /^(?:[A-Z]{1,3}\d+|R\d*C\d*)$/i;
const MOST = { description: 1024, parameters: 128, parameterName: 64, parameterText: 512 };

/** A workbook file stores a function with every "." as "_", and takes capitals and small letters for the same. */
const stored = (id: string): string => id.replaceAll('.', '_').toUpperCase();

/** Everything that Excel would not take in a list of functions, in sentences. */
export function functionsProblems({ functions }: FunctionsMetadata): string[] {
  const problems: string[] = [];
  const wrong = (sentence: string, when: boolean): void => {
    if (when) problems.push(sentence);
  };
  const ids = new Map<string, string>();
  wrong('there are no functions', functions.length === 0);
  for (const { id, name, description, parameters } of functions) {
    for (const text of new Set([id, name])) {
      wrong(`${text} is no legal name`, !NAME.test(text) || LIKE_A_CELL.test(text));
    }
    const before = ids.get(stored(id));
    wrong(`${before} and ${id} would be stored as one`, before !== undefined);
    ids.set(stored(id), id);
    wrong(
      `${id} has no description, or too long a one`,
      description === '' || description.length > MOST.description,
    );
    wrong(`${id} has too many parameters`, parameters.length > MOST.parameters);
    const names = parameters.map((parameter) => parameter.name.toLowerCase());
    wrong(`${id} has two parameters of one name`, new Set(names).size !== names.length);
    parameters.forEach((parameter, i) => {
      wrong(
        `${id} ${parameter.name} has too long a name`,
        parameter.name.length > MOST.parameterName,
      );
      wrong(
        `${id} ${parameter.name} is described too long`,
        parameter.description.length > MOST.parameterText,
      );
      wrong(
        `${id} ${parameter.name} must be given after one that may be left out`,
        !parameter.optional && parameters.slice(0, i).some(({ optional }) => optional),
      );
    });
  }
  return problems;
}
