/**
 * The Fish log: what happened to the fish and what is meant to happen, one row an event, typed in any order.
 * From it follows what every tank holds on any day.
 *
 *     const log = fishLog(rows, { tanks, water, asOf, dailySurvival });
 *     log.rows[3]           what became of the fourth row: counted, planned, waiting, impossible and why
 *     log.stateOn(day)      every tank on a day: fish, mean weight, biomass, density, shares of the lots
 *     log.weeks(52)         the same after each week from the day of the plan on, with feed
 *     log.lots              what became of each lot up to the day of the plan
 *
 * What rows mean
 *   stocked  `fish` of `weight` g come into `tank`, as a lot of their own where `lot` is left out.
 *   moved    `fish` go from `tank` to `toTank`, at the tank's mean weight; with `weight` they were graded and
 *            weigh that. What stays weighs (N w - n w_out)/(N - n), so that no kilogram is made or lost.
 *   sold     leave the tank; a weight means what it means for moved.
 *   died     leave the tank at its mean weight.
 *   counted  the tank holds exactly `fish`; with `weight` they were weighed as well.
 *   weighed  the tank's mean weight is `weight`; `fish`, if given, is how many were weighed.
 *
 * Rows count in the order of their dates, on one day in the order in which they stand. A row takes place at the
 * start of its day; between rows fish grow in the water of each month. A weighing replaces what was reckoned.
 *
 * Records are the rows without the planned mark up to the day of the plan, that day included. No deaths are
 * assumed among them: those that died are written down. Later rows and planned rows from the day of the
 * plan on are the forecast, in which fish die at the expected rate and stay whole numbers: at each row the
 * survivors are rounded to the head. Planned rows may leave out `fish` where all are meant and a weight or a
 * count that is not known yet. Where fewer fish are left than a planned row asks for, those few go and the
 * row says so. Planned rows from before the day of the plan wait for an answer and count nowhere.
 *
 * An impossible row counts nothing and says why; later rows of its tanks say that they rest on it, until
 * the tank is counted.
 */
import { wrongValue } from './errors';
import { feedRate } from './feeding';
import {
  biomassOf,
  type Group,
  mergeGroups,
  lotsInWords,
  type LotShares,
  noFish,
  splitGroup,
  withCount,
} from './groups';
import { grownWeight } from './growth';
import { type MonthWater, warmthBetween, waterOn } from './month-water';
import { nearestName } from './nearest-name';
import { isoText, MAX_SERIAL, MIN_SERIAL } from './serial-date';
import { densityOf } from './stocking';
import type { Species } from './tables/species';

export const fishEvents = ['stocked', 'moved', 'sold', 'died', 'counted', 'weighed'] as const;
export type FishEvent = (typeof fishEvents)[number];

export interface FishRow {
  /** Date serial. */
  readonly date?: number | undefined;
  /** One of `fishEvents`; case and spaces around it do not matter. */
  readonly kind?: string | undefined;
  readonly tank?: string | undefined;
  /** For moved rows. */
  readonly toTank?: string | undefined;
  readonly fish?: number | undefined;
  /** Mean weight, g. */
  readonly weight?: number | undefined;
  readonly lot?: string | undefined;
  readonly planned?: boolean | undefined;
  readonly remark?: string | undefined;
}

export interface FishTank {
  readonly name: string;
  readonly species: Species;
  /** L; without it there is no density. */
  readonly volume?: number | undefined;
  /** Own growth coefficient (x1000) in place of the species'. */
  readonly coefficient?: number | undefined;
}

export interface FishFarm {
  readonly tanks: readonly FishTank[];
  readonly water: MonthWater;
  /** Day of the plan, date serial. */
  readonly asOf: number;
  /** Share of the fish alive from one day to the next in the forecast; 1 where none are expected to die. */
  readonly dailySurvival?: number | undefined;
}

export interface TankState {
  readonly tank: string;
  readonly fish: number;
  /** Mean weight, g; 0 where the tank is empty. */
  readonly weight: number;
  /** kg */
  readonly biomass: number;
  /** kg/m3; undefined where the tank's volume is not known. */
  readonly density: number | undefined;
  readonly lots: LotShares;
  /** The lots in words, in the order in which they came; empty where there are no fish. */
  readonly lot: string;
  /** Day on which the first of its fish came into the empty tank. */
  readonly since: number | undefined;
  /** Day of the last weighing since then. */
  readonly weighed: number | undefined;
}

