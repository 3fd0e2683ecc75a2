import type { CellPosition, Model } from '@odoo/o-spreadsheet';
import { FewSet } from './few-set';
import { PlaceMap } from './place-map';

export type Getters = Model['getters'];
export type Range = NonNullable<ReturnType<Getters['getNamedRange']>>['range'];

export interface Area {
  readonly sheetId: string;
  readonly zone: Range['zone'];
}

/** The library's set of areas. */
export interface Areas extends Iterable<Area> {
  copy(): Areas;
  add(area: Area): void;
  delete(area: Area): void;
  hasPosition(position: CellPosition): boolean;
}

/** What the library asks of its record of dependencies. */
export interface Graph {
  removeAllDependencies(position: CellPosition): void;
  addDependencies(position: CellPosition, ranges: readonly Range[]): void;
  getCellsDependingOn(areas: Iterable<Area>, known: Areas): Areas;
}

/** Cells of a range that a formula looked at, and numbers that it found by their order among all of its cells. */
export interface SingleReads {
  readonly shared: Shared;
  readonly cells: readonly number[];
  readonly ordered: readonly number[];
}

/** What a formula read of the ranges that it names when it was last computed. */
export interface Reads {
  /** Ranges of which it looked at single cells alone. */
  readonly singles: readonly SingleReads[];
  /** Ranges that it read as a whole. */
  readonly whole: readonly Shared[];
  /** Branches that its conditions did not ask for were left alone: it may name ranges that it did not read. */
  readonly isLazy: boolean;
}

export interface Dependent {
  readonly position: CellPosition;
  readonly ranges: FewSet<Shared>;
  /** Above that of every formula that it reads, as far as the graph knew when it put them in order. */
  rank: number;
  /** Ranges that it calls and that have no rank yet. */
  left: number;
  reads?: Reads | undefined;
}

/** A range with all cells whose formulas call it: thousands of rows may call the same column. */
export interface Shared {
  readonly area: Area;
  readonly dependents: FewSet<Dependent>;
  /** That of the last formula in it. */
  rank: number;
  /** Formulas in it that have no rank yet. */
  left: number;
}

/** So many formulas and ranges are looked at between two looks at whether it is enough. */
const AT_A_TIME = 256;

/** Ranges are found by the blocks of so many rows of a column that they touch. */
const BLOCK = 256;
/** Ranges that touch more blocks than these are few. */
const MANY_BLOCKS = 4_096;

const isWide = ({ zone }: Area): boolean =>
  (zone.right - zone.left + 1) * (Math.floor((zone.bottom - zone.top) / BLOCK) + 1) > MANY_BLOCKS;

const touch = ({ zone: a }: Area, { zone: b }: Area): boolean =>
  a.top <= b.bottom && b.top <= a.bottom && a.left <= b.right && b.left <= a.right;

/**
 * The blocks under which a range is kept, or under which those that touch an area are found. A range that touches
 * very many is kept under one key, which every area looks through.
 */
export function* blocksOf(area: Area | Range): Generator<string> {
  const { sheetId, zone } = area;
  const isKept = 'parts' in area;
  if (!isKept || isWide(area)) yield `${sheetId}!wide`;
  if (isKept && isWide(area)) return;
  const last = Math.floor(zone.bottom / BLOCK);
  for (let column = zone.left; column <= zone.right; column++) {
    for (let k = Math.floor(zone.top / BLOCK); k <= last; k++) yield `${sheetId}!${column},${k}`;
  }
}

const keyOf = ({ sheetId, zone }: Area): string =>
  `${sheetId}!${zone.left},${zone.top},${zone.right},${zone.bottom}`;
const areaOf = ({ sheetId, col, row }: CellPosition, rows = 1): Area => ({
  sheetId,
  zone: { left: col, right: col, top: row, bottom: row + rows - 1 },
});

const order = (a: CellPosition, b: CellPosition): number =>
  a.sheetId === b.sheetId ? a.col - b.col || a.row - b.row : a.sheetId < b.sheetId ? -1 : 1;

/** Cells that stand below each other as one area: the library's sets take long for many single cells. */
function* joined(cells: CellPosition[]): Generator<Area> {
  cells.sort(order);
  for (let i = 0; i < cells.length;) {
    const { sheetId, col, row } = cells[i] as CellPosition;
    let rows = 1;
    for (let next = cells[i + rows]; next; next = cells[i + rows]) {
      if (next.sheetId !== sheetId || next.col !== col || next.row !== row + rows) break;
      rows++;
    }
    yield areaOf({ sheetId, col, row }, rows);
    i += rows;
  }
}

