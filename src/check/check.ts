import type { BookSnapshot, Cells } from '../plan/book-snapshot';
import { bedRules } from './bed-rules';
import { bookRules, planIn, unreadableCells } from './book-rules';
import { balanceRules } from './balance-rules';
import { type Finding, levels } from './finding';
import { formulaRules } from './formula-rules';
import { asOfDate, waterNow } from './labels';
import { heavyFishRules, heavySaleRules } from './heaviest-rules';
import type { OpenSheet } from './open-sheet';
import { registerRules } from './register-rules';
import { airLevelRules, airRules, outageRules } from './outage-rules';
import { plantRules } from './plant-rules';
import { playedRules } from './played-rules';
import { powerRules } from './power-rules';
import { slipRules } from './slip-rules';
import { sowingRules } from './sowing-rules';
import { findTables } from './found-tables';
import { tankRules } from './tank-rules';
import { limitsFound } from './water-limits-found';
import { typedOverRules } from './typed-over-rules';
import { waterRules } from './water-rules';

const lineOf = ({ sheet, address }: Finding): string =>
  `${sheet.toLowerCase()}!${/\d+$/.exec(address)?.[0] ?? ''}`;

/** Lines of which their register says already what is wrong. */
const linesNamed = (found: readonly Finding[]): ReadonlySet<string> =>
  new Set(found.filter(({ what, sheet }) => what.startsWith(`${sheet}, line `)).map(lineOf));

/**
 * Reads a workbook (Gillbed's plan, or any sheets with tables and GILL formulas) and says what is out of
 * bounds, out of order or mistyped; with the workbook's cells and names (`book`) also what its registers say against
 * each other. `mark` is that of the plan in it, where it holds one. The most pressing findings come first, then in the
 * order of the sheets.
 */
export function checkSheets(
  sheets: readonly OpenSheet[],
  {
    mark,
    book,
  }: { readonly mark?: string | undefined; readonly book?: BookSnapshot | Cells | undefined } = {},
): Finding[] {
  const plan = book && planIn(book);
  const asOf = asOfDate(sheets);
  const water = waterNow(sheets);
  const tables = sheets.map((sheet) => ({ sheet, tables: findTables(sheet) }));
  const everyTable = tables.flatMap((onSheet) => onSheet.tables);
  const limits = limitsFound(sheets, everyTable);
  const found = tables.flatMap(({ sheet, tables }) => [
    ...tables.flatMap((table) => [
      ...tankRules(table, water),
      ...heavyFishRules(table),
      ...outageRules(table),
      ...airRules(table),
      ...waterRules(table, limits),
      ...bedRules(table),
      ...sowingRules(table, asOf),
      ...slipRules(table),
    ]),
    ...registerRules(sheet),
    ...typedOverRules(sheet),
    ...formulaRules(sheet, sheets),
  ]);
  const named = linesNamed(found);
  const all = [
    ...found,
    ...(plan ? [...bookRules(plan), ...unreadableCells(plan)] : []).filter(
      (finding) => finding.level === 'danger' || !named.has(lineOf(finding)),
    ),
    ...airLevelRules(sheets, everyTable),
    ...heavySaleRules(sheets),
    ...balanceRules(sheets),
    ...plantRules(sheets),
    ...powerRules(sheets),
    ...(mark === undefined ? [] : playedRules(sheets, mark)),
  ];
  return levels.flatMap((level) => all.filter((finding) => finding.level === level));
}
