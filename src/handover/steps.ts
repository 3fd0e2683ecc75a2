import { tokenize } from '@borgar/fx';
import { addSheet } from '../ooxml/added-sheets';
import { sheetInFormula } from '../plan/addresses';
import type { SnapshotValue } from '../plan/book-snapshot';
import type { Package } from '../ooxml/package';
import { type Guard, guarded } from './guards';

/** Argument texts longer than this are computed in a cell of their own, so that formulas stay readable. */
const MAX_ARGUMENT_LENGTH = 400;

export interface Step {
  readonly formula: string;
  /** What it gives, as far as that is known. */
  readonly value?: SnapshotValue;
  /** The cell that it was taken out of. */
  readonly from: string;
}

/** A formula text with the sheet written in front of every reference that has none. */
function withSheet(text: string, sheet: string): string | undefined {
  const tokens = tokenize(text, { mergeRefs: true });
  // A reference to "this row" of a table means nothing on another sheet.
  if (tokens.some((token) => token.type === 'structured')) return undefined;
  return tokens
    .map(({ type, value }) =>
      (type === 'range' || type === 'range_beam') && !value.includes('!')
        ? `${sheetInFormula(sheet)}!${value}`
        : value,
    )
    .join('');
}

/**
 * Formulas in between. A GILL call inside another one would stand many times in the plain form of the outer
 * one; it goes into a cell of an added sheet instead.
 */
export class Steps {
  readonly list: Step[] = [];

  constructor(readonly sheet: string) {}

  /**
   * The argument itself where it is short, otherwise a reference to the cell that now computes it: where its
   * guards let it be looked at.
   */
  stepFor(
    text: string,
    sheet: string,
    address: string,
    guards: readonly Guard[],
    valueOf: () => SnapshotValue | undefined,
  ): string {
    if (text.length <= MAX_ARGUMENT_LENGTH) return text;
    const formula = withSheet(guarded(text, guards), sheet);
    if (formula === undefined) return text;
    const value = valueOf();
    this.list.push({ formula, from: `${sheet}!${address}`, ...(value !== undefined && { value }) });
    return `${sheetInFormula(this.sheet)}!$B$${this.list.length + 1}`;
  }
}

/** Adds the sheet with the formulas in between, where there are any. */
export function addSteps(file: Package, steps: Steps, folded: boolean): string[] {
  if (steps.list.length === 0) return [];
  addSheet(
    file,
    steps.sheet,
    [
      [{ value: 'Computed for' }, { value: 'Result' }],
      ...steps.list.map(({ from, formula, value }) => [
        { value: from },
        { formula, ...(value !== undefined && { value }) },
      ]),
    ],
    { folded },
  );
  const open = steps.list.filter(({ value }) => value === undefined).length;
  return [
    `The sheet "${steps.sheet}" was added: it holds ${steps.list.length} results in between, where one function stood inside another.`,
    ...(open === 0
      ? []
      : [
          `${open} of the results in between ${open === 1 ? 'shows' : 'show'} nothing before a spreadsheet computes the workbook, which it does when it opens it.`,
        ]),
  ];
}
