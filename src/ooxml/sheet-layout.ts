import { readArea } from '../plan/addresses';
import type { Area } from '../plan/workbook-model';
import { childNamed, childrenNamed, type XmlElement } from './read-xml';

export interface Lines {
  readonly first: number;
  readonly last: number;
  /** Columns in characters, rows in points. */
  readonly size?: number;
  readonly hidden: boolean;
}

export interface FileRule {
  readonly areas: readonly Area[];
  readonly type: string;
  readonly operator: string;
  readonly formulas: readonly string[];
  readonly attributes: Readonly<Record<string, string>>;
  readonly element: XmlElement;
}

/** What a sheet part says beside its cells. */
export interface SheetLayout {
  readonly columns: readonly Lines[];
  readonly merges: readonly Area[];
  readonly frozen: { readonly rows: number; readonly columns: number };
  readonly gridLines: boolean;
  readonly validations: readonly FileRule[];
  readonly conditions: readonly FileRule[];
}

const isTrue = (value: string | undefined): boolean => value === '1' || value === 'true';

/** The blocks that a list of references names; those that no sheet has are left out. */
export const areasOf = (references = ''): Area[] =>
  references
    .split(/\s+/)
    .flatMap((range) => readArea(range) ?? [])
    .filter(({ row, column }) => row >= 0 && column >= 0);

function linesOf(element: XmlElement, first: number, last: number, size: string): Lines {
  const { attributes } = element;
  const given = Number(attributes[size]);
  return {
    first,
    last,
    ...(attributes[size] !== undefined && Number.isFinite(given) && { size: given }),
    hidden: isTrue(attributes['hidden']),
  };
}

const textsNamed = (element: XmlElement, pattern: RegExp): string[] =>
  element.children.filter(({ name }) => pattern.test(name)).map(({ text }) => text);

/** What a row says of its height, where it says anything. */
export function rowLines(row: XmlElement): Lines[] {
  const { r, ht, hidden } = row.attributes;
  if (r === undefined || (ht === undefined && hidden === undefined)) return [];
  return [linesOf(row, Number(r) - 1, Number(r) - 1, 'ht')];
}

export function readLayout(root: XmlElement): SheetLayout {
  const view = childNamed(childNamed(root, 'sheetViews'), 'sheetView');
  const pane = childNamed(view, 'pane');
  const isFrozen = /^frozen/.test(pane?.attributes['state'] ?? '');
  const split = (name: string): number =>
    isFrozen ? Math.max(0, Math.floor(Number(pane?.attributes[name] ?? 0))) : 0;
  return {
    columns: childrenNamed(childNamed(root, 'cols'), 'col').map((column) =>
      linesOf(
        column,
        Number(column.attributes['min']) - 1,
        Number(column.attributes['max']) - 1,
        'width',
      ),
    ),
    merges: childrenNamed(childNamed(root, 'mergeCells'), 'mergeCell').flatMap(({ attributes }) =>
      areasOf(attributes['ref']),
    ),
    frozen: { rows: split('ySplit'), columns: split('xSplit') },
    gridLines: !['0', 'false'].includes(view?.attributes['showGridLines'] ?? '1'),
    validations: childrenNamed(childNamed(root, 'dataValidations'), 'dataValidation').map(
      (element) => ({
        areas: areasOf(element.attributes['sqref']),
        type: element.attributes['type'] ?? 'none',
        operator: element.attributes['operator'] ?? 'between',
        formulas: textsNamed(element, /^formula[12]$/),
        attributes: element.attributes,
        element,
      }),
    ),
    conditions: childrenNamed(root, 'conditionalFormatting').flatMap((list) =>
      childrenNamed(list, 'cfRule').map((element) => ({
        areas: areasOf(list.attributes['sqref']),
        type: element.attributes['type'] ?? '',
        operator: element.attributes['operator'] ?? '',
        formulas: textsNamed(element, /^formula$/),
        attributes: element.attributes,
        element,
      })),
    ),
  };
}
