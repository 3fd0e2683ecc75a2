/** What a farm file asks of the planner of its fish. */
import { wrongValue } from '../core/errors';
import type { Farm } from '../plan/farm';
import { speciesOf } from './own-tables';
import type { FishWanted } from './fish-wanted';

export interface LeftOut {
  readonly tank: string;
  readonly why: string;
}

export interface FarmFish {
  readonly wanted: FishWanted;
  readonly leftOut: readonly LeftOut[];
}

/**
 * @param without names of tanks to leave alone: breeders, quarantine
 * @param weeks in which fish may be stocked
 */
export function fishOfFarm(
  farm: Farm,
  { weeks, without = [] }: { readonly weeks: number; readonly without?: readonly string[] },
): FarmFish {
  const key = (name: string): string => name.trim().toLowerCase();
  const named = new Map(without.map((name) => [key(name), name]));
  const main = speciesOf(farm, farm.stock.species);
  const leftOut: LeftOut[] = [];
  const tanks: FishWanted['tanks'][number][] = [];
  const groups: FishWanted['groups'][number][] = [];
  for (const { name, volume, species, fish, weight, density } of farm.tanks) {
    if (named.delete(key(name))) {
      leftOut.push({ tank: name, why: 'left out as asked' });
    } else if (species !== farm.stock.species) {
      leftOut.push({ tank: name, why: `holds ${species}, not ${farm.stock.species}` });
    } else {
      if (fish > 0 && weight === undefined) {
        throw wrongValue(`${name} holds ${fish} fish without a mean weight: weigh them first`);
      }
      tanks.push({ name, volume, density: density ?? main.facts.density_aerated[0] });
      if (fish > 0) groups.push({ tank: name, fish, weight: weight as number });
    }
  }
  const [unknown] = named.values();
  if (unknown !== undefined) throw wrongValue(`there is no tank "${unknown}" to leave out`);
  const { stock } = farm;
  return {
    leftOut,
    wanted: {
      species: main,
      coefficient: main.facts.tgc[0],
      water: farm.months.map(({ water }) => water),
      asOf: farm.asOf,
      weeks,
      tanks,
      groups,
      kgMonth: stock.wanted,
      startWeight: stock.startWeight,
      sellWeight: stock.harvestWeight,
      survival: stock.survival,
    },
  };
}