export interface TankWeek extends TankState {
  /** 0 is the day of the plan, by the records alone. */
  readonly week: number;
  readonly day: number;
  /** g/day for the tank, at the water of the day. */
  readonly feed: number;
}

/** blank: nothing typed; waiting: planned for a day before the day of the plan, not answered yet. */
export type RowStatus = 'blank' | 'done' | 'planned' | 'waiting' | 'impossible';

export interface RowOutcome {
  readonly status: RowStatus;
  /** Why the row is impossible, in a sentence. */
  readonly problem?: string;
  /** What is possible but should be looked at. */
  readonly doubt?: string;
  /** Place in `rows` of the impossible row that this one rests on. */
  readonly restsOn?: number;
  /** Fish that came, went, were counted or weighed, and their mean weight in g. */
  readonly fish?: number;
  readonly weight?: number;
  /** After the row. */
  readonly tank?: TankState;
  readonly toTank?: TankState;
}

export interface LotAccount {
  readonly lot: string;
  /** Numbers of fish; parts of fish where lots are mixed. */
  readonly stocked: number;
  readonly sold: number;
  readonly died: number;
  /** Fewer (above 0) or more (below 0) by counts than the log had. */
  readonly missing: number;
  readonly alive: number;
  /** kg */
  readonly stockedMass: number;
  readonly soldMass: number;
}

export interface FishLog {
  /** One for each row given, in their order. */
  readonly rows: readonly RowOutcome[];
  /** Every tank, in the order given; up to the day of the plan by the records, later by the forecast. */
  stateOn(day: number): TankState[];
  /** What each tank's fish take on a day, g: in the water of that day, and in the best water. */
  feedOn(day: number): { readonly daily: number; readonly most: number }[];
  /** Rows of all tanks for now and after each of `weeks` weeks; tank after tank within a week. */
  weeks(weeks: number): TankWeek[];
  /** Day of the last row to come that changes each tank, in the order given; the day of the plan where there is none. */
  readonly lastChange: readonly number[];
  readonly lots: readonly LotAccount[];
}

/** What a tank holds from a day on, until the next mark. */
interface Mark {
  readonly day: number;
  readonly group: Group;
  readonly lot: string;
  readonly since: number | undefined;
  readonly weighed: number | undefined;
}

interface OpenTank {
  readonly tank: FishTank;
  readonly coefficient: number;
  readonly marks: Mark[];
  /** How many of the marks are the records'; those behind them are the forecast's. */
  records: number;
  /** Place of the impossible row that what the tank holds rests on. */
  restsOn: number | undefined;
}

type Tally = { -readonly [K in keyof Omit<LotAccount, 'lot' | 'alive'>]: number };
type MutableOutcome = { -readonly [K in keyof RowOutcome]: RowOutcome[K] };

const tankKey = (name: string): string => name.trim().toLowerCase();
const isWhole = (value: number): boolean => Number.isInteger(value) && value >= 0;
const fishWord = (count: number): string => (count === 1 ? '1 fish' : `${count} fish`);
const isBlank = (row: FishRow): boolean =>
  [row.date, row.kind, row.tank, row.toTank, row.fish, row.weight].every(
    (value) => value === undefined || value === '',
  );

/** Stops the reading of a row; the sentence says why it is impossible. */
class Impossible extends Error {}

const emptyTally = (): Tally => ({
  stocked: 0,
  sold: 0,
  died: 0,
  missing: 0,
  stockedMass: 0,
  soldMass: 0,
});

