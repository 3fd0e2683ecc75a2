/**
 * How the farm's own fish grew: weighings of the same fish, followed from tank to tank. A chain begins with a
 * weight at stocking or a first weighing and ends where other fish come in or fish are taken out by size.
 */
import type { FishRow, RowOutcome } from '../core/fish-log';
import { fittedGrowth, type Weighing } from '../core/growth-fitted';
import type { Species } from '../core/tables/species';
import { meanGrowingTemperature, type WaterOfDays } from './water-of-days';

interface Weight {
  readonly day: number;
  readonly weight: number;
}

export interface GrowthRecord {
  readonly species: Species;
  readonly tank: string;
  readonly from: number;
  readonly to: number;
  readonly weighings: number;
  /** Growth coefficient, x1000 scale, for the temperature that counts for growth. */
  readonly coefficient: number;
}

export interface LoggedFish {
  readonly rows: readonly FishRow[];
  readonly outcomes: readonly RowOutcome[];
  readonly speciesIn: (tank: string) => Species | undefined;
  readonly water: WaterOfDays;
}

/** Days between two weighings from which a growth can be read: what is weighed twice in a week is noise. */
const MIN_DAYS = 14;

const key = (name: string | undefined): string => (name ?? '').trim().toLowerCase();

export function growthRecords({ rows, outcomes, speciesIn, water }: LoggedFish): GrowthRecord[] {
  const found: GrowthRecord[] = [];
  const chains = new Map<string, Weight[]>();

  const close = (tank: string): void => {
    const chain = chains.get(key(tank));
    chains.delete(key(tank));
    const species = speciesIn(tank);
    const [first, last] = [chain?.[0], chain?.at(-1)];
    if (chain === undefined || species === undefined || first === undefined || last === undefined)
      return;
    if (last.day - first.day < MIN_DAYS) return;
    const weighings: Weighing[] = chain.map(({ day, weight }, i) => {
      const before = chain[i - 1]?.day ?? day;
      return { day, weight, temperature: meanGrowingTemperature(species, water, before, day) };
    });
    // Fish in water in which they do not grow say nothing of how they grow.
    if (weighings.every(({ temperature }, i) => i === 0 || temperature === 0)) return;
    const { coefficient } = fittedGrowth(weighings);
    found.push({
      species,
      tank,
      from: first.day,
      to: last.day,
      weighings: chain.length,
      coefficient,
    });
  };

  const weighed = (tank: string, day: number, weight: number): void => {
    const chain = chains.get(key(tank)) ?? [];
    const last = chain.at(-1);
    // Of two weighings on a day the later row counts.
    if (last?.day === day) chain.pop();
    chain.push({ day, weight });
    chains.set(key(tank), chain);
  };

  const order = rows
    .map((row, at) => ({ row, at, outcome: outcomes[at] }))
    .filter(({ row, outcome }) => outcome?.status === 'done' && row.date !== undefined)
    .sort((a, b) => (a.row.date as number) - (b.row.date as number) || a.at - b.at);
  for (const { row, outcome } of order) {
    const [tank, day] = [row.tank as string, row.date as number];
    const left = outcome?.tank?.fish ?? 0;
    switch (key(row.kind)) {
      case 'stocked': {
        const alone = left === row.fish;
        close(tank);
        if (alone && row.weight !== undefined) weighed(tank, day, row.weight);
        break;
      }
      case 'weighed':
      case 'counted':
        if (row.weight !== undefined) weighed(tank, day, row.weight);
        else if (left === 0) close(tank);
        break;
      case 'moved':
      case 'sold': {
        const graded = row.weight !== undefined;
        const to = key(row.kind) === 'moved' ? (row.toTank as string) : undefined;
        const chain = chains.get(key(tank));
        if (to !== undefined) {
          close(to);
          const alone = outcome?.toTank?.fish === outcome?.fish;
          const last = chain?.at(-1);
          if (alone && graded) weighed(to, day, row.weight as number);
          else if (alone && chain !== undefined && last !== undefined)
            // Who goes on alone keeps the whole chain, who is split off the last weighing.
            chains.set(key(to), left === 0 ? [...chain] : [last]);
        }
        if (left === 0 && to !== undefined && !graded) chains.delete(key(tank));
        else if (graded || left === 0) close(tank);
        break;
      }
    }
  }
  for (const tank of [...chains.keys()]) close(tank);
  return found;
}
