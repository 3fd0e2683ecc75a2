import { speciesTable } from '../../functions/species-table';
import { species as speciesRows } from '../../core/tables/species';
import { isoText, serialFromIsoText } from '../../core/serial-date';
import type { Draft, Json } from './draft';
import { gill } from './gill-number';
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
  const of = (species: (typeof speciesRows)[number] | undefined) => species?.facts;
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

/** The crop of each row of the market. */
export const cropsToSell = (draft: Draft): readonly (Json | undefined)[] =>
  draft.list('markets').map((_, i) => draft.get(`markets[${i}].crop`));

/** The first day on which a crop can be cut that is sown on the day of the plan. */
function firstCut(draft: Draft, crop: Json | undefined): string | undefined {
  const today = draft.get('asOf');
  const from = typeof today === 'string' ? serialFromIsoText(today) : undefined;
  if (from === undefined || typeof crop !== 'string') return undefined;
  const days = gill('SOW.OFFSET', crop, 'first cut');
  return days === undefined ? undefined : isoText(from + days);
}

/** What the crop table suggests for a crop that was chosen just now; `before` are the crops before that. */
export function suggestForCrops(draft: Draft, before: readonly (Json | undefined)[]): void {
  const now = cropsToSell(draft);
  if (now.length !== before.length) return;
  now.forEach((crop, i) => {
    if (crop === before[i]) return;
    const path = `markets[${i}].firstHarvest`;
    const date = firstCut(draft, crop);
    const stands = draft.get(path);
    if (date !== undefined && (stands === undefined || stands === firstCut(draft, before[i]))) {
      draft.set(path, date);
    }
  });
}
