import { speciesTable } from '../../functions/species-table';
import { species as speciesRows } from '../../core/tables/species';
import type { Draft, Json } from './draft';
import { monthNames } from './months';

/** A farm file with nothing in it but what every farm has; `today` as yyyy-mm-dd. */
export const newFarm = (today: string): Json => ({
  units: 'metric',
  asOf: today,
  site: {},
  months: monthNames.map(() => ({})),
  water: {},
  filter: {},
  feed: {},
  stock: {},
  tanks: [{ name: 'Tank 1' }],
  beds: [{ name: 'Bed 1', kind: 'raft' }],
  markets: [],
  costs: [],
});

/**
 * What the species table suggests once a species is chosen; only where the grower has entered nothing,
 * or still has what was suggested for the species before.
 */
export function suggestForSpecies(draft: Draft, before: string | undefined): void {
  const chosen = draft.get('stock.species');
  const row = typeof chosen === 'string' ? speciesTable.book.find(chosen) : undefined;
  if (!row) return;
  const previous = before === undefined ? undefined : speciesTable.book.find(before);
  const suggest = (path: string, value: number, old: number | undefined): void => {
    const now = draft.get(path);
    if (now === undefined || now === old) draft.set(path, value);
  };
  const GRAMS_IN_POUND = 453.59237;
  const weight = (grams: number): number =>
    draft.get('units') === 'US' ? Number((grams / GRAMS_IN_POUND).toPrecision(3)) : grams;
  const of = (one: (typeof speciesRows)[number] | undefined) => one?.facts;
  suggest(
    'stock.harvestWeight',
    weight(row.facts.harvest_weight[0]),
    previous && weight(of(previous)?.harvest_weight[0] ?? NaN),
  );
  suggest('feed.protein', row.facts.protein[0], of(previous)?.protein[0]);
  draft.list('tanks').forEach((_, i) => {
    const path = `tanks[${i}].species`;
    const now = draft.get(path);
    if (now === undefined || now === before) draft.set(path, row.name);
  });
}
