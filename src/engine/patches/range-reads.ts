import { type CellPosition, helpers, registries } from '@odoo/o-spreadsheet';
import type {
  Dependent,
  DependencyGraph,
  Range,
  Reads,
  Shared,
  SingleReads,
} from './dependency-graph';
import { mendFunction, needParts } from './patch';

/** The values of a range, column by column. */
export type Matrix = readonly (readonly ReadCell[])[];

interface ReadCell {
  readonly value: unknown;
  readonly position?: CellPosition;
}

/** Of smaller ranges it is not worth knowing which cells were looked at. */
const MIN_CELLS = 24;

/** A row or column out of a block, of which INDEX gives all, may have so many cells. */
const MAX_FOUND = 60;

/** A cell that has come out otherwise. */
export interface Change {
  readonly position: CellPosition;
  readonly was: unknown;
  readonly is: unknown;
}

/** Whether every number found by its order is still that: the change stays on one side of it. */
function keepsOrder({ was, is }: Change, ordered: readonly number[]): boolean {
  if ([was, is].some((value) => helpers.isEvaluationError(value as string))) return false;
  // What is no number counts for nothing, as one beyond all others would.
  const [a, b] = [was, is].map((value) => (typeof value === 'number' ? value : Infinity)) as [
    number,
    number,
  ];
  return ordered.every((found) => (a > found && b > found) || (a < found && b < found));
}

/** Of single cells nobody writes down whether they were read. */
const isOneCell = ({ area: { zone } }: Shared): boolean =>
  zone.top === zone.bottom && zone.left === zone.right;

/** Whether a formula that calls a range may give something else after a change of one of its cells. */
export function isReached(dependent: Dependent, shared: Shared, change: Change): boolean {
  const { reads } = dependent;
  if (reads === undefined) return true;
  const single = reads.singles.find((read) => read.shared === shared);
  if (single === undefined)
    return !reads.isLazy || isOneCell(shared) || reads.whole.includes(shared);
  return (
    single.cells.includes(placeIn(change.position)) ||
    (single.ordered.length > 0 && !keepsOrder(change, single.ordered))
  );
}

/** What a formula does with a range while it is computed. */
interface Read {
  readonly range: Range;
  readonly cells: Set<number>;
  readonly ordered: number[];
  /** How often the formula asked for the range. */
  asked: number;
  /** How often a function that looks at single cells took it, once for each time it was asked for. */
  taken: number;
  isTaken: boolean;
}

const placeIn = ({ col, row }: { readonly col: number; readonly row: number }): number =>
  col * 2 ** 21 + row;

/** What the formula that is being computed has read so far. */
let reading: Map<Matrix, Read> | undefined;

const isSmall = (values: Matrix): boolean => values.length * (values[0]?.length ?? 0) < MIN_CELLS;

const NO_CELLS = new Set<number>();
const NOTHING: Reads = { singles: [], whole: [], isLazy: true };

let isLazy = false;

/** The formula that is being computed computes the branches of its conditions when they are asked for. */
export function noteLazy(): void {
  isLazy = true;
}

/** A formula asks for a range. */
export function noteRange(range: Range, values: Matrix): void {
  if (!reading) return;
  const known = reading.get(values);
  if (known) {
    known.asked += 1;
    known.isTaken = false;
  } else {
    const cells = isSmall(values) ? NO_CELLS : new Set<number>();
    reading.set(values, { range, cells, ordered: [], asked: 1, taken: 0, isTaken: false });
  }
}

/** A function looks at single cells of a range, and says at which. */
function take(values: unknown): Read | undefined {
  const read = Array.isArray(values) ? reading?.get(values as unknown as Matrix) : undefined;
  if (read && isSmall(values as unknown as Matrix)) return undefined;
  if (read && !read.isTaken) {
    read.isTaken = true;
    read.taken += 1;
  }
  return read;
}

/** The same values; which of them are looked at is written down. */
function watched(values: Matrix, { range: { zone }, cells }: Read): Matrix {
  return values.map(
    (column, c) =>
      new Proxy(column, {
        get(target, key) {
          if (typeof key === 'string' && key !== 'length')
            cells.add(placeIn({ col: zone.left + c, row: zone.top + Number(key) }));
          return Reflect.get(target, key) as unknown;
        },
      }),
  );
}

type Compute = (this: unknown, ...args: unknown[]) => unknown;

const numberOf = (argument: unknown): unknown =>
  (argument as { readonly value?: unknown } | undefined)?.value;

/** Has INDEX, SMALL, LOOKUP and the MATCH of what is in order say what they look at. */
export function watchSingleReads(patch: string): void {
  needParts(patch, registries.functionRegistry.content, ['INDEX', 'LOOKUP', 'MATCH', 'SMALL']);
  mendFunction(
    'INDEX',
    (index) =>
      function (values, ...place) {
        const result = index.call(this, values, ...place) as ReadCell | Matrix;
        const block = Array.isArray(result) ? (result as Matrix) : undefined;
        if (block && block.length * (block[0]?.length ?? 0) > MAX_FOUND) return result;
        const read = take(values);
        if (!read) return result;
        for (const { position } of block?.flat() ?? [result as ReadCell])
          if (position) read.cells.add(placeIn(position));
        return result;
      },
  );
  mendFunction(
    'SMALL',
    (small) =>
      function (values, place) {
        const result = small.call(this, values, place);
        const found = numberOf(result) ?? result;
        if (typeof found === 'number') take(values)?.ordered.push(found);
        return result;
      },
  );
  const search = (compute: Compute, isInOrder: (type: unknown) => boolean): Compute =>
    function (key, values, more) {
      const read = isInOrder(more) ? take(values) : undefined;
      return compute.call(this, key, read ? watched(values as Matrix, read) : values, more);
    };
  mendFunction('LOOKUP', (lookup) => search(lookup, (results) => results === undefined));
  mendFunction('MATCH', (match) =>
    search(match, (type) => {
      const value = numberOf(type);
      return type === undefined || (typeof value === 'number' && value > 0);
    }),
  );
}

const NOTHING_READ: readonly never[] = [];

/** The same list without the room that it kept to grow. */
const exactly = <T>(list: readonly T[]): readonly T[] =>
  list.length === 0 ? NOTHING_READ : list.slice();

/** Asked anew after a formula was computed, which may have set it. */
const wasLazy = (): boolean => isLazy;

/** Keeps what a formula reads while it is computed. */
export function whileReading<T>(
  dependent: Dependent | undefined,
  graph: DependencyGraph,
  compute: () => T,
): T {
  const outer = reading;
  const outerIsLazy = isLazy;
  const reads = new Map<Matrix, Read>();
  reading = reads;
  isLazy = false;
  try {
    return compute();
  } finally {
    reading = outer;
    if (dependent) {
      const singles: SingleReads[] = [];
      const whole: Shared[] = [];
      for (const { range, cells, ordered, asked, taken } of reads.values()) {
        const shared = graph.known(range);
        if (shared && asked === taken)
          singles.push({ shared, cells: exactly([...cells]), ordered: exactly(ordered) });
        else if (shared) whole.push(shared);
      }
      // What is read as a whole by a formula that computes all of itself is said by its ranges.
      dependent.reads =
        singles.length === 0 && !wasLazy()
          ? undefined
          : singles.length + whole.length === 0
            ? NOTHING
            : { singles: exactly(singles), whole: exactly(whole), isLazy };
    }
    isLazy = outerIsLazy;
  }
}
