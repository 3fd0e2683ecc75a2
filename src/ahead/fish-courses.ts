/**
 * The courses that a batch of fish can take through the tanks: stocked in a week, standing in so many tanks of
 * a size until it is split or moved up, and sold at once, tank by tank or in parts. A course names numbers
 * of tanks of a size, not tanks: those of one size are alike.
 *
 * The family searched: a batch is never mixed with another, is moved at most twice, into more tanks or larger
 * ones, at week's ends, and is sold within six weeks of its selling weight. All-in-all-out, splitting and
 * sequential moves are members of it. There may be millions of courses; they are not stored but priced:
 * `search` finds those that would improve a plan at given prices of a tank in each week and of a kilogram
 * sold in each week.
 */
import { grownWeight } from '../core/growth';
import { warmthBetween, waterOn } from '../core/month-water';
import { EarlierFish } from './earlier-fish';
import {
  dayOfWeek,
  expectedSurvival,
  firstWeekAfter,
  type FishWanted,
  handlingWaterOf,
  heaviestOf,
  type TankClass,
  tankClasses,
} from './fish-wanted';

/** A batch by week of the plan, for one fish set out with. */
export interface Life {
  /** Week from which it stands in a tank. */
  readonly first: number;
  /** g of a fish; by week. */
  readonly weight: Float64Array;
  readonly alive: Float64Array;
  /** kg, survivors counted. */
  readonly kg: Float64Array;
  /** The most kg so far. */
  readonly peak: Float64Array;
  /** First and last week in which it may be sold; first is Infinity where it never grows so far. */
  readonly saleFrom: number;
  readonly saleTo: number;
}

/** From week `from` to week `to`: so many tanks of a size hold the batch. */
export interface Stage {
  readonly size: number;
  readonly tanks: number;
  readonly from: number;
  readonly to: number;
}

export interface Sale {
  readonly week: number;
  /** Of all fish of the batch. */
  readonly share: number;
  /** Tanks that still hold fish of it afterwards. */
  readonly tanksLeft: number;
}

/** Where a batch comes from: stocked in a week of the plan, or a group that is there already. */
export type Origin = { readonly stocked: number } | { readonly group: number };

export interface Course {
  readonly origin: Origin;
  readonly stages: readonly Stage[];
  readonly sales: readonly Sale[];
  /** Most and fewest fish to set out with. */
  readonly maxFish: number;
  readonly minFish: number;
  /** kg that handling the fish, and selling them early, is worth avoiding. */
  readonly cost: number;
  /**
   * Fish of a group for which there is no room on this course: sold early, in this week, below the selling weight,
   * and worth nothing to the plan.
   */
  readonly thinned?: { readonly week: number; readonly fish: number };
}

export interface Prices {
  /** Price of a tank of a size in a week, kg: `tank[size][week]`. */
  readonly tank: readonly Float64Array[];
  /** Worth of a kg sold in a week. */
  readonly sold: Float64Array;
  /** What a kg that must be sold at the least costs on top. */
  readonly least: Float64Array;
}

/** Tanks that a course holds: its stages, and what is left of the last between its sales. */
export function occupied({ stages, sales }: Course): Stage[] {
  const last = stages[stages.length - 1] as Stage;
  return [
    ...stages,
    ...sales.slice(0, -1).map(({ week, tanksLeft: tanks }, step) => ({
      size: last.size,
      tanks,
      from: week,
      to: (sales[step + 1] as Sale).week,
    })),
  ];
}

/** A course, and by how much it would worsen the plan at the prices (below 0: improve). */
export interface PricedCourse {
  readonly course: Course;
  readonly reduced: number;
}

interface SearchOptions {
  readonly below: number;
  readonly count: number;
  readonly offset?: number;
  /** Only courses that stay in their first tanks. */
  readonly unmoved?: boolean;
}

/** Rows of a move: share of all fish that goes from one tank to another, in so many pieces. */
interface Transition {
  readonly pieces: number;
  readonly smallest: number;
  readonly largest: number;
}

interface Kind {
  readonly size: number;
  readonly tanks: number;
}

interface Sequence {
  readonly kinds: readonly Kind[];
  readonly transitions: readonly Transition[];
}

interface Way {
  readonly parts: number;
  readonly apart: number;
}

