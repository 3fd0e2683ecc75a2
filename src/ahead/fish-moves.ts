/**
 * From chosen courses to rows of the Fish log: batches get tanks and whole fish, counted as the forecast of the
 * Fish log counts them.
 */
import type { FishRow } from '../core/fish-log';
import { FISH_REMARK } from '../core/planner-remarks';
import { isoText } from '../core/serial-date';
import { keptNear, OTHER_SIZE } from './earlier-fish';
import { type Course, type FishCourses, occupied, type Stage } from './fish-courses';
import { kgSold, SalesRows, type ChosenCourse } from './fish-program';
import { dayOfWeek, expectedSurvival, type FishWanted } from './fish-wanted';
import { LinearModel, type Solver } from './solver';

/** Rows that the planner wrote bear this remark, so that it finds them again. */
export const PLANNER_REMARK = FISH_REMARK;

/** A batch or a group on its way. */
export interface Batch {
  readonly course: Course;
  /** Fish to set out with. */
  fish: number;
}

export interface PlannedRow extends FishRow {
  readonly date: number;
  readonly kind: 'stocked' | 'moved' | 'sold';
  readonly tank: string;
  readonly fish: number;
  readonly planned: true;
  /** Mean weight that is expected, g; only fish to be stocked have it as a fact of the row. */
  readonly expected: number;
  /** Sold below the selling weight, since there is no room for them. */
  readonly early?: true;
}

/** A tank of a size, held by a batch for a time. */
interface Slot {
  readonly batch: number;
  readonly size: number;
  readonly from: number;
  to: number;
  tank: string | undefined;
}

/** Fish of each batch that sell most evenly, whole and within what its course allows. */
export function setOut(
  courses: FishCourses,
  wanted: FishWanted,
  chosen: readonly ChosenCourse[],
  solve: Solver,
): Batch[] {
  /** Fish that an earlier plan had in its place. */
  const planned = ({ origin, stages: [first] }: Course): number | undefined =>
    'group' in origin ? undefined : courses.earlier.stocked(origin.stocked, first?.size ?? -1);
  const each = chosen.flatMap(({ course, times }) => Array.from({ length: times }, () => course));
  const model = new LinearModel();
  const rows = new SalesRows(model, courses, wanted);
  const fish = each.map((course) => {
    const variable = model.variable({ min: course.minFish, max: course.maxFish });
    const sold = kgSold(courses, course);
    for (const [week, kg] of sold) rows.sold(variable, week, kg);
    const was = planned(course);
    if (was !== undefined) {
      const cost = OTHER_SIZE * sold.reduce((sum, [, kg]) => sum + kg, 0);
      const [more, fewer] = [model.variable({ cost }), model.variable({ cost })];
      model.row(
        [
          [variable, 1],
          [more, -1],
          [fewer, 1],
        ],
        { min: was, max: was },
      );
    }
    return variable;
  });
  rows.close();
  const { values } = solve(model);
  return each.map((course, at) => {
    const { origin, minFish, maxFish } = course;
    if ('group' in origin) {
      return { course, fish: wanted.groups[origin.group]?.fish as number };
    }
    const best = Math.floor((values?.[fish[at] as number] ?? maxFish) + 1e-6);
    return { course, fish: keptNear(planned(course), best, { least: minFish, most: maxFish }) };
  });
}

/** What a plan is worth, kg: see fish-program.ts. `sold`: kg by week. */
export function worthOf(
  courses: FishCourses,
  wanted: FishWanted,
  sold: ReadonlyMap<number, number>,
  cost: number,
  solve: Solver,
): number {
  const model = new LinearModel();
  const rows = new SalesRows(model, courses, wanted);
  for (const [week, kg] of sold) rows.sold(model.variable({ min: 1, max: 1 }), week, kg);
  rows.close();
  const { objective } = solve(model);
  return objective === undefined ? -Infinity : -objective - cost;
}

/** The tanks that a batch holds one after another: for each stage, the slots of its tanks. */
function slotsOf(batch: number, course: Course): Slot[][] {
  const { stages, sales } = course;
  const byStage: Slot[][] = [];
  stages.forEach(({ size, tanks, from, to }: Stage, at) => {
    const before = at === 0 ? [] : (byStage[at - 1] as Slot[]);
    const staying = before[0]?.size === size ? before : [];
    byStage.push(
      Array.from({ length: tanks }, (_, place) => {
        const slot = staying[place];
        if (slot === undefined) return { batch, size, from, to, tank: undefined };
        slot.to = to;
        return slot;
      }),
    );
  });
  const last = byStage[byStage.length - 1] as Slot[];
  // They are sold out in their order.
  last.forEach((slot, place) => {
    slot.to = sales.find(({ tanksLeft }) => last.length - tanksLeft > place)?.week ?? slot.to;
  });
  return byStage;
}

