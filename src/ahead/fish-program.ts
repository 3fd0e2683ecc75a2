/**
 * The program that chooses among the courses of the fish (fish-courses.ts), and what is optimised.
 *
 * Worth of a plan, in kg: what is sold by the end, counted up to what is wanted; less what sales stray from an
 * even rate, 0.02 kg for each kg and week beyond half a month's sales (a kg missing for a year counts as
 * one kg); less 1 % of a mean tank's limit for each netting, half for each stocking. The even rate is the plan's
 * own, up to the rate wanted. Fish of a group that have no room and are sold early cost half as much again
 * as they would weigh at the selling weight. Where a plan is made again, each stocking, move or sale that the earlier plan
 * had otherwise costs 8 % of a mean tank's limit.
 *
 * Courses are found by their price in a program without whole numbers until none is left that improves it. Then the
 * best of them are chosen in whole numbers. A course whose reduced cost is above the distance to the plan found
 * can be in no better plan, so that the bound holds for the whole family, whatever was left out.
 */
import { MONTH } from '../core/stocking';
import {
  type Course,
  type FishCourses,
  occupied,
  type Origin,
  type PricedCourse,
  type Prices,
} from './fish-courses';
import { type FishWanted, tanksIn } from './fish-wanted';
import {
  gapOf,
  LinearModel,
  type Progress,
  type Solved,
  type SolveOptions,
  type Solver,
  type Term,
  type Variable,
} from './solver';

/** Mean weeks of a month. */
export const MONTH_WEEKS = MONTH / 7;
/** kg for each kg and week that sales stray from the even rate. */
const STRAYING = 0.02;
/** Courses that go into the first program with whole numbers, and into the one that is to leave nothing out. */
const MAX_COURSES = 1500;
const WIDER_COURSES = 4000;
/** Courses that are looked for, of all origins together. */
const MAX_FOUND = 16_000;
/** Courses of an origin with the same sales that each other one is compared with. */
const MAX_COMPARED = 400;
/** Share of the time that the first program may take. */
const FIRST_TIME = 0.5;
const ROUNDS = 40;
/** Missing fractions that are made up at once, in the plans that are tried. */
const LIFTS = [0.2, 0];

export interface ChosenCourse {
  readonly course: Course;
  /** Batches that take it. */
  readonly times: number;
}

export interface FishChoice {
  readonly chosen: readonly ChosenCourse[];
  /** No plan of the family is worth more, kg. */
  readonly bound: number;
  readonly status: Solved['status'];
  readonly seconds: number;
  /** Courses looked at in whole numbers. */
  readonly courses: number;
  /** What the chosen ones are worth with parts of fish, kg. */
  readonly worth: number;
}

/** kg sold by one fish set out with. */
export const kgSold = (
  courses: FishCourses,
  { origin, sales }: Course,
): [week: number, kg: number][] => {
  const { kg } = courses.lifeOf(origin);
  return sales.map(({ week, share }) => [week, share * (kg[week] as number)]);
};

/** Rows that reckon sales by week, in any program about them. */
export class SalesRows {
  readonly #model: LinearModel;
  readonly #weeks: Term[][] = [];
  readonly #total: Term[] = [];
  readonly #first: number;