/** Weeks after the selling weight is reached in which a batch may be sold. */
const SALE_WEEKS = 6;
const MAX_TANKS = 4;
const MAX_SEQUENCES = 60;
/** Weeks beyond those of stocking that are looked at, at the most. */
const MAX_LIFE = 90;

const greatestCommonDivisor = (a: number, b: number): number =>
  b === 0 ? a : greatestCommonDivisor(b, a % b);

/** What `from` tanks give to `to` tanks so that all end equal, as shares of all fish; `stay`: fish stay put. */
export function transfers(
  from: number,
  to: number,
  stay: boolean,
): { readonly from: number; readonly to: number; readonly share: number }[] {
  const staying = stay ? Math.min(from, to) : 0;
  const supply = Array.from({ length: from }, (_, at) => 1 / from - (at < staying ? 1 / to : 0));
  const need = Array.from({ length: to }, (_, at) => (at < staying ? 0 : 1 / to));
  const rows: { from: number; to: number; share: number }[] = [];
  let at = 0;
  for (let into = 0; into < to; into++) {
    while ((need[into] as number) > 1e-9 && at < from) {
      const share = Math.min(supply[at] as number, need[into] as number);
      if (share > 1e-9) rows.push({ from: at, to: into, share });
      supply[at] = (supply[at] as number) - share;
      need[into] = (need[into] as number) - share;
      if ((supply[at] as number) <= 1e-9) at++;
    }
  }
  return rows;
}

function transition(from: Kind, to: Kind): Transition {
  const rows = transfers(from.tanks, to.tanks, from.size === to.size);
  const shares = rows.map(({ share }) => share);
  return { pieces: rows.length, smallest: Math.min(...shares), largest: Math.max(...shares) };
}

/** Which numbers of tanks of which sizes may follow each other. */
function sequencesOf(classes: readonly TankClass[], moves: number): Sequence[] {
  const attempt = (maxTanks: number, stages: number): Sequence[] => {
    const kinds = classes.flatMap(({ tanks }, size) =>
      Array.from({ length: Math.min(tanks.length, maxTanks) }, (_, at) => ({
        size,
        tanks: at + 1,
      })),
    );
    const room = ({ size, tanks }: Kind): number => tanks * (classes[size] as TankClass).capacity;
    const follows = (a: Kind, b: Kind): boolean =>
      a.size === b.size ? b.tanks > a.tanks : b.size > a.size && room(b) > 1.2 * room(a);
    const found: Sequence[] = [];
    const extend = (chain: readonly Kind[], transitions: readonly Transition[]): void => {
      const divisor = chain.reduce((sum, { tanks }) => greatestCommonDivisor(sum, tanks), 0);
      if (divisor === 1) found.push({ kinds: chain, transitions });
      if (chain.length === stages) return;
      const last = chain[chain.length - 1] as Kind;
      for (const kind of kinds) {
        if (follows(last, kind)) extend([...chain, kind], [...transitions, transition(last, kind)]);
      }
    };
    for (const kind of kinds) extend([kind], []);
    return found;
  };
  for (const [tanks, stages] of [
    [MAX_TANKS, 3],
    [3, 3],
    [2, 3],
    [3, 2],
    [2, 2],
    [1, 2],
  ] as const) {
    const found = attempt(tanks, Math.min(stages, moves + 1));
    if (found.length <= MAX_SEQUENCES) return found;
  }
  return attempt(1, 1);
}

/** How the fish of `tanks` tanks may be sold: in how many parts, how many weeks apart. */
function waysOfSale(tanks: number, wholeTanks: boolean): Way[] {
  const parts = [1];
  if (tanks > 1) parts.push(tanks);
  if (!wholeTanks) parts.push(...(tanks === 1 ? [2, 3] : tanks === 2 ? [4] : []));
  return parts.flatMap((count) =>
    count === 1 ? [{ parts: 1, apart: 0 }] : [1, 2, 4].map((apart) => ({ parts: count, apart })),
  );
}

const tanksLeft = (tanks: number, { parts }: Way, step: number): number =>
  parts === 1 ? 0 : tanks - Math.floor(((step + 1) * tanks) / parts);

/** What a way of selling comes to for one batch. */
interface Final {
  readonly way: Way;
  readonly week: number;
  /** Most kg that one of the fish set out with stands for, all tanks of the stage taken together. */
  readonly peak: number;
  readonly value: number;
  readonly least: number;
  readonly cost: number;
  /** What of the cost is for sales that an earlier plan had otherwise. */
  readonly changes: number;
}