const isOneCell = ({ zone }: Area): boolean => zone.top === zone.bottom && zone.left === zone.right;

const firstCell = ({ sheetId, zone }: Area): CellPosition => ({
  sheetId,
  col: zone.left,
  row: zone.top,
});

/** One row high. */
const isFlat = ({ zone }: Area): boolean => zone.top === zone.bottom;

/** Which cells depend on which ranges, each dependency once. */
export class DependencyGraph implements Graph {
  private readonly dependents = new PlaceMap<Dependent>();
  /** Ranges of one cell, which are the most. */
  private readonly cells = new PlaceMap<Shared>();
  private readonly ranges = new Map<string, Shared>();
  private readonly byRange = new WeakMap<Range, Shared>();
  /** Ranges over several rows by the blocks that they touch; those of one row by block and row. */
  private readonly tall = new Map<string, FewSet<Shared>>();
  private readonly flat = new Map<string, Map<number, FewSet<Shared>>>();
  private ordering: Iterator<void> | undefined;
  private isOrdered = false;

  private hasChanged(): void {
    this.ordering = undefined;
    this.isOrdered = false;
  }

  /** How many dependencies were written down so far. */
  learned = 0;

  removeAllDependencies(position: CellPosition): void {
    const dependent = this.dependents.get(position);
    if (dependent === undefined) return;
    this.hasChanged();
    for (const shared of dependent.ranges) {
      shared.dependents.delete(dependent);
      if (shared.dependents.size === 0) this.forget(shared);
    }
    // It keeps its rank: some formulas say anew what they read each time they are computed.
    dependent.ranges.clear();
    dependent.reads = undefined;
  }

  addDependencies(position: CellPosition, ranges: readonly Range[]): void {
    if (ranges.length === 0) return;
    this.hasChanged();
    let dependent = this.dependents.get(position);
    if (!dependent) {
      dependent = { position, ranges: new FewSet(), rank: 0, left: 0 };
      this.dependents.set(position, dependent);
    }
    for (const range of ranges) {
      // A range that was written wrongly, or whose sheet is gone, covers no cells.
      if (range.invalidSheetName !== undefined || range.invalidXc !== undefined) continue;
      const shared = this.shared(range);
      if (!dependent.ranges.has(shared)) this.learned += 1;
      shared.dependents.add(dependent);
      dependent.ranges.add(shared);
    }
  }

  /** The cells that depend on the areas, directly or through others, and those known; without the areas. */
  getCellsDependingOn(areas: Iterable<Area>, known: Areas): Areas {
    const given = [...areas];
    const found = known.copy();
    for (const area of given) found.add(area);
    const reached = new Set<Dependent>();
    const asked = new Set<Shared>();
    const queue = [...given];
    for (let area = queue.pop(); area; area = queue.pop()) {
      for (const shared of this.over(area)) {
        // Whoever calls the range was reached with the first cell of it.
        if (asked.has(shared)) continue;
        asked.add(shared);
        for (const dependent of shared.dependents) {
          if (reached.has(dependent) || found.hasPosition(dependent.position)) continue;
          reached.add(dependent);
          queue.push(areaOf(dependent.position));
        }
      }
    }
    for (const area of joined([...reached].map(({ position }) => position))) found.add(area);
    for (const area of given) found.delete(area);
    return found;
  }

  /** Whether more than so many formulas depend on the areas, directly or through others. */
  reachesMore(areas: Iterable<Area>, limit: number): boolean {
    const reached = new Set<Dependent>();
    const asked = new Set<Shared>();
    const queue = [...areas];
    for (let area = queue.pop(); area; area = queue.pop()) {
      for (const shared of this.over(area)) {
        if (asked.has(shared)) continue;
        asked.add(shared);
        for (const dependent of shared.dependents) {
          if (reached.has(dependent)) continue;
          reached.add(dependent);
          if (reached.size > limit) return true;
          queue.push(areaOf(dependent.position));
        }
      }
    }
    return false;
  }

  /** The ranges that formulas call and that a cell lies in. */
  rangesOver(position: CellPosition): Iterable<Shared> {
    return this.over(areaOf(position));
  }

  dependentAt(position: CellPosition): Dependent | undefined {
    return this.dependents.get(position);
  }

