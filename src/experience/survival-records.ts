/**
 * How many fish of each lot lived through each stage of rearing. A lot is followed through its tanks; what died or was
 * missing when it was counted is taken from those of it that were alive, in the stage of the tank's mean weight.
 */
import type { FishRow, RowOutcome, TankState } from '../core/fish-log';
import {
  openEnds,
  type RearingStage,
  rearingStages,
  stageOf,
  timesThrough,
} from '../core/rearing-stages';

export interface StageRecord {
  readonly stage: RearingStage;
  readonly lot: string;
  /** Day of the last row that tells of the lot in the stage. */
  readonly to: number;
  /** Share that lives from limit to limit of the stage. */
  readonly share: number;
}

/** Way of a stage below which a lot says too little of it: common practice, no source. */
const MIN_WAY = 1 / 3;

interface Followed {
  alive: number;
  /** g when it came, and the most since; undefined where nobody knows. */
  readonly from: number | undefined;
  most: number;
  /** Logarithm of the share that lived, and the last day, by stage. */
  readonly logs: Map<RearingStage, number>;
  to: number;
}

const key = (name: string | undefined): string => (name ?? '').trim().toLowerCase();

export function survivalByStage(
  rows: readonly FishRow[],
  outcomes: readonly RowOutcome[],
): StageRecord[] {
  const lots = new Map<string, Followed>();
  const states = new Map<string, TankState>();

  const gone = (state: TankState | undefined, fish: number, weight: number): void => {
    for (const [lot, share] of state?.lots ?? []) {
      const of = lots.get(lot);
      if (of === undefined || of.alive <= 0) continue;
      const stage = stageOf(weight);
      const left = Math.max(0, 1 - (fish * share) / of.alive);
      of.logs.set(stage, (of.logs.get(stage) ?? 0) + Math.log(left));
      of.alive *= left;
    }
  };

  const order = rows
    .map((row, at) => ({ row, at, outcome: outcomes[at] }))
    .filter(({ row, outcome }) => outcome?.status === 'done' && row.date !== undefined)
    .sort((a, b) => (a.row.date as number) - (b.row.date as number) || a.at - b.at);
  for (const { row, outcome } of order) {
    const { fish = 0, weight = 0, tank: after, toTank } = outcome ?? {};
    const before = states.get(key(row.tank));
    const kind = key(row.kind);
    if (kind === 'stocked') {
      for (const [lot, share] of after?.lots ?? []) {
        const came =
          share * (after?.fish ?? 0) - (before?.lots.get(lot) ?? 0) * (before?.fish ?? 0);
        // Of lots that were there already, only the last digits differ.
        if (came < 0.5 * fish) continue;
        const known = lots.get(lot);
        if (known) known.alive += fish;
        else
          lots.set(lot, {
            alive: fish,
            from: weight > 0 ? weight : undefined,
            most: weight,
            logs: new Map(),
            to: row.date as number,
          });
      }
    }
    if (kind === 'died') gone(before, fish, weight);
    if (kind === 'counted') gone(before, (before?.fish ?? 0) - (after?.fish ?? 0), weight);
    for (const [lot, share] of before?.lots ?? after?.lots ?? []) {
      const of = lots.get(lot);
      if (of === undefined) continue;
      of.most = Math.max(of.most, weight);
      of.to = row.date as number;
      if (kind === 'sold') of.alive -= fish * share;
    }
    if (after) states.set(key(row.tank), after);
    if (toTank) states.set(key(row.toTank), toTank);
  }

  return [...lots].flatMap(([lot, { alive, from, most, logs, to }]) =>
    rearingStages.flatMap((stage): StageRecord[] => {
      if (from === undefined) return [];
      // Those that are still in the stage may yet die in it.
      if (alive >= 0.5 && most < openEnds(stage)[1]) return [];
      const through = timesThrough(stage, from, most);
      if (through < MIN_WAY) return [];
      return [{ stage, lot, to, share: Math.exp((logs.get(stage) ?? 0) / through) }];
    }),
  );
}
