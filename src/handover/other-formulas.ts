import type { CallingSheets } from './calling-sheets';
import type { Package } from '../ooxml/package';
import { childrenNamed, descendants, type XmlElement } from '../ooxml/read-xml';
import type { WorkbookParts } from '../ooxml/workbook-parts';

/** A formula that stands outside of cells: as the text of an element, or as one of its attributes. */
export interface OtherFormula {
  readonly part: string;
  readonly sheet: string;
  /** What it belongs to, in words. */
  readonly label: string;
  readonly element: XmlElement;
  readonly attribute?: string;
  readonly text: string;
}

/** Texts of formulas below an element, whether they stand in it or, in additions of younger Excels, in an element of their own. */
const formulasIn = (element: XmlElement): XmlElement[] =>
  ['formula', 'formula1', 'formula2'].flatMap((name) =>
    childrenNamed(element, name).flatMap((formulaElement) => {
      const inner = childrenNamed(formulaElement, 'f');
      return inner.length > 0 ? inner : [formulaElement];
    }),
  );

function rulesOf(root: XmlElement, sheet: string, part: string): OtherFormula[] {
  const found = (label: string, elements: readonly XmlElement[]): OtherFormula[] =>
    elements.map((element) => ({ part, sheet, label, element, text: element.text }));
  const conditions = descendants(root, 'cfRule').flatMap((rule) => [
    ...found('a conditional format', [...formulasIn(rule), ...childrenNamed(rule, 'f')]),
    ...descendants(rule, 'cfvo').flatMap((value): OtherFormula[] => {
      const inner = found('a threshold of a conditional format', childrenNamed(value, 'f'));
      const val = value.attributes['val'];
      if (val === undefined) return inner;
      const label = 'a threshold of a conditional format';
      return [...inner, { part, sheet, label, element: value, attribute: 'val', text: val }];
    }),
  ]);
  const validations = descendants(root, 'dataValidation').flatMap((rule) =>
    found('a validation rule', formulasIn(rule)),
  );
  return [...conditions, ...validations];
}

/**
 * Formulas of a workbook outside of its cells: rules, columns and totals of tables, names. `frames` are roots of
 * sheets that were read before and are as they were.
 */
export function otherFormulas(
  file: Package,
  book: WorkbookParts,
  frames: CallingSheets['frames'],
): OtherFormula[] {
  const rules = book.sheets.flatMap(({ part, name }) =>
    rulesOf(frames.get(part) ?? file.root(part), name, part),
  );
  const tables = book.tables.flatMap(({ part, name, sheet }) =>
    (
      [
        ['calculatedColumnFormula', `the column formula of the table ${name}`],
        ['totalsRowFormula', `the totals row of the table ${name}`],
      ] as const
    ).flatMap(([tag, label]) =>
      descendants(file.root(part), tag).map((element) => ({
        ...{ part, sheet, label, element, text: element.text },
      })),
    ),
  );
  const names = book.names.map(({ name, element }) => ({
    ...{ part: book.part, sheet: '', label: `the name ${name}`, element, text: element.text },
  }));
  return [...rules, ...tables, ...names];
}
