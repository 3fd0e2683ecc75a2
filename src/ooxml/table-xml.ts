import { tokenize } from '@borgar/fx';
import { storedFormula } from '../functions/stored-name';
import { areaAddress, columnNumber } from '../plan/addresses';
import type { SheetModel, TableModel } from '../plan/workbook-model';
import { cellText, element, textElement, xmlPart } from './write-xml';
import { SPREADSHEET } from './namespaces';

/** A head as it stands inside a table reference. */
const headInReference = (head: string): string => head.replace(/['#[\]@]/g, (sign) => `'${sign}`);

/** "D5" or "$D5" in row 5 (row from 0): the column it names; undefined for anything that is not in that row. */
function columnInRow(reference: string, row: number): number | undefined {
  const match = /^\$?([A-Z]{1,3})(\d+)$/i.exec(reference);
  return match && Number(match[2]) === row + 1 ? columnNumber(match[1] ?? '') : undefined;
}

/** True for a reference that means the same from every row. */
const isFixed = (reference: string): boolean =>
  /^(?:.*!)?\$?[A-Z]{1,3}\$\d+(?::\$?[A-Z]{1,3}\$\d+)?$/i.test(reference);

/**
 * The formula of a column as its table keeps it for rows to come: cells of the same row become columns of
 * the table, so that no row number is left in it. Undefined where it points at other rows.
 */
export function columnFormula(
  formula: string,
  row: number,
  { name, area, heads }: TableModel,
): string | undefined {
  const rows = { movable: true };
  const text = tokenize(formula, { mergeRefs: true })
    .map(({ type, value }) => {
      if (!type.startsWith('range') || type === 'range_named' || isFixed(value)) return value;
      const column = columnInRow(value, row);
      const head = column === undefined ? undefined : heads[column - area.column];
      if (head === undefined) {
        rows.movable = false;
        return value;
      }
      return `${name}[[#This Row],[${headInReference(head)}]]`;
    })
    .join('');
  return rows.movable ? storedFormula(text) : undefined;
}

/** Makes the text that a formula of a table would have in another row, if its references move with it. */
function inOtherRows(formula: string, row: number): (other: number) => string {
  const tokens = tokenize(formula, { mergeRefs: true }).map(({ type, value }) =>
    type.startsWith('range') && columnInRow(value, row) !== undefined
      ? { letters: value.replace(/\d+$/, '') }
      : value,
  );
  return (other) =>
    tokens
      .map((token) => (typeof token === 'string' ? token : `${token.letters}${other + 1}`))
      .join('');
}

/** The formula that all rows of a column share, if they do. */
function sharedFormula(sheet: SheetModel, table: TableModel, column: number): string | undefined {
  const { area } = table;
  const first = area.row + 1;
  const firstFormula = sheet.rows[first]?.[column]?.formula;
  if (firstFormula === undefined) return undefined;
  const shared = columnFormula(firstFormula, first, table);
  if (shared === undefined) return undefined;
  // Most rows hold the first one's text but for the row's number, and need not be taken apart.
  const expected = inOtherRows(firstFormula, first);
  for (let row = first + 1; row < area.row + area.rows; row++) {
    const formula = sheet.rows[row]?.[column]?.formula;
    if (formula === undefined) return undefined;
    if (formula !== expected(row) && columnFormula(formula, row, table) !== shared) {
      return undefined;
    }
  }
  return shared;
}

/** A register, with the formulas of its columns, so that rows added by hand compute like the others. */
export function tableXml(sheet: SheetModel, table: TableModel, id: number): string {
  const ref = areaAddress(table.area);
  return xmlPart(
    element(
      'table',
      {
        xmlns: SPREADSHEET,
        id,
        name: table.name,
        displayName: table.name,
        ref,
        totalsRowShown: 0,
      },
      [
        element('autoFilter', { ref }),
        element(
          'tableColumns',
          { count: table.heads.length },
          table.heads.map((head, i) => {
            const formula = sharedFormula(sheet, table, table.area.column + i);
            return element(
              'tableColumn',
              { id: i + 1, name: cellText(head).replaceAll('\n', '_x000a_') },
              formula === undefined ? '' : textElement('calculatedColumnFormula', formula),
            );
          }),
        ),
      ],
    ),
  );
}

/**
 * Cells keep plain references, which every spreadsheet reads, where the table's own formula names columns:
 * Excel need not flag that difference.
 */
export function tableRemarksXml(sheet: SheetModel): string {
  const areas = sheet.tables.map(({ area }) =>
    areaAddress({ ...area, row: area.row + 1, rows: area.rows - 1 }),
  );
  return areas.length === 0
    ? ''
    : element('ignoredErrors', {}, [
        element('ignoredError', { sqref: areas.join(' '), calculatedColumn: 1 }),
      ]);
}
