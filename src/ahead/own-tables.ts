/** Crops and species as a farm has them: the tables' figures, and in their place what the grower knows better. */
import { wrongValue } from '../core/errors';
import { type Crop, type CropFact, cropFacts, type Figure } from '../core/tables/crops';
import { type FishFact, fishFacts, type Species } from '../core/tables/species';
import { cropTable } from '../functions/crop-table';
import { speciesTable } from '../functions/species-table';
import type { Farm } from '../plan/farm';
import { withOwnFigures } from '../plan/own-species';

type Tables = Pick<Farm, 'crops' | 'species'>;

/** Facts that the planner of beds cannot do without. */
const needed: readonly CropFact[] = [
  'transplant_days',
  'bed_days',
  'harvest_days',
  'plants_per_m2',
  'air',
  'base_temp',
  'cap_temp',
  'germination',
  'feed_ratio',
  'kg_per_plant',
  'piece_weight',
  'bunch_weight',
];
const words = ['start', 'cut', 'beds', 'family'] as const;
const source = { text: 'own figure of the farm', evidence: 'common practice' } as const;
const isCropFact = (fact: string): fact is CropFact => fact in cropFacts;
const isFishFact = (fact: string): fact is FishFact => fact in fishFacts;

/** A crop of the farm's table. */
export function cropOf({ crops: own }: Tables, name: string): Crop {
  const crop = cropTable.book.find(name);
  if (crop === undefined) throw wrongValue(`${name} is not in the crop table`);
  const given = own?.[crop.name];
  if (given === undefined) return crop;
  const facts: Partial<Record<CropFact, Figure>> = { ...crop.facts };
  const told: Partial<Record<(typeof words)[number], string>> = {};
  for (const [fact, value] of Object.entries(given)) {
    const word = words.find((known) => known === fact);
    if (word !== undefined && typeof value === 'string') told[word] = value;
    if (word === 'cut' && value !== 'once' && value !== 'again') {
      throw wrongValue(`the Crops sheet says "${value}" of ${crop.name}: type once or again`);
    }
    if (!isCropFact(fact)) continue;
    if (typeof value === 'number') facts[fact] = [value, source];
    else if (value === null && needed.includes(fact)) {
      throw wrongValue(
        `the Crops sheet has no figure for ${cropFacts[fact].label} of ${crop.name}: type one before planning`,
      );
    } else if (value === null) delete facts[fact];
  }
  return { ...crop, ...told, facts } as Crop;
}

/** A species of the farm's table. */
export function speciesOf({ species: own }: Tables, name: string): Species {
  const kind = speciesTable.book.find(name);
  if (kind === undefined) throw wrongValue(`${name} is not in the species table`);
  for (const [fact, value] of Object.entries(own?.[kind.name] ?? {})) {
    if (isFishFact(fact) && value === null) {
      throw wrongValue(
        `the Species sheet has no figure for ${fishFacts[fact].label} of ${kind.name}: type one before planning`,
      );
    }
  }
  return withOwnFigures(kind, own);
}