export class FishCourses {
  readonly classes: readonly TankClass[];
  /** Weeks of the plan and those after them until what was stocked last is sold. */
  readonly horizon: number;
  readonly groups: readonly Life[];
  /** By week of stocking; undefined where the water is too cold, or the fish would not be sold in time. */
  readonly batches: readonly (Life | undefined)[];
  /** Whether the fish can be handled in a week. */
  readonly handled: readonly boolean[];
  /** kg that it is worth to net one tank less. */
  readonly netting: number;
  readonly earlier: EarlierFish;
  readonly #sequences: readonly Sequence[];
  readonly #wanted: FishWanted;
  /** First week in which anything could be sold; Infinity where nothing ever grows so far. */
  readonly firstSale: number;

  constructor(wanted: FishWanted) {
    this.#wanted = wanted;
    this.classes = tankClasses(wanted.tanks);
    const capacities = this.classes.flatMap(({ capacity, tanks }) => tanks.map(() => capacity));
    this.netting = 0.01 * (capacities.reduce((sum, value) => sum + value, 0) / capacities.length);
    this.earlier = new EarlierFish(wanted, this.classes, this.netting);
    this.#sequences = sequencesOf(this.classes, wanted.moves ?? 2);
    const longest = wanted.weeks + MAX_LIFE;
    const cold = wanted.handlingWater ?? handlingWaterOf(wanted.species);
    const handled = Array.from({ length: longest + 1 }, (_, week) => {
      const water = waterOn(wanted.water, dayOfWeek(wanted, week));
      return water >= cold && water <= wanted.species.facts.handling_high[0];
    });
    const lifeOf = this.#livesUpTo(longest);
    const all = Array.from({ length: wanted.weeks }, (_, week) =>
      handled[week] ? lifeOf(week, wanted.startWeight, dayOfWeek(wanted, week)) : undefined,
    );
    const last = all.filter((life) => life !== undefined && life.saleFrom <= longest).at(-1);
    this.horizon = last === undefined ? wanted.weeks : Math.max(wanted.weeks, last.saleFrom);
    this.handled = handled;
    this.batches = all.map((life) =>
      life !== undefined && life.saleFrom <= this.horizon ? life : undefined,
    );
    this.groups = wanted.groups.map(({ weight, on = wanted.asOf }) =>
      lifeOf(firstWeekAfter(wanted, on), weight, on),
    );
    this.firstSale = Math.min(
      Infinity,
      ...(wanted.fixed?.sold.keys() ?? []),
      ...[...this.groups, ...this.batches].map((life) => life?.saleFrom ?? Infinity),
    );
  }

