/** What a farm file asks of the planner of its fish. */
import { wrongValue } from '../core/errors';
import type { FishTank } from '../core/fish-log';
import type { Farm } from '../plan/farm';
import { fishRowsOf } from '../plan/registers-of-farm';
import { withRows } from './fish-facts';
import type { FishWanted, GroupInTank } from './fish-wanted';
import { speciesOf } from './own-tables';
import { monthWater, needed } from './needed';

export interface LeftOut {
  readonly tank: string;
  readonly why: string;
}

export interface FarmFish {
  readonly wanted: FishWanted;
  readonly leftOut: readonly LeftOut[];
  /** Rows of the Fish log that the plan cannot follow, in sentences. */
  readonly notes: readonly string[];
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
  const { stock } = farm;
  const main = speciesOf(farm, needed(stock.species, 'the species of the fish'));
  const leftOut: LeftOut[] = [];
  const tanks: FishWanted['tanks'][number][] = [];
  const standing: GroupInTank[] = [];
  const others: FishTank[] = [];
  for (const { name, volume, species, fish, weight, density } of farm.tanks) {
    const apart = (why: string): void => {
      leftOut.push({ tank: name, why });
      others.push({ name, volume, species: speciesOf(farm, species) });
    };
    if (fish > 0 && weight !== undefined) standing.push({ tank: name, fish, weight });
    if (named.delete(key(name))) {
      apart('left out as asked');
    } else if (species !== farm.stock.species) {
      apart(`holds ${species}, not ${farm.stock.species}`);
    } else {
      if (fish > 0 && weight === undefined) {
        throw wrongValue(`${name} holds ${fish} fish without a mean weight: weigh them first`);
      }
      tanks.push({ name, volume, density: density ?? main.facts.density_aerated[0] });
    }
  }
  const [unknown] = named.values();
  if (unknown !== undefined) throw wrongValue(`there is no tank "${unknown}" to leave out`);
  const { wanted, notes } = withRows(
    {
      species: main,
      coefficient: main.facts.tgc[0],
      water: monthWater(farm),
      asOf: farm.asOf,
      weeks,
      tanks,
      kgMonth: needed(stock.wanted, 'the weight of fish to sell'),
      startWeight: needed(stock.startWeight, 'the weight of fish when stocked'),
      sellWeight: needed(stock.harvestWeight, 'the weight of fish when sold'),
      survival: needed(stock.survival, 'the share of fish that live'),
    },
    standing,
    fishRowsOf(farm.fishLog),
    others,
  );
  return { wanted, leftOut, notes };
}
