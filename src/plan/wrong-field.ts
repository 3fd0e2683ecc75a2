import type * as v from 'valibot';

/** What is wrong with a file of JSON that a person wrote: field by field, each with what would be right. */

export type Step = string | number;

/** "tanks[2].fish": places in lists count from 0, as in the file. */
export const pathText = (path: readonly Step[]): string =>
  path
    .map((key, i) => (typeof key === 'number' ? `[${key}]` : `${i === 0 ? '' : '.'}${key}`))
    .join('');

/** One wrong field. */
export interface WrongField {
  /** "tanks", 2, "fish": places in lists count from 0. */
  readonly path: readonly Step[];
  readonly missing: boolean;
  /** Goes on from the field's name: "must be …". */
  readonly says: string;
}

/** `file` is what the file is called: a farm file. */
export function wrongField(issue: v.BaseIssue<unknown>, file: string): WrongField {
  const path = (issue.path ?? []).map(({ key }) => key as Step);
  if (issue.type === 'strict_object') {
    if (issue.expected === 'never')
      return {
        path,
        missing: false,
        says: `is not a field of a ${file}; remove it or correct its name`,
      };
    if (issue.received === 'undefined') return { path, missing: true, says: 'is missing' };
    return { path, missing: false, says: `must be an object ({ … }); got ${issue.received}` };
  }
  return { path, missing: false, says: issue.message };
}

/** A file is not right; the message lists every wrong field, `wrong` holds them one by one. */
export class WrongFieldsError extends Error {
  readonly wrong: readonly string[];

  constructor(
    readonly fields: readonly WrongField[],
    file: string,
  ) {
    const wrong = [
      ...new Set(fields.map(({ path, says }) => `${pathText(path) || `the ${file}`} ${says}`)),
    ];
    super(
      `The ${file} has ${wrong.length} wrong ${wrong.length === 1 ? 'field' : 'fields'}:\n` +
        wrong.map((sentence) => `- ${sentence}`).join('\n'),
    );
    this.wrong = wrong;
  }
}
