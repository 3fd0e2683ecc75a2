import { limitsOf, type Limited, usualLimits, type WaterLimits } from '../core/water-limits';
import type { Species } from '../core/tables/species';
import { speciesTable } from '../functions/species-table';
import type { FoundTable, TableLine } from './found-tables';
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

const linesOfFish = (tables: readonly FoundTable[]): TableLine[] =>
  tables
    .filter(({ roles }) => roles.has('species') && (roles.has('tank') || roles.has('fish')))
    .flatMap(({ lines }) => lines);

const speciesOf = (lines: readonly TableLine[]): Species[] => [
  ...new Set(lines.flatMap((line) => speciesTable.book.find(line.text('species') ?? '') ?? [])),
];

/** Species of the tables of tanks: of those with fish in them, or of all as long as none has any. */
function speciesIn(tables: readonly FoundTable[]): Species[] {
  const lines = linesOfFish(tables);
  const stocked = lines.filter((line) => (line.number('fish') ?? 0) > 0);
  return speciesOf(stocked.length > 0 ? stocked : lines);
}

/** Who of the fish that tanks are meant for needs most oxygen at least, and how many mg/L. */
export function mostOxygenNeeded(
  tables: readonly FoundTable[],
): { readonly whose: string; readonly least: number } | undefined {
  // A plan says it for each tank, by the farm's own figures.
  const tanks = tables
    .filter(({ roles }) => roles.has('tank') && roles.has('oxygenLeast'))
    .flatMap(({ lines }) => lines)
    .flatMap((line) => {
      const least = line.number('oxygenLeast');
      return least === undefined ? [] : [{ whose: `the fish of ${line.called}`, least }];
    });
  const species = speciesOf(linesOfFish(tables)).map(({ name, facts }) => ({
    whose: name,
    least: facts.oxygen_least[0],
  }));
  return (tanks.length > 0 ? tanks : species).sort((a, b) => b.least - a.least)[0];
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