  constructor(model: LinearModel, courses: FishCourses, wanted: FishWanted) {
    this.#model = model;
    const { horizon } = courses;
    // What is there to be sold at once is part of the first week's sales, not of the rate.
    this.#first = Math.min(courses.firstSale, horizon + 1);
    const rate = wanted.kgMonth / MONTH_WEEKS;
    const weeks = Math.max(0, horizon + 1 - this.#first);
    const even = model.variable({ max: rate });
    const reward = model.variable({ max: rate * weeks, cost: -1 });
    this.#total.push([reward, 1]);
    let before: readonly Term[] = [];
    for (let week = 0; week <= horizon; week++) {
      const terms: Term[] = [];
      if (week >= this.#first) {
        const within = model.variable({ min: -wanted.kgMonth / 2, max: wanted.kgMonth / 2 });
        const ahead = model.variable({ cost: STRAYING });
        const behind = model.variable({ cost: STRAYING });
        const stock: Term[] = [
          [within, 1],
          [ahead, 1],
          [behind, -1],
        ];
        terms.push(...stock, ...before.map(([of, factor]): Term => [of, -factor]), [even, 1]);
        before = stock;
      }
      this.#weeks.push(terms);
    }
    // What rows of the Fish log sell counts among the sales, whatever is planned.
    for (const [week, kg] of wanted.fixed?.sold ?? []) {
      if (week <= horizon) this.sold(model.variable({ min: 1, max: 1 }), week, kg);
    }
  }

  /** `kg` sold in `week` for each of a variable. */
  sold(variable: Variable, week: number, kg: number): void {
    (this.#weeks[week] as Term[]).push([variable, -kg]);
    this.#total.push([variable, -kg]);
  }

  /** Writes the rows; their places by week (undefined before the first sale) and that of the total. */
  close(): { readonly weeks: readonly (number | undefined)[]; readonly total: number } {
    const weeks = this.#weeks.map((terms, week) =>
      week < this.#first ? undefined : this.#model.row(terms, { min: 0, max: 0 }),
    );
    return { weeks, total: this.#model.row(this.#total, { max: 0 }) };
  }
}

/** Prices, and what choosing any course of a group costs. */
interface Priced {
  readonly prices: Prices;
  readonly groups: readonly number[];
}

/** How many batches may take a course. */
interface Times {
  readonly min?: number;
  readonly max?: number;
}

interface Built {
  readonly model: LinearModel;
  readonly taken: readonly Variable[];
  prices(duals: Float64Array): Priced;
}

function build(
  courses: FishCourses,
  wanted: FishWanted,
  chosen: readonly Course[],
  { whole = false, times }: { whole?: boolean; times?: (at: number) => Times } = {},
): Built {
  const model = new LinearModel();
  const { horizon, classes } = courses;
  const rows = new SalesRows(model, courses, wanted);
  const standing = classes.map(() => Array.from({ length: horizon }, (): Term[] => []));
  const groups = wanted.groups.map((): Term[] => []);
  // Batches need not be full: so many kg are sold less in a week than full batches would give.
  const less = Array.from({ length: horizon + 1 }, (): Term[] => []);
  const tanks = classes.reduce((sum, { tanks: alike }) => sum + alike.length, 0);
  const taken = chosen.map((course, place) => {
    const { origin, maxFish, minFish, cost } = course;
    const { min = 0, max = 'group' in origin ? 1 : tanks } = times?.(place) ?? {};
    const variable = model.variable({ cost, whole, min, max });
    for (const { size, tanks: count, from, to } of occupied(course)) {
      for (let week = from; week < Math.min(to, horizon); week++) {
        (standing[size]?.[week] as Term[]).push([variable, count]);
      }
    }
    if ('group' in origin) (groups[origin.group] as Term[]).push([variable, 1]);
    for (const [week, kg] of kgSold(courses, course)) {
      rows.sold(variable, week, maxFish * kg);
      if (maxFish > minFish) (less[week] as Term[]).push([variable, -(maxFish - minFish) * kg]);
    }
    return variable;
  });
  const lessRows = less.map((terms, week) => {
    if (terms.length === 0 || week < courses.firstSale) return undefined;
    const unsold = model.variable();
    rows.sold(unsold, week, -1);
    return model.row([...terms, [unsold, 1]], { max: 0 });
  });
  const sales = rows.close();
  const tankRows = standing.map((weeks, size) =>
    weeks.map((terms, week) =>
      terms.length === 0
        ? undefined
        : model.row(terms, { max: tanksIn(classes[size] as (typeof classes)[number], week) }),
    ),
  );
  const groupRows = groups.map((terms) => model.row(terms, { min: 1, max: 1 }));
  return {
    model,
    taken,
    prices: (duals) => {
      const dual = (row: number | undefined): number =>
        row === undefined ? 0 : (duals[row] as number);
      const total = dual(sales.total);
      const least = Float64Array.from(lessRows, (row) => dual(row));
      return {
        prices: {
          tank: tankRows.map((weeks) => Float64Array.from(weeks, (row) => -dual(row))),
          // A kg of a course stands in the rows of its week, of the total, and of what may be left out.
          sold: Float64Array.from(
            sales.weeks,
            (row, week) => -(dual(row) + total + (least[week] as number)),
          ),
          least,
        },
        groups: groupRows.map((row) => dual(row)),
      };
    },
  };
}

/** Prices before any are known: every tank free, every kg worth one. */
function openingPrices({ classes, horizon }: FishCourses): Prices {
  return {
    tank: classes.map(() => new Float64Array(horizon)),
    sold: new Float64Array(horizon + 1).fill(1),
    least: new Float64Array(horizon + 1),
  };
}

const keyOf = ({ origin, stages, sales }: Course): string =>
  JSON.stringify([
    origin,
    stages.map(({ size, tanks, from, to }) => [size, tanks, from, to]),
    sales.map(({ week }) => week),
  ]);

const isGroup = (origin: Origin): origin is { group: number } => 'group' in origin;

export interface ChoiceOptions {
  /** Most seconds for all of it. */
  readonly seconds: number;
  /** Gap that is good enough. */
  readonly gap: number;
  readonly progress?: ((now: Progress) => void) | undefined;
  readonly stop?: (() => boolean) | undefined;
}

/** Courses found so far, and the search for more. */
class Pool {
  readonly courses: FishCourses;
  readonly wanted: FishWanted;
  readonly list: Course[] = [];
  readonly #known = new Map<string, number>();
  readonly #origins: readonly Origin[];

  constructor(courses: FishCourses, wanted: FishWanted) {
    this.courses = courses;
    this.wanted = wanted;
    this.#origins = courses.origins();
    const opening = openingPrices(courses);
    for (const { course } of this.search({ prices: opening, groups: [] }, Infinity, 3)) {
      this.add(course);
    }
    // Rent makes short and splitting courses worth while.
    for (const tank of opening.tank) tank.fill(courses.netting);
    for (const { course } of this.search({ prices: opening, groups: [] }, Infinity, 3)) {
      this.add(course);
    }
    wanted.groups.forEach((_, group) => {
      for (const course of courses.stayingCourses(group)) this.add(course);
    });
  }

  /** Adds a course; false where it is known already. */
  add(course: Course): boolean {
    const key = keyOf(course);
    if (this.#known.has(key)) return false;
    this.#known.set(key, this.list.length);
    this.list.push(course);
    return true;
  }

  placeOf = (course: Course): number | undefined => this.#known.get(keyOf(course));

  get origins(): number {
    return this.#origins.length;
  }

  search({ prices, groups }: Priced, below: number, count: number): PricedCourse[] {
    return this.#origins.flatMap((origin) =>
      this.courses.search(origin, prices, {
        below,
        count,
        offset: isGroup(origin) ? (groups[origin.group] ?? 0) : 0,
      }),
    );
  }
}

interface Relaxed {
  readonly priced: Priced;
  /** No plan of the family is worth more than this, nor, by the prices of the last round, than `atPrices`. */
  readonly proven: number;
  readonly atPrices: number;
}

/** The best plan with parts of batches, and the prices in it. */
function relax(pool: Pool, solve: Solver, options: ChoiceOptions, spent: () => number): Relaxed {
  const { courses, wanted } = pool;
  const { seconds, progress, stop } = options;
  let proven = Infinity;
  for (let round = 0; ; round++) {
    const built = build(courses, wanted, pool.list);
    const { duals, objective } = solve(built.model);
    if (duals === undefined || objective === undefined) {
      throw new Error('the relaxed plan of the fish has no solution');
    }
    const priced = built.prices(duals);
    const better = pool.search(priced, -1e-6, 4);
    // However many batches took the best of each origin, they could improve it by no more than this.
    const best = new Map<string, number>();
    for (const { course, reduced } of better) {
      const key = JSON.stringify(course.origin);
      const times = isGroup(course.origin) ? 1 : wanted.tanks.length;
      best.set(key, Math.min(best.get(key) ?? 0, reduced * times));
    }
    const missing = [...best.values()].reduce((sum, value) => sum + value, 0);
    const atPrices = -(objective + missing);
    proven = Math.min(proven, atPrices);
    progress?.({ seconds: spent(), objective: undefined, bound: -proven, gap: undefined });
    const fresh = better.filter(({ course }) => pool.add(course));
    if (fresh.length === 0 || round >= ROUNDS || spent() > seconds / 2 || stop?.()) {
      return { priced, proven, atPrices };
    }
  }
}

interface Dive {
  readonly objective: number;
  /** Batches by course, by its place in the pool. */
  readonly times: ReadonlyMap<number, number>;
}

/**
 * A plan in whole numbers out of relaxed ones: whole parts are kept, the largest fraction is made whole, what
 * no longer has room is ruled out, and so on until nothing is left in parts. Groups are settled first. `lift`:
 * fractions of which no more is missing are made whole with the largest.
 */
function dive(
  pool: Pool,
  solve: Solver,
  from: Priced,
  { lift, stop }: { readonly lift: number; readonly stop: () => boolean },
): Dive | undefined {
  const { courses, wanted } = pool;
  const { horizon, classes } = courses;
  const free = classes.map((alike) =>
    Int32Array.from({ length: horizon }, (_, week) => tanksIn(alike, week)),
  );
  const times = new Map<number, number>();
  const barred = new Set<number>();
  const settled = new Set<number>();
  const roomFor = (course: Course): boolean =>
    occupied(course).every(({ size, tanks, from: first, to }) => {
      const weeks = free[size] as Int32Array;
      for (let week = first; week < Math.min(to, horizon); week++) {
        if ((weeks[week] as number) < tanks) return false;
      }
      return true;
    });
  const take = (at: number, count: number): void => {
    const course = pool.list[at] as Course;
    times.set(at, (times.get(at) ?? 0) + count);
    for (const { size, tanks, from: first, to } of occupied(course)) {
      const weeks = free[size] as Int32Array;
      for (let week = first; week < Math.min(to, horizon); week++) {
        weeks[week] = (weeks[week] as number) - count * tanks;
      }
    }
    if (isGroup(course.origin)) settled.add(course.origin.group);
  };
  let priced = from;
  for (;;) {
    const late = stop();
    // Weeks without a free tank are out of the question for what is searched now.
    const tank = priced.prices.tank.map((prices, size) =>
      prices.map((price, week) => ((free[size] as Int32Array)[week] === 0 ? 1e9 : price)),
    );
    const found = late
      ? []
      : pool.search({ prices: { ...priced.prices, tank }, groups: priced.groups }, -1e-6, 2);
    for (const { course } of found) {
      if (!isGroup(course.origin) || !settled.has(course.origin.group)) pool.add(course);
    }
    const { list } = pool;
    list.forEach((course, at) => {
      const done = isGroup(course.origin) && settled.has(course.origin.group);
      // When time is up, groups alone are still to be settled.
      const over = late && !isGroup(course.origin);
      if (!barred.has(at) && (done || over || !roomFor(course))) barred.add(at);
    });
    const built = build(courses, wanted, list, {
      times: (at) => {
        const count = times.get(at) ?? 0;
        return { min: count, ...(barred.has(at) && { max: count }) };
      },
    });
    const { values, objective, duals } = solve(built.model);
    if (values === undefined || objective === undefined || duals === undefined) return undefined;
    priced = built.prices(duals);
    const parts = list.flatMap((course, at) => {
      const more = (values[built.taken[at] as number] as number) - (times.get(at) ?? 0);
      return more > 1e-6 ? [{ at, more, group: isGroup(course.origin) }] : [];
    });
    if (parts.length === 0) return { objective, times };
    const open = parts.some(({ group }) => group) ? parts.filter(({ group }) => group) : parts;
    open.sort((a, b) => b.more - a.more);
    open.forEach(({ at, more }, place) => {
      const count = Math.floor(more + lift) || (place === 0 ? 1 : 0);
      for (let taken = 0; taken < count; taken++) {
        const course = pool.list[at] as Course;
        const { origin } = course;
        if (isGroup(origin) && settled.has(origin.group)) return;
        if (roomFor(course)) take(at, 1);
        else if (place === 0) barred.add(at);
      }
    });
  }
}

/** Courses that go into the program with whole numbers, and how dear the dearest left out is at the least. */
interface Selection {
  readonly courses: readonly Course[];
  readonly cutOff: number;
}

interface Selecting {
  /** Courses of a greater reduced cost were not looked for. */
  readonly below: number;
  /** So many of an origin were looked for at the most. */
  readonly each: number;
  readonly most: number;
}

const byCost = (a: PricedCourse, b: PricedCourse): number => a.reduced - b.reduced;

/** What was not found of an origin costs at least the dearest that was. */
function selected(
  courses: FishCourses,
  found: readonly PricedCourse[],
  { below, each, most }: Selecting,
): Selection {
  const byOrigin = new Map<string, number[]>();
  for (const { course, reduced } of found) {
    const key = JSON.stringify(course.origin);
    const list = byOrigin.get(key);
    if (list === undefined) byOrigin.set(key, [reduced]);
    else list.push(reduced);
  }
  const full = [...byOrigin.values()].filter((list) => list.length >= each);
  const near = undominated(courses, found).sort(byCost);
  const cutOff = Math.min(
    below,
    near[most]?.reduced ?? Infinity,
    ...full.map((list) => list.reduce((dearest, reduced) => Math.max(dearest, reduced), -Infinity)),
  );
  return { courses: near.slice(0, most).map(({ course }) => course), cutOff };
}

/**
 * Without courses in whose place another of the list does as well in any plan: it sells the same in the same weeks, costs
 * no more, stands in no tank in which the other does not, and takes as many fish and as few.
 */
function undominated(
  { classes, horizon }: FishCourses,
  found: readonly PricedCourse[],
): PricedCourse[] {
  const alike = new Map<string, { readonly priced: PricedCourse; readonly held: Int16Array }[]>();
  for (const priced of found) {
    const { course } = priced;
    const held = new Int16Array(classes.length * horizon);
    for (const { size, tanks, from, to } of occupied(course)) {
      for (let week = from; week < Math.min(to, horizon); week++) {
        const at = size * horizon + week;
        held[at] = (held[at] as number) + tanks;
      }
    }
    const key = JSON.stringify([
      course.origin,
      course.thinned,
      course.sales.map(({ week, share }) => [week, share]),
    ]);
    const list = alike.get(key);
    if (list === undefined) alike.set(key, [{ priced, held }]);
    else list.push({ priced, held });
  }
  const kept: PricedCourse[] = [];
  for (const list of alike.values()) {
    list.sort((a, b) => byCost(a.priced, b.priced));
    // Those that are kept are looked at alone: what a dropped one would drop, its better drops as well.
    const best: typeof list = [];
    for (const contender of list) {
      const { maxFish, minFish, cost } = contender.priced.course;
      const isWorse =
        best.length < MAX_COMPARED &&
        best.some(
          ({ priced: { course }, held }) =>
            course.maxFish >= maxFish &&
            course.minFish <= minFish &&
            course.cost <= cost &&
            held.every((tanks, at) => tanks <= (contender.held[at] as number)),
        );
      if (!isWorse) best.push(contender);
    }
    kept.push(...best.map(({ priced }) => priced));
  }
  return kept;
}

/** Chooses the courses of all batches. */
export function chooseCourses(
  courses: FishCourses,
  wanted: FishWanted,
  solve: Solver,
  options: ChoiceOptions,
): FishChoice {
  const { seconds, gap, progress, stop } = options;
  const began = Date.now();
  const spent = (): number => (Date.now() - began) / 1000;
  const pool = new Pool(courses, wanted);
  const { priced, proven, atPrices } = relax(pool, solve, options, spent);
  const each = Math.max(4, Math.ceil((2 * MAX_COURSES) / Math.max(1, pool.origins)));
  const near = pool.search(priced, Infinity, each);
  let dived: Dive | undefined;
  const close = (): boolean => (gapOf(dived?.objective, -proven) ?? Infinity) <= gap;
  for (const lift of LIFTS) {
    const found = dive(pool, solve, priced, {
      lift,
      stop: () => spent() > seconds || (stop?.() ?? false),
    });
    if (found !== undefined && found.objective < (dived?.objective ?? Infinity)) dived = found;
    if (close() || spent() > seconds / 4) break;
  }
  progress?.({
    seconds: spent(),
    objective: dived?.objective,
    bound: -proven,
    gap: gapOf(dived?.objective, -proven),
  });
  let best: Choice = {
    objective: dived?.objective,
    chosen:
      dived === undefined
        ? []
        : [...dived.times].map(([at, times]) => ({ course: pool.list[at] as Course, times })),
    bound: proven,
    status: 'optimal',
    courses: pool.list.length,
  };
  if (dived === undefined || !close()) {
    // In whole numbers, first among the courses of least reduced cost, which finds a good plan ...
    const among = (selection: Selection, time: number): void => {
      best = inWhole(pool, solve, selection, best, {
        atPrices,
        gap,
        seconds: Math.max(1, time),
        ...(stop && { stop }),
        ...(progress && {
          progress: (now: Progress) => {
            const bound = Math.max(now.bound ?? -Infinity, -proven);
            const objective = Math.min(now.objective ?? Infinity, best.objective ?? Infinity);
            progress({ seconds: spent(), objective, bound, gap: gapOf(objective, bound) });
          },
        }),
      });
    };
    among(
      selected(courses, near, { below: Infinity, each, most: MAX_COURSES }),
      (seconds - spent()) * FIRST_TIME,
    );
    // ... then among all that a better plan could take, so that the bound leaves nothing open.
    const { objective, bound, status } = best;
    const isOpen = (gapOf(objective, -bound) ?? 0) > gap;
    if (objective !== undefined && isOpen && status !== 'stopped' && spent() < seconds) {
      const below = Math.max(0, atPrices + objective * (1 + gap));
      const most = Math.ceil(MAX_FOUND / Math.max(1, pool.origins));
      const wider = pool.search(priced, below, most);
      among(
        selected(courses, wider, { below, each: most, most: WIDER_COURSES }),
        seconds - spent(),
      );
    }
  }
  const { chosen, bound, status, courses: looked, objective } = best;
  return { chosen, bound, status, seconds: spent(), courses: looked, worth: -(objective ?? 0) };
}

type Choice = Omit<FishChoice, 'seconds' | 'worth'> & { readonly objective: number | undefined };

/** The best plan of whole batches among some courses and those of a plan found before. */
function inWhole(
  pool: Pool,
  solve: Solver,
  { courses: near, cutOff }: Selection,
  before: Choice,
  { atPrices, ...options }: SolveOptions & { readonly atPrices: number },
): Choice {
  const { courses, wanted } = pool;
  const list = new Map(near.map((course) => [keyOf(course), course]));
  for (const { course } of before.chosen) list.set(keyOf(course), course);
  wanted.groups.forEach((_, group) => {
    for (const course of courses.stayingCourses(group)) list.set(keyOf(course), course);
  });
  const all = [...list.values()];
  const { model, taken } = build(courses, wanted, all, { whole: true });
  const start = before.chosen.length > 0 ? startOf(pool, all, before.chosen, solve) : undefined;
  const solved = solve(model, { ...options, ...(start && { start }) });
  const { values, objective, status } = solved;
  // A plan with a course that was left out is worth at most what the relaxed one is, less that course's cost.
  const outside = atPrices - Math.max(0, cutOff);
  const inside = solved.bound === undefined ? before.bound : -solved.bound;
  const bound = Math.min(before.bound, Math.max(inside, outside));
  if (values === undefined || (objective as number) >= (before.objective ?? Infinity)) {
    return { ...before, bound, status, courses: all.length };
  }
  const chosen = taken.flatMap((variable, at) => {
    const times = values[variable] as number;
    return times > 0 ? [{ course: all[at] as Course, times }] : [];
  });
  return { objective, chosen, bound, status, courses: all.length };
}

/** The values of all variables of the program in whole numbers that a plan comes to. */
function startOf(
  { courses, wanted }: Pool,
  list: readonly Course[],
  chosen: readonly ChosenCourse[],
  solve: Solver,
): Float64Array | undefined {
  const counts = new Map(chosen.map(({ course, times }) => [keyOf(course), times]));
  const { model } = build(courses, wanted, list, {
    times: (at) => {
      const count = counts.get(keyOf(list[at] as Course)) ?? 0;
      return { min: count, max: count };
    },
  });
  return solve(model).values;
}
