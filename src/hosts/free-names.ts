import { parseA1Ref, stringifyA1Ref, stringifyTokens, tokenize } from '@borgar/fx';
import type { CellModel, ChartModel, SheetModel, WorkbookModel } from '../plan/workbook-model';

/** Names that the open workbook uses already; sheets, and defined names together with tables. */
export interface TakenNames {
  readonly sheets: readonly string[];
  readonly names: readonly string[];
}

const MAX_SHEET_NAME = 31;
const MAX_NAME = 255;

/** The wanted name, or the first "name (2)", "name (3)", … that is free; `taken` holds lower case. */
function freeName(
  wanted: string,
  taken: Set<string>,
  numbered: (name: string, n: number) => string,
): string {
  let name = wanted;
  for (let n = 2; taken.has(name.toLowerCase()); n++) name = numbered(wanted, n);
  taken.add(name.toLowerCase());
  return name;
}

const numberedSheet = (name: string, n: number): string =>
  `${name.slice(0, MAX_SHEET_NAME - ` (${n})`.length)} (${n})`;
const numberedName = (name: string, n: number): string =>
  `${name.slice(0, MAX_NAME - `_${n}`.length)}_${n}`;

type Renaming = ReadonlyMap<string, string>;
const renamed = (renaming: Renaming, name: string): string =>
  renaming.get(name.toLowerCase()) ?? name;

/** A formula (without "=") in which sheets and names are called by their new names. */
export function renameInFormula(formula: string, sheets: Renaming, names: Renaming): string {
  const tokens = tokenize(formula).map((token) => {
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

/**
 * The same workbook with every name that is taken replaced by a free one, in formulas, charts, rules
 * and lists as well.
 */
export function withFreeNames(plan: WorkbookModel, taken: TakenNames): WorkbookModel {
  const takenSheets = new Set(taken.sheets.map((name) => name.toLowerCase()));
  const takenNames = new Set(taken.names.map((name) => name.toLowerCase()));
  const sheets = new Map<string, string>();
  const names = new Map<string, string>();
  for (const { name } of plan.sheets) {
    sheets.set(name.toLowerCase(), freeName(name, takenSheets, numberedSheet));
  }
  const ours = [...plan.names, ...plan.sheets.flatMap((sheet) => sheet.tables)];
  for (const { name } of ours)
    names.set(name.toLowerCase(), freeName(name, takenNames, numberedName));
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