  #livesUpTo(last: number): (first: number, weight: number, from: number) => Life {
    const wanted = this.#wanted;
    const { species, water, coefficient, sellWeight } = wanted;
    const daily = expectedSurvival(wanted);
    const start = dayOfWeek(wanted, 0);
    const warmth = new Float64Array(last + 1);
    for (let week = 0; week < last; week++) {
      const day = start + 7 * week;
      warmth[week + 1] = (warmth[week] as number) + warmthBetween(species, water, day, day + 7);
    }
    return (first, startWeight, from) => {
      const before = warmthBetween(species, water, from, dayOfWeek(wanted, first));
      const weight = new Float64Array(last + 1);
      const alive = new Float64Array(last + 1);
      const kg = new Float64Array(last + 1);
      const peak = new Float64Array(last + 1);
      let saleFrom = Infinity;
      let saleTo = -Infinity;
      let most = 0;
      for (let week = first; week <= last; week++) {
        const sum = before + (warmth[week] as number) - (warmth[first] as number);
        const grams = grownWeight(startWeight, 1, sum, coefficient);
        const share = daily ** (dayOfWeek(wanted, week) - from);
        const mass = (grams * share) / 1000;
        most = Math.max(most, mass);
        weight[week] = grams;
        alive[week] = share;
        kg[week] = mass;
        peak[week] = most;
        // A hundredth of the weight is less than a day or two of growth.
        if (grams >= 0.99 * sellWeight && saleFrom === Infinity) saleFrom = week;
        if (grams <= heaviestOf(wanted)) saleTo = week;
      }
      // Fish that are heavier already are sold as soon as can be.
      saleTo = Math.min(last, saleFrom + SALE_WEEKS - 1, Math.max(saleTo, saleFrom + 1));
      return { first, weight, alive, kg, peak, saleFrom, saleTo };
    };
  }

  lifeOf(origin: Origin): Life {
    return 'group' in origin
      ? (this.groups[origin.group] as Life)
      : (this.batches[origin.stocked] as Life);
  }

  /** All places that batches come from. */
  origins(): Origin[] {
    return [
      ...this.groups.map((_, group) => ({ group })),
      ...this.batches.flatMap((life, stocked) => (life === undefined ? [] : [{ stocked }])),
    ];
  }

  /** Courses of a group that need no tank but its own, and are always possible. */
  stayingCourses(group: number): Course[] {
    const origin = { group };
    const nothing: Prices = {
      tank: this.classes.map(() => new Float64Array(this.horizon)),
      sold: new Float64Array(this.horizon + 1),
      least: new Float64Array(this.horizon + 1),
    };
    return this.search(origin, nothing, { below: Infinity, count: 20, unmoved: true }).map(
      ({ course }) => course,
    );
  }

  /** `place`: the tank in which they stand, or the size of it. */
  #finals(life: Life, { size, tanks }: Kind, prices: Prices, place: string | number): Final[] {
    const finals: Final[] = [];
    const price = prices.tank[size] as Float64Array;
    for (const way of waysOfSale(tanks, this.#wanted.wholeTanks ?? false)) {
      const { parts, apart } = way;
      for (let week = life.saleFrom; week <= life.saleTo; week++) {
        const end = week + (parts - 1) * apart;
        if (end > this.horizon) break;
        if (end > life.saleTo && parts > 1) break;
        let value = 0;
        let least = 0;
        let cost = 0;
        let changes = 0;
        let peak = life.peak[week] as number;
        for (let step = 0; step < parts; step++) {
          const on = week + step * apart;
          const kg = (life.kg[on] as number) / parts;
          changes += this.earlier.selling(on, place);
          value += kg * (prices.sold[on] as number);
          least += kg * (prices.least[on] as number);
          // Until this step a tank held all its fish, or what earlier steps had left of them.
          const perTank = parts / tanks;
          const left = parts === 1 ? 1 : 1 - (step % perTank) / perTank;
          peak = Math.max(peak, left * (life.peak[on] as number));
          if (step + 1 === parts) break;
          const standing = tanksLeft(tanks, way, step);
          for (let later = on; later < on + apart; later++)
            cost += standing * (price[later] as number);
        }
        cost += this.netting * (parts === 1 ? tanks : parts) + changes;
        finals.push({ way, week, peak, value, least, cost, changes });
      }
    }
    return finals;
  }

  /**
   * Courses of an origin that improve a plan at the prices by more than `-below`, the `count` best of them.
   * `offset` is taken from the reduced cost of each: the price of choosing a course of this origin at all.
   */
  search(
    origin: Origin,
    prices: Prices,
    { below, count, offset = 0, unmoved = false }: SearchOptions,
  ): PricedCourse[] {
    const wanted = this.#wanted;
    const life = this.lifeOf(origin);
    const group = 'group' in origin ? wanted.groups[origin.group] : undefined;
    const home =
      group === undefined
        ? undefined
        : this.classes.findIndex(({ tanks }) => tanks.some(({ name }) => name === group.tank));
    const least = wanted.minMove ?? 1;
    const most = wanted.maxMove ?? Infinity;
    const { first } = life;

    let found: PricedCourse[] = [];
    let limit = below;
    const keep = (reduced: number, make: () => Course): void => {
      if (reduced >= limit) return;
      found.push({ course: make(), reduced });
      if (found.length >= 2 * count) {
        found.sort((a, b) => a.reduced - b.reduced);
        found = found.slice(0, count);
        limit = Math.min(limit, (found[count - 1] as PricedCourse).reduced);
      }
    };
    const sums = prices.tank.map((price) => {
      const sum = new Float64Array(price.length + 1);
      price.forEach((value, week) => (sum[week + 1] = (sum[week] as number) + value));
      return sum;
    });
    const rent = ({ size, tanks }: Kind, from: number, to: number): number => {
      const sum = sums[size] as Float64Array;
      return tanks * ((sum[to] as number) - (sum[from] as number));
    };
    const capacity = ({ size, tanks }: Kind): number =>
      tanks * (this.classes[size] as TankClass).capacity;

    if (life.saleFrom > this.horizon) {
      if (!('group' in origin) || home === undefined) return [];
      return this.#staying(origin, home, rent, offset, below);
    }
    const finals = new Map<string, { readonly endings: Final[]; readonly lowest: number }>();
    for (const { kinds, transitions } of this.#sequences) {
      const [start] = kinds as [Kind];
      if (home !== undefined && (start.size !== home || start.tanks !== 1)) continue;
      if (unmoved && transitions.length > 0) continue;
      const last = kinds[kinds.length - 1] as Kind;
      const place = group !== undefined && kinds.length === 1 ? group.tank : last.size;
      const key = `${last.size}x${last.tanks} ${place}`;
      let ways = finals.get(key);
      if (ways === undefined) {
        const found = this.#finals(life, last, prices, place);
        // No course that ends so can cost less than this, beside what its earlier stages cost.
        const lowest = found.reduce((least, { week, cost, peak, value }) => {
          const fish = group?.fish ?? capacity(last) / peak;
          return Math.min(least, rent(last, 0, week) + cost - Math.max(0, fish * value));
        }, Infinity);
        finals.set(key, (ways = { endings: found, lowest }));
      }
      const { endings, lowest } = ways;
      if (endings.length === 0) continue;
      const latest = (endings[endings.length - 1] as Final).week;
      const step = kinds.length === 3 ? Math.max(1, Math.round((latest - first) / 12)) : 1;

      const close = (cuts: readonly number[]): void => {
        let fixed = (group === undefined ? 0.5 * this.netting * start.tanks : 0) - offset;
        let changed = group === undefined ? this.earlier.stocking(first, start.size) : 0;
        let room = Infinity;
        let needed = 1;
        let from = first;
        for (let at = 0; at < cuts.length; at++) {
          const kind = kinds[at] as Kind;
          const cut = cuts[at] as number;
          const { pieces, smallest, largest } = transitions[at] as Transition;
          fixed += rent(kind, from, cut) + pieces * this.netting;
          changed += this.earlier.moving(
            cut,
            at === 0 && group !== undefined ? group.tank : kind.size,
            (kinds[at + 1] as Kind).size,
          );
          // A group that is moved at once has no time to stand in its first tank.
          if (cut > from) room = Math.min(room, capacity(kind) / (life.peak[cut] as number));
          const alive = life.alive[cut] as number;
          room = Math.min(room, most / (largest * alive));
          needed = Math.max(needed, least / (smallest * alive));
          from = cut;
        }
        fixed += changed;
        if (fixed - rent(last, 0, from) + lowest >= limit) return;
        for (const { way, week, peak, value, least: uneasy, cost, changes } of endings) {
          if (week < from || (week === from && cuts.length > 0)) continue;
          const total = fixed + rent(last, from, week) + cost;
          const fits = Math.min(room, capacity(last) / peak);
          const make =
            (fish: number, few: number, penalty: number, thinned?: Course['thinned']) =>
            (): Course => ({
              origin,
              stages: this.#stages(kinds, [first, ...cuts], week),
              sales: this.#sales(last, week, way),
              maxFish: fish,
              minFish: few,
              cost:
                (group === undefined ? 0.5 * this.netting * start.tanks : 0) +
                transitions.reduce((sum, { pieces }) => sum + pieces, 0) * this.netting +
                this.netting * (way.parts === 1 ? last.tanks : way.parts) +
                changed +
                changes +
                penalty,
              ...(thinned && { thinned }),
            });
          if (group === undefined) {
            if (fits < needed || fits < 1) continue;
            const other = this.earlier.otherSize(first, start.size, needed, fits);
            const reduced = total + other - fits * value - needed * uneasy;
            if (reduced < limit) keep(reduced, make(fits, needed, other));
          } else {
            const kept = this.#kept(life, group.fish, kinds, cuts, capacity(last) / peak);
            const moved = cuts.every((cut, at) => {
              const { smallest, largest } = transitions[at] as Transition;
              const alive = life.alive[cut] as number;
              return kept * smallest * alive >= least - 0.5 && kept * largest * alive <= most + 0.5;
            });
            if (!moved) continue;
            const { cost: penalty, sale } = this.#thinned(
              life,
              group.fish - kept,
              capacity(start),
              cuts[0] ?? week,
            );
            const reduced = total + penalty - kept * (value + uneasy);
            if (reduced < limit) keep(reduced, make(kept, kept, penalty, sale));
          }
        }
      };

      const canCut = (week: number): boolean => this.handled[week] === true;
      const firstCut = group === undefined ? first + 1 : first;
      if (kinds.length === 1) close([]);
      else if (kinds.length === 2) {
        for (let cut = firstCut; cut < latest; cut++) if (canCut(cut)) close([cut]);
      } else {
        for (let cut = firstCut; cut < latest; cut += step) {
          if (!canCut(cut)) continue;
          for (let second = cut + 1; second < latest; second += step) {
            if (canCut(second)) close([cut, second]);
          }
        }
      }
    }
    found.sort((a, b) => a.reduced - b.reduced);
    return found.slice(0, count);
  }

  /**
   * Fish of a group that a course has room for. Whole fish part unevenly, so that a tank may get one more, and deaths
   * are rounded by half a fish at the most.
   */
  #kept(
    life: Life,
    fish: number,
    kinds: readonly Kind[],
    cuts: readonly number[],
    lastRoom: number,
  ): number {
    const spare = (tanks: number): number => (tanks > 1 ? tanks : 0.5);
    let room = lastRoom - spare((kinds[kinds.length - 1] as Kind).tanks);
    let from = life.first;
    cuts.forEach((cut, at) => {
      const { size, tanks } = kinds[at] as Kind;
      const { capacity } = this.classes[size] as TankClass;
      if (cut > from) {
        room = Math.min(room, (tanks * capacity) / (life.peak[cut] as number) - spare(tanks));
      }
      from = cut;
    });
    return Math.max(0, Math.min(fish, Math.floor(room)));
  }

  /** The early sale of what has no room: in the last week before the tank is full or the rest is moved. */
  #thinned(
    life: Life,
    fish: number,
    capacity: number,
    before: number,
  ): { readonly cost: number; readonly sale?: { readonly week: number; readonly fish: number } } {
    if (fish === 0) return { cost: 0 };
    const all = this.#wanted.groups.find((_, at) => this.groups[at] === life)?.fish ?? fish;
    let week = life.first;
    while (week < before && (all + 1) * (life.peak[week + 1] as number) <= capacity) week++;
    // More than they would be worth if they were kept: what is wanted otherwise must not drive them out.
    const lost = (1.5 * fish * this.#wanted.sellWeight) / 1000;
    return { cost: this.netting + lost, sale: { week, fish } };
  }

  /** Fish that do not reach the selling weight in time stay where they are, as far as there is room. */
  #staying(
    origin: { readonly group: number },
    size: number,
    rent: (kind: Kind, from: number, to: number) => number,
    offset: number,
    below: number,
  ): PricedCourse[] {
    const { fish } = this.#wanted.groups[origin.group] as { fish: number };
    const life = this.lifeOf(origin);
    const { horizon } = this;
    const kind = { size, tanks: 1 };
    const { capacity } = this.classes[size] as TankClass;
    const kept = this.#kept(life, fish, [kind], [], capacity / (life.peak[horizon] as number));
    const { cost, sale } = this.#thinned(life, fish - kept, capacity, horizon);
    const { first } = life;
    const reduced = rent(kind, first, horizon) + cost - offset;
    if (reduced >= below) return [];
    const course: Course = {
      origin,
      stages: [{ ...kind, from: first, to: horizon }],
      sales: [],
      maxFish: kept,
      minFish: kept,
      cost,
      ...(sale && { thinned: sale }),
    };
    return [{ course, reduced }];
  }

  #stages(kinds: readonly Kind[], starts: readonly number[], week: number): Stage[] {
    return kinds.map((kind, at) => ({
      ...kind,
      from: starts[at] as number,
      to: starts[at + 1] ?? week,
    }));
  }

  #sales({ tanks }: Kind, week: number, way: Way): Sale[] {
    return Array.from({ length: way.parts }, (_, step) => ({
      week: week + step * way.apart,
      share: 1 / way.parts,
      tanksLeft: tanksLeft(tanks, way, step),
    }));
  }
}
