/**
 * A table of a sheet with more rows than it was made with: formulas go on as they do from its last but one row to its
 * last, looks, rules and marks go along.
 */
import { tokenize } from '@borgar/fx';
import { displayedCalls } from '../functions/gill-calls';
import { areaAddress, readArea } from '../plan/addresses';
import { type CellChange, RefusedChange } from './cell-changes';
import type { Package } from './package';
import { childNamed, descendants, type Splice } from './read-xml';
import { readSheetCells, type SheetCell } from './sheet-cells';
import type { TablePart } from './workbook-parts';
import { escapeAttribute } from './write-xml';

const pieces = (text: string): string[] => text.split(/(\d+)/);

/** A formula `more` rows below, from how it reads in two rows that follow each other; undefined where they differ otherwise. */
export function carriedOn(before: string, last: string, more: number): string | undefined {
  const [a, b] = [before, last].map((text) => tokenize(text, { mergeRefs: true }));
  if (!a || !b || a.length !== b.length) return undefined;
  const steps = { even: true };
  const text = b
    .map(({ value }, at) => {
      const other = a[at]?.value ?? '';
      if (other === value) return value;
      const [from, to] = [pieces(other), pieces(value)];
      if (from.length !== to.length) steps.even = false;
      return to
        .map((piece, place) => {
          const earlier = from[place] ?? '';
          if (earlier === piece) return piece;
          const step = Number(piece) - Number(earlier);
          if (!Number.isInteger(step)) steps.even = false;
          return String(Number(piece) + more * step);
        })
        .join('');
    })
    .join('');
  return steps.even ? text : undefined;
}

interface Sheet {
  readonly name: string;
  readonly part: string;
}

/** The table that has to reach down to a row of its sheet. */
export const tableReaching = (
  tables: readonly TablePart[],
  sheet: string,
  lastRow: number,
): TablePart | undefined =>
  tables.find((table) => table.sheet === sheet && table.area.row <= lastRow);

/**
 * The cells of the rows to come, without what is typed into them: formulas and looks. Throws RefusedChange where a
 * formula does not say how it goes on, or where something stands below the table.
 */
export function rowsBelow(
  file: Package,
  sheet: Sheet,
  table: TablePart,
  lastRow: number,
): CellChange[] {
  const { area } = table;
  const end = area.row + area.rows - 1 - table.totalRows;
  if (lastRow <= end) return [];
  const { rows } = readSheetCells(file, sheet.part);
  const cellsOf = (row: number): readonly SheetCell[] =>
    (rows.find((sheetRow) => sheetRow.row === row)?.cells ?? []).filter(
      ({ column }) => column >= area.column && column < area.column + area.columns,
    );
  const below = rows.find(
    ({ row, cells }) =>
      row > end &&
      row <= lastRow &&
      cells.some(({ formula, value }) => formula !== undefined || value !== undefined),
  );
  if (table.totalRows > 0 || below) {
    throw new RefusedChange(
      `The table ${table.name} of ${sheet.name} has no room for more rows: something stands below it. Clear the lines below it first.`,
    );
  }
  const before = cellsOf(end - 1);
  const changes: CellChange[] = [];
  for (const last of cellsOf(end)) {
    const { column, formula } = last;
    const style = last.element.attributes['s'];
    const other = before.find((cell) => cell.column === column)?.formula;
    for (let row = end + 1; row <= lastRow; row++) {
      const place = { row, column, ...(style !== undefined && { style: Number(style) }) };
      if (formula === undefined) {
        changes.push(place);
        continue;
      }
      const text =
        other === undefined
          ? undefined
          : carriedOn(displayedCalls(other), displayedCalls(formula), row - end);
      if (text === undefined) {
        throw new RefusedChange(
          `The table ${table.name} of ${sheet.name} cannot be made longer: the formulas of its column "${table.columns[column - area.column]}" do not go on alike.`,
        );
      }
      changes.push({ ...place, cell: { kind: 'formula', formula: text, value: undefined } });
    }
  }
  return changes;
}

/** Makes the table end with `lastRow`, and the rules and marks of its rows with it. */
export function growTable(file: Package, sheet: Sheet, table: TablePart, lastRow: number): void {
  const end = table.area.row + table.area.rows - 1;
  if (lastRow <= end) return;
  const more = lastRow - end;
  const root = file.root(table.part);
  const longer = (ref: string | undefined): string | undefined => {
    const area = readArea(ref ?? '');
    return area && area.row + area.rows - 1 === end
      ? areaAddress({ ...area, rows: area.rows + more })
      : undefined;
  };
  const withReference = (
    part: string,
    element: { readonly start: number; readonly openEnd: number },
    name: 'ref' | 'sqref',
    value: string,
  ): Splice => ({
    start: element.start,
    end: element.openEnd,
    text: file
      .text(part)
      .slice(element.start, element.openEnd)
      .replace(
        new RegExp(`(\\s${name}=)(?:"[^"]*"|'[^']*')`),
        () => ` ${name}="${escapeAttribute(value)}"`,
      ),
  });
  const splices = [root, childNamed(root, 'autoFilter')].flatMap((element) => {
    const ref = longer(element?.attributes['ref']);
    return element && ref !== undefined ? [withReference(table.part, element, 'ref', ref)] : [];
  });
  file.edit(table.part, splices);
  const body = file.root(sheet.part);
  const ruled = [
    ...descendants(body, 'dataValidation'),
    ...descendants(body, 'conditionalFormatting'),
  ].flatMap((element) => {
    const refs = (element.attributes['sqref'] ?? '').split(' ');
    const grown = refs.map((ref) => longer(ref) ?? ref).join(' ');
    return grown === refs.join(' ') ? [] : [withReference(sheet.part, element, 'sqref', grown)];
  });
  file.edit(sheet.part, ruled);
}