/** Gives every slot a tank of its size that is free. */
function assign(
  courses: FishCourses,
  wanted: FishWanted,
  batches: readonly Batch[],
  slots: Slot[][][],
): void {
  const free = new Map(wanted.tanks.map(({ name, freeFrom = -1 }) => [name, freeFrom]));
  slots.forEach((stages, at) => {
    const { origin } = (batches[at] as Batch).course;
    if (!('group' in origin)) return;
    const home = (stages[0] as Slot[])[0] as Slot;
    home.tank = wanted.groups[origin.group]?.tank as string;
    free.set(home.tank, home.to);
  });
  const open = [...new Set(slots.flat(2))]
    .filter(({ tank }) => tank === undefined)
    .sort((a, b) => a.from - b.from || a.to - b.to);
  for (const slot of open) {
    const alike = (courses.classes[slot.size] as (typeof courses.classes)[number]).tanks;
    const at = ({ name }: { name: string }): number => free.get(name) ?? -1;
    const [first, ...others] = alike.filter((tank) => at(tank) <= slot.from);
    if (first === undefined)
      throw new Error(`no tank of size ${slot.size} is free in week ${slot.from}`);
    // The one that an earlier plan named, or that has stood empty longest.
    const { name } =
      [first, ...others].find((tank) => courses.earlier.into(slot.from, tank.name)) ??
      others.reduce((best, tank) => (at(tank) < at(best) ? tank : best), first);
    slot.tank = name;
    free.set(name, slot.to);
  }
}

interface Held {
  fish: number;
  day: number;
}

/** The rows of one batch by week, its fish counted to the head, and the most kg of any tank above its limit. */
function played(
  courses: FishCourses,
  wanted: FishWanted,
  { course, fish }: Batch,
  stages: readonly (readonly Slot[])[],
): { readonly rows: { week: number; row: PlannedRow }[]; readonly over: number } {
  const daily = expectedSurvival(wanted);
  const life = courses.lifeOf(course.origin);
  const rows: { week: number; row: PlannedRow }[] = [];
  const held = new Map<Slot, Held>();
  let over = 0;
  const grown = (week: number): number => life.weight[week] as number;
  const headsOn = (slot: Slot, week: number): number => {
    const now = held.get(slot);
    return now === undefined
      ? 0
      : Math.round(now.fish * daily ** (dayOfWeek(wanted, week) - now.day));
  };
  const look = (slot: Slot, from: number, to: number): void => {
    const { capacity } = courses.classes[slot.size] as (typeof courses.classes)[number];
    for (let week = from + 1; week <= to; week++) {
      over = Math.max(over, (headsOn(slot, week) * grown(week)) / 1000 - capacity);
    }
  };
  const put = (slot: Slot, week: number, count: number): void => {
    if (count === 0) held.delete(slot);
    else held.set(slot, { fish: count, day: dayOfWeek(wanted, week) });
  };
  const write = (
    week: number,
    row: Omit<PlannedRow, 'date' | 'planned' | 'remark' | 'expected'>,
  ): void => {
    if (row.fish === 0) return;
    rows.push({
      week,
      row: {
        ...row,
        date: dayOfWeek(wanted, week),
        planned: true,
        remark: PLANNER_REMARK,
        expected: grown(week),
      },
    });
  };

  const first = stages[0] as readonly Slot[];
  if ('group' in course.origin) {
    const { on = wanted.asOf } = wanted.groups[course.origin.group] as FishWanted['groups'][number];
    held.set(first[0] as Slot, { fish, day: on });
  } else {
    // Not the day alone: a spreadsheet takes that for a date.
    const lot = `stocked ${isoText(dayOfWeek(wanted, course.origin.stocked))}`;
    first.forEach((slot, place) => {
      const count = Math.floor((fish + first.length - 1 - place) / first.length);
      put(slot, slot.from, count);
      write(slot.from, {
        kind: 'stocked',
        tank: slot.tank as string,
        fish: count,
        weight: wanted.startWeight,
        lot,
      });
    });
  }
  // Fish without room leave before the others are moved, or in the midst of the first stage.
  const thin = (slot: Slot): void => {
    const { thinned } = course;
    if (thinned === undefined) return;
    const there = headsOn(slot, thinned.week);
    const stay = Math.floor(course.maxFish * (life.alive[thinned.week] as number) + 1e-9);
    const out = Math.max(0, there - stay);
    const early = grown(thinned.week) < 0.99 * wanted.sellWeight;
    write(thinned.week, {
      kind: 'sold',
      tank: slot.tank as string,
      fish: out,
      ...(early && { early }),
    });
    look(slot, life.first, thinned.week);
    put(slot, thinned.week, there - out);
  };
  if (course.thinned !== undefined) thin(first[0] as Slot);
  course.stages.forEach(({ from, to }, at) => {
    const slots = stages[at] as readonly Slot[];
    if (at > 0) {
      const before = stages[at - 1] as readonly Slot[];
      const now = new Map([...before].map((slot) => [slot, headsOn(slot, from)]));
      const all = [...now.values()].reduce((sum, count) => sum + count, 0);
      const aim = new Map(
        slots.map((slot, place) => [
          slot,
          Math.floor((all + slots.length - 1 - place) / slots.length),
        ]),
      );
      // Tanks that stay give what they have too much; others give all.
      for (const target of slots) {
        let need = (aim.get(target) ?? 0) - (now.get(target) ?? 0);
        for (const source of before) {
          if (need <= 0) break;
          const spare = (now.get(source) ?? 0) - (aim.get(source) ?? 0);
          const moving = Math.min(need, spare);
          if (moving <= 0) continue;
          write(from, {
            kind: 'moved',
            tank: source.tank as string,
            toTank: target.tank as string,
            fish: moving,
          });
          now.set(source, (now.get(source) ?? 0) - moving);
          now.set(target, (now.get(target) ?? 0) + moving);
          need -= moving;
        }
      }
      for (const [slot, count] of now) put(slot, from, count);
    }
    for (const slot of slots) look(slot, Math.max(from, course.thinned?.week ?? 0), to);
  });
  const last = stages[stages.length - 1] as readonly Slot[];
  const { sales } = course;
  let week = course.stages[course.stages.length - 1]?.to ?? 0;
  sales.forEach((sale, step) => {
    for (const slot of last) look(slot, week, sale.week);
    week = sale.week;
    const perTank = sales.length / last.length;
    const selling = sales.length === 1 ? last : [last[Math.floor(step / perTank)] as Slot];
    const parts = sales.length === 1 ? 1 : perTank - (step % perTank);
    for (const slot of selling) {
      const there = headsOn(slot, week);
      const out = Math.round(there / parts);
      write(week, { kind: 'sold', tank: slot.tank as string, fish: out });
      put(slot, week, there - out);
    }
  });
  return { rows, over };
}

