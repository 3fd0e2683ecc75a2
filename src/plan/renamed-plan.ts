/** A plan whose sheets and names are called otherwise, in formulas, charts, rules and lists as well. */
import { parseA1Ref, stringifyA1Ref, stringifyTokens, tokenize } from '@borgar/fx';
import type { CellModel, ChartModel, SheetModel, WorkbookModel } from './workbook-model';

/** New names by the old ones in small letters. */
export type Renaming = ReadonlyMap<string, string>;
const renamed = (renaming: Renaming, name: string): string =>
  renaming.get(name.toLowerCase()) ?? name;

/** Where a link leads within the workbook, as words of a formula. */
const LINK = /^("#')(.+)('!\w*")$/;

/** A formula (without "=") in which sheets and names are called by their new names. */
function renameInFormula(formula: string, sheets: Renaming, names: Renaming): string {
  const tokens = tokenize(formula).map((token) => {
    const [, before = '', sheet, after = ''] = LINK.exec(token.value) ?? [];
    if (sheet !== undefined) return { ...token, value: before + renamed(sheets, sheet) + after };
    if (!token.type.startsWith('range')) return token;
    const ref = parseA1Ref(token.value);
    if (!ref) return token;
    const context = ref.context?.map((sheet) => renamed(sheets, sheet));
    const value =
      'name' in ref
        ? stringifyA1Ref({ ...ref, ...(context && { context }), name: renamed(names, ref.name) })
        : stringifyA1Ref({ ...ref, ...(context && { context }) });
    return { ...token, value };
  });
  return stringifyTokens(tokens);
}

/** The same plan with its sheets, and its names and tables, called by their new names. */
export function renamedPlan(plan: WorkbookModel, sheets: Renaming, names: Renaming): WorkbookModel {
  const same = (renaming: Renaming): boolean =>
    [...renaming].every(([from, to]) => from === to.toLowerCase());
  if (same(sheets) && same(names)) return plan;

  const inFormula = (formula: string): string => renameInFormula(formula, sheets, names);
  const inCell = (cell: CellModel | undefined): CellModel | undefined =>
    cell?.formula === undefined ? cell : { ...cell, formula: inFormula(cell.formula) };
  const inChart = (chart: ChartModel): ChartModel => ({
    ...chart,
    categories: { ...chart.categories, sheet: renamed(sheets, chart.categories.sheet) },
    series: chart.series.map((line) => ({ ...line, sheet: renamed(sheets, line.sheet) })),
  });
  const inSheet = (sheet: SheetModel): SheetModel => ({
    ...sheet,
    name: renamed(sheets, sheet.name),
    rows: sheet.rows.map((row) => row.map(inCell)),
    tables: sheet.tables.map((table) => ({ ...table, name: renamed(names, table.name) })),
    validations: sheet.validations.map((validation) =>
      validation.rule.kind === 'list'
        ? { ...validation, rule: { kind: 'list', name: renamed(names, validation.rule.name) } }
        : validation,
    ),
    conditions: sheet.conditions.map((condition) => ({
      ...condition,
      formula: inFormula(condition.formula),
    })),
    charts: sheet.charts.map(inChart),
  });
  return {
    ...plan,
    sheets: plan.sheets.map(inSheet),
    names: plan.names.map((name) => ({
      ...name,
      name: renamed(names, name.name),
      sheet: renamed(sheets, name.sheet),
    })),
  };
}
