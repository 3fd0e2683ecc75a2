import type { FishPlan } from '../../src/ahead/fish-plan';
import { forecastOfPlan } from '../../src/ahead/fish-plan';
import {
  dayOfWeek,
  expectedSurvival,
  type FishWanted,
  handlingWaterOf,
} from '../../src/ahead/fish-wanted';
import { calendarDate, isoText } from '../../src/core/serial-date';

/**
 * What is wrong with a plan, in sentences. Its rows are played through a ledger of its own, to the head, and through the
 * Fish log; both must agree, and no limit be passed on any day. Limits that the plan itself names are let be.
 */
export function planFaults(wanted: FishWanted, plan: FishPlan): string[] {
  const faults: string[] = [];
  const rows = [...plan.rows, ...plan.later];
  const log = forecastOfPlan(wanted, rows);
  const shift = wanted.groups.length;
  const daily = expectedSurvival(wanted);
  const named = (tank: string): boolean =>
    plan.reasons.some((reason) => reason.startsWith(`${tank} is`));

  // The ledger: fish of each tank, and the day on which they were last whole.
  const ledger = new Map(wanted.tanks.map(({ name }) => [name, { fish: 0, day: wanted.asOf }]));
  for (const { tank, fish } of wanted.groups) ledger.set(tank, { fish, day: wanted.asOf });
  let dead = 0;
  const on = (tank: string, day: number) => {
    const held = ledger.get(tank);
    if (held === undefined) throw new Error(`the plan names a tank ${tank} that is not`);
    const alive = Math.round(held.fish * daily ** (day - held.day));
    dead += held.fish - alive;
    held.fish = alive;
    held.day = day;
    return held;
  };
  let came = wanted.groups.reduce((sum, { fish }) => sum + fish, 0);
  let sold = 0;
  let before = 0;
  const { minMove = 1, maxMove = Infinity } = wanted;
  const cold = wanted.handlingWater ?? handlingWaterOf(wanted.species);
  rows.forEach((row, at) => {
    const say = (what: string): number =>
      faults.push(`row ${at + 1} (${isoText(row.date)} ${row.kind} ${row.tank}): ${what}`);
    if (row.date < before) say('is out of order');
    before = row.date;
    if (row.date <= wanted.asOf) say('leaves no day without feed before it');
    if (!Number.isInteger(row.fish) || row.fish < 1) say(`${row.fish} fish`);
    const held = on(row.tank, row.date);
    if (row.kind === 'stocked') {
      if (held.fish !== 0) say(`comes into ${held.fish} fish`);
      held.fish += row.fish;
      came += row.fish;
    } else {
      if (row.fish > held.fish) say(`takes ${row.fish} of ${held.fish} fish`);
      held.fish -= row.fish;
      if (row.kind === 'sold') {
        sold += row.fish;
        if (row.expected < 0.989 * wanted.sellWeight && !row.early)
          say(`sells at ${row.expected} g`);
        if (
          row.early &&
          !plan.reasons.some((reason) => reason.startsWith(`${row.tank}: ${row.fish} fish`))
        ) {
          say('sells early without saying so');
        }
      } else {
        on(row.toTank as string, row.date).fish += row.fish;
        if (row.fish < minMove - 1 || row.fish > maxMove + 1) say(`moves ${row.fish}`);
      }
    }
    if (row.kind !== 'sold') {
      const water = wanted.water[calendarDate(row.date).month - 1] as number;
      if (water < cold) say(`handles fish at ${water} degrees`);
    }
    const outcome = log.rows[shift + at];
    if (outcome?.status !== 'planned')
      say(`the log has it as ${outcome?.status}: ${outcome?.problem}`);
    if (outcome?.doubt !== undefined) say(outcome.doubt);
    if (outcome?.tank?.fish !== held.fish)
      say(`the log has ${outcome?.tank?.fish}, the ledger ${held.fish}`);
    if (row.kind !== 'stocked' && Math.abs((outcome?.weight ?? 0) - row.expected) > 1e-6) {
      say(`weighs ${outcome?.weight} g in the log, ${row.expected} g in the plan`);
    }
  });
  const last = Math.max(before, dayOfWeek(wanted, wanted.weeks));
  const alive = wanted.tanks.reduce((sum, { name }) => sum + on(name, last).fish, 0);
  if (came !== sold + dead + alive) faults.push(`${came} came, ${sold} + ${dead} + ${alive} went`);

  for (let day = wanted.asOf; day <= last; day++) {
    log.stateOn(day).forEach((state, at) => {
      const tank = wanted.tanks[at] as FishWanted['tanks'][number];
      if ((state.density ?? 0) > tank.density + 1e-6 && !named(tank.name)) {
        faults.push(
          `${tank.name} has ${state.density} kg/m3 of ${tank.density} on ${isoText(day)}`,
        );
      }
    });
  }
  if (plan.worth > plan.bound + 1e-6)
    faults.push(`worth ${plan.worth} above the bound ${plan.bound}`);
  if (plan.gap > 0.05 && plan.reasons.length === 0) faults.push(`gap ${plan.gap} without a reason`);
  return faults;
}