  /** What is known of a range that some formula calls. */
  known(range: Range): Shared | undefined {
    if (isOneCell(range)) return this.cells.get(firstCell(range));
    const kept = this.byRange.get(range);
    if (kept && kept.dependents.size > 0) return kept;
    const found = this.ranges.get(keyOf(range));
    if (found) this.byRange.set(range, found);
    return found;
  }

  /** Ranks every formula above those that it reads; circles, and what hangs on them, are not above each other. */
  putInOrder(): void {
    this.orderAhead(() => false);
  }

  /** The same in good time and a little at a time, true once it is done: `putInOrder` does what of it is left. */
  orderAhead(enough: () => boolean): boolean {
    this.ordering ??= this.order();
    while (!this.isOrdered && !enough()) this.isOrdered = this.ordering.next().done === true;
    if (this.isOrdered) this.ordering = undefined;
    return this.isOrdered;
  }

  /** Whether every formula has the rank that is right for what depends on what now. */
  get isInOrder(): boolean {
    return this.isOrdered;
  }

  private *order(): Generator<void> {
    let looked = 0;
    const isPause = (): boolean => ++looked % AT_A_TIME === 0;
    for (const shared of this.all()) {
      shared.rank = 0;
      shared.left = 0;
      if (isPause()) yield;
    }
    for (const dependent of this.dependents.values()) {
      dependent.rank = 0;
      dependent.left = dependent.ranges.size;
      for (const shared of this.over(areaOf(dependent.position))) shared.left += 1;
      if (isPause()) yield;
    }
    const known: Shared[] = [];
    for (const shared of this.all()) {
      if (shared.left === 0) known.push(shared);
      if (isPause()) yield;
    }
    for (let shared = known.pop(); shared; shared = known.pop()) {
      for (const dependent of shared.dependents) {
        dependent.rank = Math.max(dependent.rank, shared.rank + 1);
        if (isPause()) yield;
        if (--dependent.left > 0) continue;
        for (const range of this.over(areaOf(dependent.position))) {
          range.rank = Math.max(range.rank, dependent.rank);
          if (--range.left === 0) known.push(range);
        }
      }
    }
  }

  /** The formulas, each after those that it reads as far as they are ranked. */
  inOrder(): CellPosition[] {
    const ranks: CellPosition[][] = [];
    for (const { rank, position } of this.dependents.values()) (ranks[rank] ??= []).push(position);
    return ranks.flat();
  }

  private *all(): Generator<Shared> {
    yield* this.cells.values();
    yield* this.ranges.values();
  }

  /** The ranges that touch an area. */
  private *over(area: Area): Generator<Shared> {
    const { top, bottom } = area.zone;
    yield* this.cells.within(area.sheetId, area.zone);
    for (const block of blocksOf(area)) {
      for (const shared of this.tall.get(block) ?? []) {
        if (touch(shared.area, area)) yield shared;
      }
      const rows = this.flat.get(block);
      if (rows === undefined) continue;
      if (isFlat(area)) {
        for (const shared of rows.get(top) ?? []) if (touch(shared.area, area)) yield shared;
        continue;
      }
      for (const [row, all] of rows) {
        if (row < top || row > bottom) continue;
        for (const shared of all) if (touch(shared.area, area)) yield shared;
      }
    }
  }

  private shared(range: Range): Shared {
    const isOne = isOneCell(range);
    const key = isOne ? '' : keyOf(range);
    const known = isOne ? this.cells.get(firstCell(range)) : this.ranges.get(key);
    if (known !== undefined) return known;
    const made: Shared = { area: range, dependents: new FewSet(), rank: 0, left: 0 };
    if (isOne) this.cells.set(firstCell(range), made);
    else {
      this.ranges.set(key, made);
      for (const among of this.places(made)) among.add(made);
    }
    return made;
  }

  private forget(shared: Shared): void {
    const { area } = shared;
    if (isOneCell(area)) {
      this.cells.delete(firstCell(area));
      return;
    }
    this.ranges.delete(keyOf(area));
    for (const among of this.places(shared)) among.delete(shared);
  }

  /** The sets by which a range is found. */
  private *places({ area }: Shared): Generator<FewSet<Shared>> {
    for (const block of blocksOf(area)) {
      if (isFlat(area)) {
        let rows = this.flat.get(block);
        if (!rows) this.flat.set(block, (rows = new Map()));
        let among = rows.get(area.zone.top);
        if (!among) rows.set(area.zone.top, (among = new FewSet()));
        yield among;
      } else {
        let among = this.tall.get(block);
        if (!among) this.tall.set(block, (among = new FewSet()));
        yield among;
      }
    }
  }
}
