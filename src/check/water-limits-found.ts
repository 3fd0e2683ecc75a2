import { limitsOf, type Limited, usualLimits, type WaterLimits } from '../core/water-limits';
import { speciesTable } from '../functions/species-table';
import type { FoundTable } from './found-tables';
import type { OpenSheet } from './open-sheet';

/** Limits of the water, and whose they are. */
export interface FoundLimits extends WaterLimits {
  /** "Nile tilapia", or several that share the water. */
  readonly whose: string;
}

/** Labels of a list of limits, with the column in which each stands. */
const stated: readonly (readonly [Limited, RegExp, 'from' | 'to'])[] = [
  ['tan_most', /^total ammonia-n/i, 'to'],
  ['unionised_most', /^un-?ioni[sz]ed ammonia-n$/i, 'to'],
  ['nitrite_most', /^nitrite-n$/i, 'to'],
  ['carbon_dioxide_most', /^carbon dioxide$/i, 'to'],
  ['oxygen_least', /^oxygen$/i, 'from'],
];

/** Limits that a sheet states itself, as the plan does: lines under heads that name a last figure, From and To. */
function statedLimits(sheets: readonly OpenSheet[]): Partial<WaterLimits> {
  const found: Partial<Record<Limited, number>> = {};
  for (const { values } of sheets) {
    const head = values.findIndex((row) =>
      ['Last figure', 'From', 'To'].every((text) => row.includes(text)),
    );
    if (head < 0) continue;
    const heads = values[head] ?? [];
    const columns = { from: heads.indexOf('From'), to: heads.indexOf('To') };
    for (const row of values.slice(head + 1)) {
      const fact = stated.find(([, label]) => row.some((cell) => label.test(String(cell).trim())));
      const value = fact && row[columns[fact[2]]];
      if (fact && typeof value === 'number') found[fact[0]] ??= value;
    }
  }
  return found;
}

/** Species of the tables of tanks: of those with fish in them, or of all as long as none has any. */
function speciesIn(tables: readonly FoundTable[]) {
  const lines = tables
    .filter(({ roles }) => roles.has('species') && (roles.has('tank') || roles.has('fish')))
    .flatMap(({ lines }) => lines);
  const stocked = lines.filter((line) => (line.number('fish') ?? 0) > 0);
  const names = (stocked.length > 0 ? stocked : lines).map((line) => line.text('species') ?? '');
  return [...new Set(names.flatMap((name) => speciesTable.book.find(name) ?? []))];
}

/**
 * What the fish of a workbook bear: what a sheet states goes before the species in its tanks, the strictest of
 * them; without either, what holds for warm-water fish.
 */
export function limitsFound(
  sheets: readonly OpenSheet[],
  tables: readonly FoundTable[],
): FoundLimits {
  const kinds = speciesIn(tables);
  return {
    ...(limitsOf(kinds) ?? usualLimits),
    ...statedLimits(sheets),
    whose: kinds.length > 0 ? kinds.map(({ name }) => name).join(', ') : 'warm-water fish',
  };
}
