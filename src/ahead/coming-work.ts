/** What the rows of the registers ask for in the weeks to come: fish and beds, day by day. */
import { isoText, isoWeekday } from '../core/serial-date';
import type { Farm, FishLogEntry } from '../plan/farm';
import { shownIn, toShown } from '../plan/quantities';
import { airMeans } from './needed';
import { firstMonday } from './planner-rows';
import { type Batch, WEEK } from './season';
import { standingPlantings } from './standing-plantings';

export interface ComingTask {
  readonly day: number;
  readonly what: 'fish' | 'beds';
  /** "move 200 fish from Tank 1 to Tank 2" */
  readonly says: string;
}

export interface ComingWeek {
  /** First day that is looked at: a Monday, or the day of the plan. */
  readonly from: number;
  /** Sunday. */
  readonly to: number;
  readonly tasks: readonly ComingTask[];
}

export interface ComingWork {
  /** Planned rows whose day is gone and that nobody has answered. */
  readonly waiting: readonly ComingTask[];
  /** This week, then the next ones. */
  readonly weeks: readonly ComingWeek[];
  /** What the reader must know, in sentences. */
  readonly notes: readonly string[];
}

const words: Readonly<Record<FishLogEntry['what'], string>> = {
  stocked: 'stock',
  moved: 'move',
  sold: 'sell',
  died: 'take out',
  counted: 'count',
  weighed: 'weigh',
};

/** What a planned row of the Fish log asks for. */
function fishTask({ units }: Pick<Farm, 'units'>, row: FishLogEntry): string {
  const { what, tank, toTank, fish, weight } = row;
  const { unit } = shownIn('fishWeight', units);
  const each =
    weight === undefined
      ? ''
      : ` of ${Number(toShown(weight, 'fishWeight', units).toPrecision(3))} ${unit}`;
  const many = fish === undefined ? 'the fish' : `${fish} fish`;
  if (what === 'stocked') return `stock ${tank} with ${many}${each}`;
  if (what === 'moved') return `move ${many}${each} from ${tank} to ${toTank ?? '?'}`;
  if (what === 'sold' || what === 'died') return `${words[what]} ${many}${each} of ${tank}`;
  return `${words[what]} the fish of ${tank}`;
}

function fishTasks(farm: Farm): ComingTask[] {
  return farm.fishLog.flatMap((row): ComingTask[] => {
    if (row.planned !== 'planned') return [];
    const handled = row.what === 'moved' || row.what === 'sold';
    return [
      ...(handled
        ? [{ day: row.date - 1, what: 'fish' as const, says: `${row.tank}: no feed today` }]
        : []),
      { day: row.date, what: 'fish', says: fishTask(farm, row) },
    ];
  });
}