/** Reads a log. Throws where two tanks have one name, or a month's water is missing. */
export function fishLog(rows: readonly FishRow[], farm: FishFarm): FishLog {
  const { water, asOf, dailySurvival = 1 } = farm;
  if (water.length !== 12) throw wrongValue(`water takes 12 months; got ${water.length}`);
  const tanks = new Map<string, OpenTank>();
  for (const tank of farm.tanks) {
    const key = tankKey(tank.name);
    if (tanks.has(key))
      throw wrongValue(`two tanks are called "${tank.name}"; give each its own name`);
    const coefficient = tank.coefficient ?? tank.species.facts.tgc[0];
    tanks.set(key, { tank, coefficient, marks: [], records: Infinity, restsOn: undefined });
  }
  const tallies = new Map<string, Tally>();
  const outcomes: MutableOutcome[] = rows.map(() => ({ status: 'blank' }));

  /**
   * A tank on a day by its last mark, in the forecast (`ahead`) or in the records alone: grown, and in the
   * forecast with the deaths expected.
   */
  const markOn = (open: OpenTank, day: number, ahead: boolean): Mark => {
    const { marks, records } = open;
    let last = (ahead ? marks.length : Math.min(records, marks.length)) - 1;
    while (last >= 0 && (marks[last] as Mark).day > day) last--;
    const mark = marks[last];
    if (mark === undefined)
      return { day, group: noFish, lot: '', since: undefined, weighed: undefined };
    const { group } = mark;
    if (group.fish === 0 || day === mark.day) return { ...mark, day };
    const warmth = warmthBetween(open.tank.species, water, mark.day, day);
    // Warmth is a sum over the days, so that it stands for one of them.
    const weight = grownWeight(group.weight, 1, warmth, open.coefficient);
    const fish = ahead ? Math.round(group.fish * dailySurvival ** (day - mark.day)) : group.fish;
    return { ...mark, day, group: withCount({ ...group, weight }, fish) };
  };

  const stateOf = (open: OpenTank, { group, lot, since, weighed }: Mark): TankState => {
    const { tank } = open;
    return {
      tank: tank.name,
      ...group,
      biomass: biomassOf(group),
      density:
        tank.volume === undefined ? undefined : densityOf(group.fish, group.weight, tank.volume),
      lot,
      since,
      weighed,
    };
  };

  const tally = (group: Group, what: (of: Tally, fish: number) => void): void => {
    for (const [lot, share] of group.lots) {
      let of = tallies.get(lot);
      if (of === undefined) tallies.set(lot, (of = emptyTally()));
      what(of, share * group.fish);
    }
  };

  function tankNamed(name: string | undefined, heading: string): OpenTank {
    if (name === undefined || name.trim() === '') {
      throw new Impossible(`name ${heading}`);
    }
    const open = tanks.get(tankKey(name));
    if (open !== undefined) return open;
    const near = nearestName(
      name,
      farm.tanks.map((tank) => tank.name),
    );
    throw new Impossible(`there is no tank "${name.trim()}"; the nearest name is "${near}"`);
  }

  const positiveWeight = (weight: number | undefined): number => {
    if (weight === undefined) throw new Impossible('type the mean weight');
    if (!(weight > 0 && Number.isFinite(weight))) {
      throw new Impossible(`the mean weight must be above 0; got ${weight}`);
    }
    return weight;
  };

  const wholeFish = (fish: number | undefined): number => {
    if (fish === undefined) throw new Impossible('type how many fish');
    if (!isWhole(fish)) throw new Impossible(`fish are whole numbers from 0; got ${fish}`);
    return fish;
  };

  /** Carries out one row. `ahead`: a row of the forecast. */
  function carryOut(place: number, row: FishRow, day: number, ahead: boolean): void {
    const outcome = outcomes[place] as MutableOutcome;
    const open = tankNamed(row.tank, 'the tank');
    const kind = row.kind?.trim().toLowerCase() as FishEvent | undefined;
    const target = kind === 'moved' ? tankNamed(row.toTank, 'the tank that they go to') : undefined;
    if (kind === undefined || !fishEvents.includes(kind)) {
      throw new Impossible(
        row.kind === undefined || row.kind.trim() === ''
          ? `say what happened: ${fishEvents.join(', ')}`
          : `"${row.kind.trim()}" is none of ${fishEvents.join(', ')}`,
      );
    }
    if (target === open) throw new Impossible(`from ${open.tank.name} to itself is no move`);
    const rests = open.restsOn;
    if (rests !== undefined) outcome.restsOn = rests;

    const before = markOn(open, day, ahead);
    const { group } = before;
    const here = open.tank.name;
    const put = (tank: OpenTank, mark: Omit<Mark, 'day'>): TankState => {
      const now = { ...mark, day };
      if (now.group.fish === 0)
        Object.assign(now, { lot: '', since: undefined, weighed: undefined });
      // The later of two marks of one day holds from that day on.
      tank.marks.push(now);
      if (now.group.fish === 0) tank.restsOn = undefined;
      return stateOf(tank, now);
    };

    if (kind === 'stocked') {
      const fish = wholeFish(row.fish);
      if (fish === 0) throw new Impossible('type how many fish came');
      const weight = positiveWeight(row.weight);
      const lot = row.lot?.trim() || `${isoText(day)} ${here}`;
      const came: Group = { fish, weight, lots: new Map([[lot, 1]]) };
      outcome.fish = fish;
      outcome.weight = weight;
      outcome.tank = put(open, {
        group: mergeGroups(group, came),
        lot: lotsInWords(before.lot, lot),
        since: before.since ?? day,
        weighed: before.weighed,
      });
      if (!ahead) {
        tally(came, (of) => {
          of.stocked += fish;
          of.stockedMass += biomassOf(came);
        });
      }
      return;
    }

    if (group.fish === 0 && !(kind === 'counted' && row.fish === 0)) {
      const first = open.marks.find((mark) => mark.group.fish > 0);
      throw new Impossible(
        first === undefined
          ? `${here} holds no fish on ${isoText(day)}: write down first where they came from, as stocked or moved`
          : `${here} holds no fish on ${isoText(day)}`,
      );
    }

    if (kind === 'weighed') {
      if (row.weight === undefined && ahead) {
        outcome.tank = stateOf(open, before);
        return;
      }
      const weight = positiveWeight(row.weight);
      // A blank cell may arrive as 0.
      const sample = row.fish ? wholeFish(row.fish) : undefined;
      if (sample !== undefined && sample > group.fish) {
        throw new Impossible(`${here} holds ${fishWord(group.fish)}; ${sample} cannot be weighed`);
      }
      outcome.fish = sample ?? group.fish;
      outcome.weight = weight;
      outcome.tank = put(open, { ...before, group: { ...group, weight }, weighed: day });
      return;
    }

    if (kind === 'counted') {
      if (row.fish === undefined && ahead) {
        outcome.tank = stateOf(open, before);
        return;
      }
      const fish = wholeFish(row.fish);
      const weight = row.weight === undefined ? group.weight : positiveWeight(row.weight);
      open.restsOn = undefined;
      outcome.fish = fish;
      outcome.weight = weight;
      if (!ahead) {
        const gone = group.fish - fish;
        tally(group, (of, part) => (of.missing += (part * gone) / group.fish));
      }
      outcome.tank = put(open, {
        group: withCount({ ...group, weight }, fish),
        lot: before.lot,
        since: before.since,
        weighed: row.weight === undefined ? before.weighed : day,
      });
      return;
    }

    const named = row.lot?.trim() ?? '';
    if (named !== '' && ![...group.lots.keys()].some((lot) => tankKey(lot) === tankKey(named)))
      outcome.doubt = `${here} holds no fish of lot "${named}" on ${isoText(day)}; its fish are of ${before.lot}, and those went`;

    let fish = row.fish === undefined && ahead ? group.fish : wholeFish(row.fish);
    if (fish === 0) throw new Impossible(`type how many fish ${kind === 'died' ? 'died' : 'left'}`);
    if (fish > group.fish) {
      const short = `${here} holds ${fishWord(group.fish)} on ${isoText(day)}; ${fish} cannot leave it`;
      if (!ahead) throw new Impossible(short);
      outcome.doubt = `${short}, so that all of them go: plan again`;
      fish = group.fish;
    }
    const graded = kind !== 'died' && row.weight !== undefined;
    const { left, out } = splitGroup(
      group,
      fish,
      graded ? positiveWeight(row.weight) : group.weight,
    );
    if (left.fish > 0 && !(left.weight > 0)) {
      throw new Impossible(
        `${fishWord(fish)} of ${row.weight} g are more than all ${group.fish} weigh (${Number(group.weight.toPrecision(4))} g each): weigh the tank first`,
      );
    }
    if (left.fish > 0 && left.weight < group.weight / 2) {
      outcome.doubt = `those that stay would weigh ${Number(left.weight.toPrecision(3))} g, less than half of what the tank's fish weighed before: weigh them`;
    }
    outcome.fish = fish;
    outcome.weight = out.weight;
    if (kind !== 'moved' && !ahead) {
      tally(out, (of, part) => {
        if (kind === 'died') of.died += part;
        else {
          of.sold += part;
          of.soldMass += (part * out.weight) / 1000;
        }
      });
    }
    if (target !== undefined) {
      // Before the tank is emptied, which would lift the doubt about its fish.
      target.restsOn ??= rests;
      if (target.restsOn !== undefined) outcome.restsOn = target.restsOn;
      const there = markOn(target, day, ahead);
      outcome.toTank = put(target, {
        group: mergeGroups(there.group, out),
        lot: lotsInWords(there.lot, before.lot),
        since: there.since ?? day,
        weighed: there.weighed,
      });
    }
    outcome.tank = put(open, { ...before, group: left });
  }

  function play(place: number, row: FishRow, day: number, ahead: boolean): void {
    const outcome = outcomes[place] as MutableOutcome;
    outcome.status = ahead ? 'planned' : 'done';
    try {
      carryOut(place, row, day, ahead);
    } catch (thrown) {
      if (!(thrown instanceof Impossible)) throw thrown;
      outcome.status = 'impossible';
      outcome.problem = thrown.message;
      for (const name of [row.tank, row.toTank]) {
        const open = name === undefined ? undefined : tanks.get(tankKey(name));
        if (open !== undefined) open.restsOn ??= place;
      }
    }
  }

  const records: number[] = [];
  const ahead: number[] = [];
  rows.forEach((row, place) => {
    const outcome = outcomes[place] as MutableOutcome;
    if (isBlank(row)) return;
    const { date } = row;
    if (date === undefined || !Number.isInteger(date) || date < MIN_SERIAL || date > MAX_SERIAL) {
      outcome.status = 'impossible';
      outcome.problem = date === undefined ? 'type the date' : 'the date is no date';
    } else if (row.planned && date < asOf) outcome.status = 'waiting';
    else if (row.planned || date > asOf) ahead.push(place);
    else records.push(place);
  });
  const dateOf = (place: number): number => (rows[place] as FishRow).date as number;
  const byDate = (a: number, b: number): number => dateOf(a) - dateOf(b) || a - b;
  for (const place of records.sort(byDate)) {
    play(place, rows[place] as FishRow, dateOf(place), false);
  }
  for (const open of tanks.values()) {
    open.records = open.marks.length;
    // The forecast sets out from here.
    open.marks.push(markOn(open, asOf, false));
  }
  const alive = new Map<string, number>();
  for (const open of tanks.values()) {
    const { group } = markOn(open, asOf, false);
    for (const [lot, share] of group.lots) {
      alive.set(lot, (alive.get(lot) ?? 0) + share * group.fish);
    }
  }
  for (const place of ahead.sort(byDate)) {
    play(place, rows[place] as FishRow, dateOf(place), true);
  }

  const feedOf = (open: OpenTank, { fish, weight }: TankState, day: number): number =>
    fish === 0
      ? 0
      : fish * weight * feedRate(open.tank.species, weight, waterOn(water, day), open.coefficient);
  const stateOn = (day: number): TankState[] =>
    [...tanks.values()].map((open) => stateOf(open, markOn(open, day, day > asOf)));
  return {
    rows: outcomes,
    stateOn,
    feedOn: (day) =>
      [...tanks.values()].map((open) => {
        const state = stateOf(open, markOn(open, day, day > asOf));
        const { fish, weight } = state;
        return {
          daily: feedOf(open, state, day),
          most:
            fish === 0
              ? 0
              : fish * weight * feedRate(open.tank.species, weight, undefined, open.coefficient),
        };
      }),
    lastChange: [...tanks.values()].map(({ marks }) => marks.at(-1)?.day ?? asOf),
    weeks: (weeks) =>
      Array.from({ length: weeks + 1 }, (_, week) => {
        const day = asOf + 7 * week;
        return [...tanks.values()].map((open): TankWeek => {
          const state = stateOf(open, markOn(open, day, week > 0));
          return { ...state, week, day, feed: feedOf(open, state, day) };
        });
      }).flat(),
    lots: [...tallies].map(([lot, of]) => ({ lot, ...of, alive: alive.get(lot) ?? 0 })),
  };
}
