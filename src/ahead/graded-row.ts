/**
 * Grading that somebody asks for: the heaviest share of a tank's fish, or all above a size, go to another tank or are
 * sold. It becomes a planned row of the Fish log with the mean weight of those that go, so that what stays weighs what is
 * left of it; the plan sets out from both parts.
 */
import { wrongValue } from '../core/errors';
import { fishLog, type FishRow, type FishTank } from '../core/fish-log';
import { allAbove, MAX_SPREAD, topShare } from '../core/grading';
import { waterOn } from '../core/month-water';
import { isoText } from '../core/serial-date';
import { farmOfPlan } from './fish-plan';
import { PLANNER_REMARK, type PlannedRow } from './fish-moves';
import { type FishWanted, type GroupInTank, handlingWaterOf } from './fish-wanted';

export interface GradingWish {
  readonly tank: string;
  /** Coefficient of variation of the weights, 0 to 0.5. */
  readonly spread: number;
  /** All above this weight, g; the heaviest `top` where it is left out. */
  readonly above?: number;
  /** Share of the fish; a third where it is left out. */
  readonly top?: number;
  /** Sold where it is left out. */
  readonly toTank?: string;
  /** Date serial; the first day before which no feed can be given where it is left out. */
  readonly on?: number;
}

const key = (name: string): string => name.trim().toLowerCase();

/**
 * @param standing what all tanks hold on the day of the plan
 * @param register rows of the Fish log; those still to come count up to the day of the grading
 */
export function gradedRow(
  wish: GradingWish,
  wishes: Omit<FishWanted, 'groups' | 'fixed'>,
  standing: readonly GroupInTank[],
  register: readonly FishRow[],
  others: readonly FishTank[] = [],
): PlannedRow {
  const { asOf, species, water, handlingWater = handlingWaterOf(species) } = wishes;
  const { spread, above, top = 1 / 3, on = asOf + 1 } = wish;
  const farm = farmOfPlan({ ...wishes, groups: [], fixed: { rows: [], others, sold: new Map() } });
  const named = (name: string): FishTank => {
    const tank = farm.tanks.find((candidate) => key(candidate.name) === key(name));
    if (tank === undefined) throw wrongValue(`there is no tank "${name.trim()}" to grade`);
    return tank;
  };
  const tank = named(wish.tank);
  const target = wish.toTank === undefined ? undefined : named(wish.toTank);
  if (target === tank) throw wrongValue(`from ${tank.name} to itself is no move`);
  if (!(on > asOf)) {
    throw wrongValue(
      `fish are graded after the day of the plan, ${isoText(asOf)}; got ${isoText(on)}`,
    );
  }
  if (!(spread > 0 && spread <= MAX_SPREAD)) {
    throw wrongValue(`spread must be a share above 0 and up to ${MAX_SPREAD}; got ${spread}`);
  }
  const degrees = waterOn(water, on);
  if (degrees < handlingWater || degrees > species.facts.handling_high[0]) {
    throw wrongValue(
      `${species.name} are not handled on ${isoText(on)}, in water of ${Number(degrees.toFixed(1))} °C: grade on another day`,
    );
  }
  const began = standing.map(({ tank: name, fish, weight }): FishRow => {
    return { date: asOf, kind: 'stocked', tank: name, fish, weight, lot: `in ${name}` };
  });
  const ahead = register.filter(
    ({ date = 0, planned }) => date > asOf || (planned === true && date === asOf),
  );
  const log = fishLog([...began, ...ahead], farm);
  const state = log.stateOn(on)[farm.tanks.indexOf(tank)];
  if (state === undefined || state.fish === 0) {
    throw wrongValue(`${tank.name} holds no fish on ${isoText(on)}`);
  }
  const { fish, weight } = state;
  const sizes = { fish, weight, spread };
  const { out, outWeight } = above === undefined ? topShare(sizes, top) : allAbove(sizes, above);
  if (out === 0 || out === fish) {
    throw wrongValue(
      `${out === 0 ? 'none' : 'all'} of the ${fish} fish of ${tank.name} would go: they weigh ${Math.round(weight)} g in the mean on ${isoText(on)}`,
    );
  }
  return {
    date: on,
    kind: target === undefined ? 'sold' : 'moved',
    tank: tank.name,
    ...(target && { toTank: target.name }),
    fish: out,
    weight: outWeight,
    expected: outWeight,
    planned: true,
    remark: PLANNER_REMARK,
  };
}
