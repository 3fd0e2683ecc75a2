/** What a farm file asks of the planner of its fish. */
import { wrongValue } from '../core/errors';
import type { FishRow, FishTank } from '../core/fish-log';
import { shiftOf } from './earlier-fish';
import type { Farm } from '../plan/farm';
import { fishRowsOf } from '../plan/registers-of-farm';
import { withRows } from './fish-facts';
import type { PlannedRow } from './fish-moves';
import { gradedRow, type GradingWish } from './graded-row';
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
  /** The grading that was asked for, as a row that the plan goes round. */
  readonly graded?: PlannedRow;
  /** Rows of the Fish log that the plan cannot follow, in sentences. */
  readonly notes: readonly string[];
}

/**
 * @param without names of tanks to leave alone: breeders, quarantine
 * @param weeks in which fish may be stocked
 * @param earlier rows of an earlier plan that are still ahead, which the plan changes little
 */
export function fishOfFarm(
  farm: Farm,
  {
    weeks,
    without = [],
    earlier,
    grade,
  }: {
    readonly weeks: number;
    readonly without?: readonly string[];
    readonly earlier?: readonly FishRow[] | undefined;
    readonly grade?: GradingWish | undefined;
  },
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
  const wishes: Omit<FishWanted, 'groups' | 'fixed'> = {
    species: main,
    coefficient: main.facts.tgc[0],
    water: monthWater(farm),
    asOf: farm.asOf,
    ...(earlier && { earlier, shift: shiftOf(earlier, farm.asOf) }),
    weeks,
    tanks,
    kgMonth: needed(stock.wanted, 'the weight of fish to sell'),
    startWeight: needed(stock.startWeight, 'the weight of fish when stocked'),
    sellWeight: needed(stock.harvestWeight, 'the weight of fish when sold'),
    survival: needed(stock.survival, 'the share of fish that live'),
  };
  const typed = fishRowsOf(farm.fishLog);
  const graded = grade && gradedRow(grade, wishes, standing, typed, others);
  const rows = graded === undefined ? typed : [...typed, graded];
  const { wanted, notes } = withRows(wishes, standing, rows, others);
  return { wanted, leftOut, notes, ...(graded && { graded }) };
}
