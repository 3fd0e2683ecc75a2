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
  const shift = wanted.fixed?.rows.length ?? wanted.groups.length;
  const daily = expectedSurvival(wanted);
  const named = (tank: string): boolean =>
    plan.reasons.some((reason) => reason.startsWith(`${tank} is`));

  // The ledger: fish of each tank, and the day on which they were last whole.
  const { fixed } = wanted;
  const tanks = [...wanted.tanks, ...(fixed?.others ?? [])];
  const ledger = new Map(tanks.map(({ name }) => [name, { fish: 0, day: wanted.asOf }]));
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
  let came = 0;
  let sold = 0;
  if (fixed === undefined) {
    for (const { tank, fish } of wanted.groups) {
      ledger.set(tank, { fish, day: wanted.asOf });
      came += fish;
    }
  }
  // Typed rows are done as they stand, each before the planner's of its day.
  const typed = [...(fixed?.rows ?? [])].sort((a, b) => (a.date ?? 0) - (b.date ?? 0));
  const until = new Map<string, number>();
  for (const { tank, toTank, date = 0 } of typed) {
    for (const name of [tank, toTank]) if (name !== undefined) until.set(name, date);
  }
  const doTyped = (day: number): void => {
    while (typed[0] !== undefined && (typed[0].date as number) <= day) {
      const { kind, tank, toTank, fish, date = 0 } = typed.shift() as (typeof typed)[number];
      const held = on(tank as string, date);
      const count = kind === 'stocked' ? (fish as number) : Math.min(fish ?? held.fish, held.fish);
      if (kind === 'stocked') {
        held.fish += count;
        came += count;
      } else {
        held.fish -= count;
        if (kind === 'sold') sold += count;
        else on(toTank as string, date).fish += count;
      }
    }
  };
  let before = 0;
  const { minMove = 1, maxMove = Infinity } = wanted;
  const cold = wanted.handlingWater ?? handlingWaterOf(wanted.species);
  rows.forEach((row, at) => {
    const say = (what: string): number =>
      faults.push(`row ${at + 1} (${isoText(row.date)} ${row.kind} ${row.tank}): ${what}`);
    if (row.date < before) say('is out of order');
    before = row.date;
    if (row.date <= wanted.asOf) say('leaves no day without feed before it');
    doTyped(row.date);
    for (const name of [row.tank, row.toTank]) {
      const last = name === undefined ? undefined : until.get(name);
      if (last !== undefined && last > wanted.asOf && row.date <= last) {
        say(`handles ${name} before the rows typed for it are done`);
      }
    }
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
  doTyped(last);
  const alive = tanks.reduce((sum, { name }) => sum + on(name, last).fish, 0);
  if (came !== sold + dead + alive) faults.push(`${came} came, ${sold} + ${dead} + ${alive} went`);

  for (let day = wanted.asOf; day <= last; day++) {
    log.stateOn(day).forEach((state, at) => {
      const tank = wanted.tanks[at];
      if (tank === undefined) return;
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
