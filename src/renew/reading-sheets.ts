/** Own sheets whose figures may hang on the plan: what their formulas gave before may be otherwise now. */
import { tokenize } from '@borgar/fx';
import { splitSheet } from '../plan/addresses';

/** Sheets that a formula names, in small letters; undefined where it reads names or tables, which may mean any. */
function sheetsIn(formula: string): readonly string[] | undefined {
  const found: string[] = [];
  for (const { type, value } of tokenize(formula, { mergeRefs: true })) {
    if (type === 'range_named' || type === 'structured') return undefined;
    const { sheet } = type.startsWith('range') ? splitSheet(value) : {};
    if (sheet !== undefined) found.push(...sheet.toLowerCase().split(':'));
  }
  return found;
}

/** Of own sheets with their formulas, those that read the plan, or another own sheet that does. */
export function sheetsReadingPlan(
  formulas: ReadonlyMap<string, readonly string[]>,
  plan: ReadonlySet<string>,
): ReadonlySet<string> {
  const reads = new Map(
    [...formulas].map(([sheet, texts]) => [sheet, texts.map(sheetsIn)] as const),
  );
  const found = new Set<string>();
  for (let before = -1; before < found.size;) {
    before = found.size;
    for (const [sheet, all] of reads) {
      const isReading = all.some(
        (named) =>
          named === undefined ||
          named.some(
            (sheetName) =>
              plan.has(sheetName) || [...found].some((other) => other.toLowerCase() === sheetName),
          ),
      );
      if (isReading) found.add(sheet);
    }
  }
  return found;
}
