import { growingTemperature } from '../../src/core/growth';
import { serialOf } from '../../src/core/serial-date';
import { type Species, species } from '../../src/core/tables/species';
import { type FishWanted, handlingWaterOf } from '../../src/ahead/fish-wanted';
import { type FishFacts, withRows } from '../../src/ahead/fish-facts';
import type { FishRow } from '../../src/core/fish-log';
import { randomNumbers } from '../soak/random';

/** A farm that nobody owns: one to three sizes of tank, some of them stocked, in water with a season. */
export function randomFarm(
  seed: number,
  { tanks: mostTanks, weeks: mostWeeks } = { tanks: 7, weeks: 30 },
): FishWanted {
  const random = randomNumbers(seed);
  const between = (low: number, high: number): number => low + random() * (high - low);
  const whole = (low: number, high: number): number => Math.floor(between(low, high + 1));
  const kind = species[whole(0, species.length - 1)] as Species;
  const { best_low, best_high, density_aerated, harvest_weight, tgc } = kind.facts;
  const mean = between(best_low[0] - 3, best_high[0] - 1);
  const swing = between(0, 4);
  const water = Array.from(
    { length: 12 },
    (_, month) => mean - swing * Math.cos((2 * Math.PI * (month - 0.5)) / 12),
  );
  const sizes = Array.from({ length: whole(1, 3) }, () => Math.round(between(10, 120)) * 100);
  const tanks = Array.from({ length: whole(2, mostTanks) }, (_, at) => ({
    name: `Tank ${at + 1}`,
    volume: sizes[at % sizes.length] as number,
    density: Math.round(density_aerated[0] * between(0.5, 1)),
  }));
  // Tanks of one volume have one limit.
  for (const tank of tanks) {
    tank.density = (tanks.find(({ volume }) => volume === tank.volume) as typeof tank).density;
  }
  const sellWeight = Math.round(harvest_weight[0] * between(0.8, 1.2));
  const startWeight = Math.round(between(0.05, 0.3) * sellWeight);
  const groups = tanks.flatMap(({ name, volume, density }) => {
    if (random() < 0.4) return [];
    const weight = Math.round(between(startWeight, 1.1 * sellWeight));
    const fish = Math.floor((between(0.2, 0.95) * volume * density) / weight);
    return fish > 0 ? [{ tank: name, fish, weight }] : [];
  });
  // What the tanks would give if each were grown from stocking to sale again and again.
  const days =
    (1000 * (Math.cbrt(sellWeight) - Math.cbrt(startWeight))) /
    (tgc[0] * growingTemperature(kind, mean));
  const room = tanks.reduce((sum, { volume, density }) => sum + (volume * density) / 1000, 0);
  return {
    species: kind,
    coefficient: tgc[0],
    water,
    asOf: serialOf({ year: 2026, month: whole(1, 12), day: whole(1, 28) }),
    weeks: whole(Math.min(16, mostWeeks - 4), mostWeeks),
    tanks,
    groups,
    kgMonth: Math.max(1, Math.round((between(0.3, 1.6) * room * 30.4375) / days)),
    startWeight,
    sellWeight,
    survival: between(0.85, 1),
    ...(random() < 0.5 && { minMove: whole(1, 30) }),
    ...(random() < 0.5 && { maxMove: whole(300, 2000) }),
    ...(random() < 0.3 && { wholeTanks: true }),
    ...(random() < 0.3 && { handlingWater: handlingWaterOf(kind) + 1 }),
  };
}

/** The same farm, and rows that somebody typed for the weeks to come: sales, moves, stockings, one that cannot be. */
export function randomFarmWithRows(
  seed: number,
  most?: { readonly tanks: number; readonly weeks: number },
): FishFacts {
  const { groups, ...wishes } = randomFarm(seed, most);
  const random = randomNumbers(1000 + seed);
  const whole = (low: number, high: number): number =>
    Math.floor(low + random() * (high - low + 1));
  const other = { name: 'Breeders', species: wishes.species, volume: 3000 };
  const rows = wishes.tanks.flatMap(({ name, volume, density }): FishRow[] => {
    const group = groups.find(({ tank }) => tank === name);
    const date = wishes.asOf + whole(0, 7 * wishes.weeks);
    const row = { date, tank: name, planned: true };
    const roll = random();
    if (group === undefined) {
      const fish = Math.max(1, Math.floor((0.3 * volume * density) / wishes.sellWeight));
      return roll < 0.3
        ? [{ ...row, kind: 'stocked', fish, weight: wishes.startWeight, lot: 'typed' }]
        : roll < 0.4
          ? [{ ...row, kind: 'sold', fish: 5 }]
          : [];
    }
    const part = Math.max(1, Math.floor(group.fish / 3));
    if (roll < 0.2) return [{ ...row, kind: 'sold', fish: part }];
    if (roll < 0.3) return [{ ...row, kind: 'sold' }];
    if (roll < 0.4) return [{ ...row, kind: 'moved', toTank: other.name, fish: part }];
    if (roll < 0.5) {
      const to = wishes.tanks[whole(0, wishes.tanks.length - 1)]?.name as string;
      return to === name ? [] : [{ ...row, kind: 'moved', toTank: to, fish: part }];
    }
    return roll < 0.6 ? [{ ...row, kind: 'weighed' }] : [];
  });
  return withRows(wishes, groups, rows, [other]);
}
