import { renamedPlan } from './renamed-plan';
import type { WorkbookModel } from './workbook-model';

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
  return renamedPlan(plan, sheets, names);
}
