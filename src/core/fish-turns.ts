/**
 * The tanks of a farm week by week: by the planned rows of the Fish log as long as a tank has rows to come, and by its
 * turns once they are done. No grower keeps fish far beyond their selling weight: where no sale is planned, fish are
 * taken as sold at that weight, and the tank as stocked anew in the week after.
 */
import { feedRate } from './feeding';
import { fishLog, type FishFarm, type FishRow } from './fish-log';
import { grownWeight } from './growth';
import { warmthBetween, waterOn } from './month-water';
import { densityOf } from './stocking';

export interface TankTurns {
  /** g; nothing is sold where it is left out. */
  readonly sellAt?: number | undefined;
  /** Fish that are stocked anew; 0 where none are. */
  readonly head: number;
  /** g, of those stocked anew. */
  readonly startWeight: number;
  /** First week in which an empty tank is stocked; 0: on the day of the plan. */
  readonly first: number;
  /** Water in which fish are sold and stocked, degC: in colder or warmer they wait. */
  readonly handled: readonly [low: number, high: number];
}

export interface TurnWeek {
  readonly tank: string;
  /** 0 is the day of the plan. */
  readonly week: number;
  /** Date serial. */
  readonly day: number;
  readonly fish: number;
  /** Mean weight, g; 0 where the tank is empty. */
  readonly weight: number;
  /** kg/m3; undefined where the tank's volume is not known. */
  readonly density: number | undefined;
  /** g/day at the water of the day. */
  readonly feed: number;
  /** Whether the fish are sold in the week that begins here without a row that says so. */
  readonly soldInTurn: boolean;
}

/**
 * Rows for now and after each of `weeks` weeks; tank after tank within a week.
 * @param turns of each tank, in the order of the farm's tanks
 */
export function tankYear(
  rows: readonly FishRow[],
  farm: FishFarm,
  turns: readonly TankTurns[],
  weeks: number,
): TurnWeek[] {
  const { tanks, water, dailySurvival = 1 } = farm;
  const log = fishLog(rows, farm);
  const byRows = log.weeks(weeks);
  const year: TurnWeek[] = [];
  /** Whether a tank is no longer as its rows left it. */
  const inTurn = tanks.map(() => false);
  byRows.forEach(({ tank, week, day, ...logged }, at) => {
    const k = at % tanks.length;
    const {
      species,
      volume,
      coefficient = species.facts.tgc[0],
    } = tanks[k] as FishFarm['tanks'][0];
    const turn = turns[k] as TankTurns;
    const temperature = waterOn(water, day);
    const handled = temperature >= turn.handled[0] && temperature <= turn.handled[1];
    const before = year[at - tanks.length];
    const rowsDone = (on: number): boolean => on >= (log.lastChange[k] as number);

    let { fish, weight } = logged;
    if (before === undefined) {
      if (fish === 0 && rowsDone(day) && turn.first === 0 && handled && turn.head > 0) {
        inTurn[k] = true;
        fish = turn.head;
        weight = turn.startWeight;
      }
    } else if (rowsDone(before.day)) {
      if (before.fish === 0 || before.soldInTurn) {
        inTurn[k] = true;
        fish = week >= turn.first && handled ? turn.head : 0;
        weight = fish === 0 ? 0 : turn.startWeight;
      } else if (inTurn[k]) {
        const warmth = warmthBetween(species, water, before.day, day);
        fish = Math.round(before.fish * dailySurvival ** (day - before.day));
        weight = fish === 0 ? 0 : grownWeight(before.weight, 1, warmth, coefficient);
      }
    }
    year.push({
      tank,
      week,
      day,
      fish,
      weight,
      density: volume === undefined ? undefined : densityOf(fish, weight, volume),
      feed: fish === 0 ? 0 : fish * weight * feedRate(species, weight, temperature, coefficient),
      soldInTurn:
        rowsDone(day) && fish > 0 && turn.sellAt !== undefined && weight >= turn.sellAt && handled,
    });
  });
  return year;
}
