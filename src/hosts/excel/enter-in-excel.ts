/** Cells entered into the open workbook, in as few requests as it needs; tables are made longer before. */
import type { LongerTable } from '../../ooxml/longer-tables';
import type { EnteredCell } from '../../sidebar/host';
import { typedText } from './cell-text';
import { type Pieces, Requests, weight } from './requests';

type Content = string | number;

interface Run {
  readonly row: number;
  readonly column: number;
  readonly contents: Content[];
}

const contentOf = ({ value }: EnteredCell): Content =>
  typeof value === 'string' ? typedText(value) : (value ?? '');

/** Cells of a sheet that stand side by side, each run in one block. */
function runsOf(cells: readonly EnteredCell[]): Run[] {
  const runs: Run[] = [];
  const inOrder = [...cells].sort((a, b) => a.row - b.row || a.column - b.column);
  for (const cell of inOrder) {
    const last = runs.at(-1);
    if (last?.row === cell.row && last.column + last.contents.length === cell.column) {
      last.contents.push(contentOf(cell));
    } else {
      runs.push({ row: cell.row, column: cell.column, contents: [contentOf(cell)] });
    }
  }
  return runs;
}

/** Looks, rules and marks come along with the last row; what it holds is then written over. */
function* growing(sheet: Excel.Worksheet, { name, area, lastRow, formulas }: LongerTable): Pieces {
  const { row, column, rows, columns } = area;
  const end = row + rows - 1;
  const more = lastRow - end;
  sheet.tables
    .getItem(name)
    .resize(sheet.getRangeByIndexes(row, column, rows + more, columns).untrack());
  const below = sheet.getRangeByIndexes(end + 1, column, more, columns);
  below.copyFrom(sheet.getRangeByIndexes(end, column, 1, columns).untrack());
  yield weight(8);
  const contents = Array.from({ length: more }, () => Array.from({ length: columns }, () => ''));
  for (const cell of formulas) {
    const line = contents[cell.row - end - 1];
    if (line) line[cell.column - column] = `=${cell.formula}`;
  }
  for (const [at, line] of contents.entries()) {
    sheet.getRangeByIndexes(end + 1 + at, column, 1, columns).untrack().formulas = [line];
    yield weight(3, line);
  }
  below.untrack();
}

function* entering(
  context: Excel.RequestContext,
  cells: readonly EnteredCell[],
  longer: readonly LongerTable[],
): Pieces {
  const { worksheets } = context.workbook;
  for (const table of longer) yield* growing(worksheets.getItem(table.sheet), table);
  for (const name of new Set(cells.map(({ sheet }) => sheet))) {
    const sheet = worksheets.getItem(name);
    for (const { row, column, contents } of runsOf(cells.filter((cell) => cell.sheet === name))) {
      sheet.getRangeByIndexes(row, column, 1, contents.length).untrack().formulas = [contents];
      yield weight(3, contents);
    }
  }
}

export async function enterInExcel(
  context: Excel.RequestContext,
  cells: readonly EnteredCell[],
  longer: readonly LongerTable[],
): Promise<void> {
  const requests = new Requests(context, () => Promise.resolve());
  await requests.carryOut(entering(context, cells, longer));
  await requests.send();
}