export interface FishMoves {
  /** In the order in which they are to be done. */
  readonly rows: readonly PlannedRow[];
  readonly batches: readonly Batch[];
  /** kg sold by week. */
  readonly sold: ReadonlyMap<number, number>;
}

/** Gives tanks and whole fish to the batches, and writes the rows. */
export function movesOf(
  courses: FishCourses,
  wanted: FishWanted,
  batches: readonly Batch[],
): FishMoves {
  const slots = batches.map(({ course }, at) => slotsOf(at, course));
  assign(courses, wanted, batches, slots);
  const plays = batches.map((batch, at) => {
    const stages = slots[at] as Slot[][];
    let now = played(courses, wanted, batch, stages);
    // Rounding to whole fish may pass a limit by one; a batch to be stocked sets out with fewer.
    while (now.over > 1e-9 && !('group' in batch.course.origin) && batch.fish > 1) {
      batch.fish--;
      now = played(courses, wanted, batch, stages);
    }
    return now.rows;
  });
  const sold = new Map<number, number>();
  for (const { week, row } of plays.flat()) {
    // Fish sold early count for nothing, as in the program.
    if (row.kind !== 'sold' || row.early) continue;
    sold.set(week, (sold.get(week) ?? 0) + (row.fish * row.expected) / 1000);
  }
  const weeks = [...new Set(plays.flat().map(({ week }) => week))].sort((a, b) => a - b);
  const rows: PlannedRow[] = [];
  for (const week of weeks) {
    const ofWeek = plays.map((play) =>
      play.filter((played) => played.week === week).map(({ row }) => row),
    );
    const kind = (wantedKind: PlannedRow['kind']): PlannedRow[][] =>
      ofWeek.map((list) => list.filter((row) => row.kind === wantedKind));
    rows.push(...kind('sold').flat());
    // A tank must be left before others come into it.
    let open = kind('moved').filter((list) => list.length > 0);
    while (open.length > 0) {
      const leaving = new Map<string, number>();
      open.forEach((list, at) => list.forEach(({ tank }) => leaving.set(tank, at)));
      const next = open.findIndex((list, at) =>
        list.every(({ toTank }) => (leaving.get(toTank as string) ?? at) === at),
      );
      rows.push(...(open[Math.max(0, next)] as PlannedRow[]));
      open = open.filter((_, at) => at !== Math.max(0, next));
    }
    rows.push(...kind('stocked').flat());
  }
  return { rows, batches, sold };
}

/** Share of the tanks' weeks, up to the last of the plan, in which they stand empty. */
export function emptyShare(wanted: FishWanted, batches: readonly Batch[]): number {
  let held = 0;
  for (const { course } of batches) {
    for (const { tanks, from, to } of occupied(course)) {
      held += tanks * Math.max(0, Math.min(to, wanted.weeks) - from);
    }
  }
  return 1 - held / (wanted.tanks.length * wanted.weeks);
}
