/** What a plan of the fish is asked for, and what it has to go by. */
import { wrongValue } from '../core/errors';
import { dailySurvival, meanDaysToGrow, type MonthWater } from '../core/month-water';
import type { FishRow, FishTank } from '../core/fish-log';
import type { Species } from '../core/tables/species';

export interface PlannedTank {
  readonly name: string;
  /** L */
  readonly volume: number;
  /** Most fish that it may hold, kg/m3. */
  readonly density: number;
  /** Week from which it is the planner's: until then rows of the Fish log say what it holds. 0 where it is left out. */
  readonly freeFrom?: number;
}

/** Fish that are there on the day of the plan, or once rows typed for later days are done. */
export interface GroupInTank {
  readonly tank: string;
  readonly fish: number;
  /** Mean weight, g. */
  readonly weight: number;
  /** Day on which they are so many of that weight, date serial; the day of the plan where it is left out. */
  readonly on?: number;
}

/** Rows of the Fish log for days to come that somebody typed: facts that the plan goes round. */
export interface FixedRows {
  /** What stands in all tanks on the day of the plan, as stockings of that day, and the rows in their order. */
  readonly rows: readonly FishRow[];
  /** Tanks of which rows speak and that are not planned for. */
  readonly others: readonly FishTank[];
  /** kg that they sell by week of the plan. */
  readonly sold: ReadonlyMap<number, number>;
}

export interface FishWanted {
  readonly species: Species;
  /** Growth coefficient, x1000. */
  readonly coefficient: number;
  readonly water: MonthWater;
  /** Day of the plan, date serial; the first day for moves is the next, so that no feed is given today. */
  readonly asOf: number;
  /** Days by which the fish are handled later in each week than could be; 0 where it is left out. */
  readonly shift?: number;
  /** Rows of an earlier plan that are still ahead: what is done otherwise has a price. */
  readonly earlier?: readonly FishRow[];
  /** Weeks in which fish may be stocked. */
  readonly weeks: number;
  /** Tanks to plan for: those of breeders, of quarantine and of other species are not among them. */
  readonly tanks: readonly PlannedTank[];
  readonly groups: readonly GroupInTank[];
  readonly fixed?: FixedRows;
  /** To be sold, kg a month. */
  readonly kgMonth: number;
  /** g */
  readonly startWeight: number;
  /** Fish are sold from this weight on, g ... */
  readonly sellWeight: number;
  /** ... and up to this one; a quarter more where it is left out. */
  readonly heaviest?: number;
  /** Share of those stocked that is alive at the selling weight. */
  readonly survival: number;
  /** Fewest and most fish that are moved from one tank to another at a time. */
  readonly minMove?: number;
  readonly maxMove?: number;
  /** No fish are stocked or moved in colder water, degC; the species' figure where it is left out. */
  readonly handlingWater?: number;
  /** A tank is sold in one go, not part by part. */
  readonly wholeTanks?: boolean;
  /** Most times that a batch is moved between stocking and sale: 0, 1 or 2; 2 where it is left out. */
  readonly moves?: number;
}

/** Tanks of one size: alike for the planner. */
export interface TankClass {
  /** kg that each of them may hold. */
  readonly capacity: number;
  readonly tanks: readonly PlannedTank[];
}

/** kg that a tank may hold. */
export const capacityOf = ({ volume, density }: PlannedTank): number => (volume * density) / 1000;

/** Tanks by size, smallest first. */
export function tankClasses(tanks: readonly PlannedTank[]): TankClass[] {
  const classes = new Map<number, PlannedTank[]>();
  for (const tank of tanks) {
    const capacity = capacityOf(tank);
    const alike = classes.get(capacity);
    if (alike === undefined) classes.set(capacity, [tank]);
    else alike.push(tank);
  }
  return [...classes]
    .map(([capacity, alike]) => ({ capacity, tanks: alike }))
    .sort((a, b) => a.capacity - b.capacity);
}

/** Coldest water in which fish are handled, degC. */
export const handlingWaterOf = ({ facts }: Species): number => facts.handling_low[0];

/** Share alive from one day to the next, as the plan and the forecast expect it. */
export const expectedSurvival = (wanted: FishWanted): number =>
  dailySurvival(
    wanted.survival,
    meanDaysToGrow(wanted.species, wanted.water, wanted.coefficient, {
      from: wanted.startWeight,
      to: wanted.sellWeight,
    }),
  );

export const heaviestOf = ({ heaviest, sellWeight }: FishWanted): number =>
  heaviest ?? 1.25 * sellWeight;

/** Day on which the fish are handled in a week of the plan, date serial. */
export const dayOfWeek = (
  { asOf, shift = 0 }: Pick<FishWanted, 'asOf' | 'shift'>,
  week: number,
): number => asOf + 1 + shift + 7 * week;

/** First week in which what is as it is on `day` can be handled, so that a day without feed goes before. */
export const firstWeekAfter = (
  { asOf, shift = 0 }: Pick<FishWanted, 'asOf' | 'shift'>,
  day: number,
): number => Math.max(0, Math.ceil((day - asOf - shift) / 7));

/** Tanks of a size that are the planner's in a week. */
export const tanksIn = ({ tanks }: TankClass, week: number): number =>
  tanks.reduce((sum, { freeFrom = 0 }) => sum + (freeFrom <= week ? 1 : 0), 0);

/** Throws with a sentence where the figures contradict each other. */
export function checkWanted(wanted: FishWanted): void {
  const { startWeight, sellWeight, minMove = 1, maxMove = Infinity, survival } = wanted;
  if (wanted.tanks.length === 0) {
    throw wrongValue('there is no tank to plan for: all of them are left out');
  }
  if (!(startWeight < sellWeight)) {
    throw wrongValue(
      `fish are stocked lighter than they are sold; got ${startWeight} g and ${sellWeight} g`,
    );
  }
  if (!(heaviestOf(wanted) >= sellWeight)) {
    throw wrongValue(
      `the heaviest fish sold weigh at least the ${sellWeight} g of the selling weight; got ${wanted.heaviest} g`,
    );
  }
  if (!(minMove <= maxMove)) {
    throw wrongValue(
      `the fewest fish of a move are no more than the most; got ${minMove} and ${maxMove}`,
    );
  }
  if (!(survival > 0 && survival <= 1)) {
    throw wrongValue(`survival must be above 0 and up to 1; got ${survival}`);
  }
  if (!(wanted.kgMonth > 0)) throw wrongValue(`kg a month must be above 0; got ${wanted.kgMonth}`);
  const names = new Set(wanted.tanks.map(({ name }) => name));
  const stray = wanted.groups.find(({ tank }) => !names.has(tank));
  if (stray) throw wrongValue(`fish stand in "${stray.tank}", which is none of the planned tanks`);
}