function bedTasks(farm: Farm): { tasks: ComingTask[]; notes: readonly string[] } {
  const { inBeds, notes } = standingPlantings(farm, firstMonday(farm), airMeans(farm));
  const tasks = inBeds.flatMap(({ crop, bed, plants, batch, planned }): ComingTask[] => {
    const task = (day: number, says: string): ComingTask => ({ day, what: 'beds', says });
    const isPlantedOut = !planned && batch.plantedOut <= farm.asOf;
    const inPlace = crop.start === 'in place';
    return [
      ...(planned && inPlace ? [task(batch.sown, `sow ${crop.name} in ${bed}`)] : []),
      ...(isPlantedOut || inPlace
        ? []
        : [task(batch.plantedOut, `plant ${plants} ${crop.name} out into ${bed}`)]),
    ];
  });
  /** The same work in several beds on one day, as one task. */
  const inBedsOf = (
    day: (batch: Batch) => number,
    says: (crop: string, beds: string) => string,
  ): void => {
    const found = new Map<string, { day: number; crop: string; beds: Set<string> }>();
    for (const { crop, bed, batch } of inBeds) {
      const key = `${day(batch)} ${crop.name}`;
      const work = found.get(key) ?? { day: day(batch), crop: crop.name, beds: new Set<string>() };
      work.beds.add(bed);
      found.set(key, work);
    }
    for (const { day, crop, beds } of found.values()) {
      tasks.push({ day, what: 'beds', says: says(crop, [...beds].join(', ')) });
    }
  };
  inBedsOf(
    ({ firstCut }) => firstCut,
    (crop, beds) => `first cut of ${crop} in ${beds}`,
  );
  inBedsOf(
    ({ cleared }) => cleared,
    (crop, beds) => `last of the ${crop} in ${beds}, cleared by now`,
  );
  const sowings = new Map<string, { day: number; crop: string; plants: number; beds: string[] }>();
  for (const { crop, bed, plants, batch, planned } of inBeds) {
    if (!planned || crop.start === 'in place') continue;
    const key = `${batch.sown} ${crop.name}`;
    const sowing = sowings.get(key) ?? { day: batch.sown, crop: crop.name, plants: 0, beds: [] };
    sowing.plants += plants;
    sowing.beds.push(bed);
    sowings.set(key, sowing);
  }
  for (const { day, crop, plants, beds } of sowings.values()) {
    tasks.push({
      day,
      what: 'beds',
      says: `sow ${crop} for ${plants} plants, to go into ${[...new Set(beds)].join(', ')}`,
    });
  }
  for (const { planned, bed, crop, sown, plants } of farm.plantings) {
    if (planned !== 'planned' || bed !== undefined || sown === undefined) continue;
    const many = plants === undefined ? '' : ` for ${plants} plants`;
    tasks.push({ day: sown, what: 'beds', says: `sow ${crop}${many}, no bed is named yet` });
  }
  return { tasks, notes };
}

/** Tasks that say the same on one day, as one. */
function together(tasks: readonly ComingTask[]): ComingTask[] {
  const seen = new Set<string>();
  return tasks
    .filter(({ day, says }) => {
      const key = `${day} ${says}`;
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    })
    .sort((a, b) => a.day - b.day || (a.what === b.what ? 0 : a.what === 'fish' ? -1 : 1));
}

/** `weeks`: after this one. */
export function comingWork(farm: Farm, weeks = 4): ComingWork {
  const { asOf } = farm;
  const beds = bedTasks(farm);
  const fish = fishTasks(farm);
  const all = together([...fish, ...beds.tasks]);
  const sunday = asOf + 7 - isoWeekday(asOf);
  const waiting = farm.fishLog.flatMap((row): ComingTask[] =>
    row.planned === 'planned' && row.date < asOf
      ? [{ day: row.date, what: 'fish', says: fishTask(farm, row) }]
      : [],
  );
  const waitingBeds = farm.plantings.flatMap(
    ({ planned, crop, bed, planted, sown }): ComingTask[] => {
      const day = sown ?? planted;
      if (planned !== 'planned' || day === undefined || day >= asOf) return [];
      const says = sown === undefined ? `plant out ${crop}` : `sow ${crop}`;
      return [{ day, what: 'beds', says: `${says}${bed === undefined ? '' : `, ${bed}`}` }];
    },
  );
  return {
    waiting: together([...waiting, ...waitingBeds]),
    weeks: Array.from({ length: weeks + 1 }, (_, week) => {
      const from = week === 0 ? asOf : sunday + 1 + WEEK * (week - 1);
      const to = sunday + WEEK * week;
      return { from, to, tasks: all.filter(({ day }) => day >= from && day <= to) };
    }),
    notes: beds.notes.map((note) => `${note.charAt(0).toUpperCase()}${note.slice(1)}.`),
  };
}

/** "2026-04-06 to 2026-04-12" */
export const weekInWords = ({ from, to }: Pick<ComingWeek, 'from' | 'to'>): string =>
  from === to ? isoText(from) : `${isoText(from)} to ${isoText(to)}`;
