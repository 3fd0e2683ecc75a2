import { daysBefore } from './day-parts';
import { call, type Formula, part, when } from './formula-parts';
import type { FishColumn } from './names';
import { cellRef, fixedRef } from './references';
import { area, type SheetBuilder } from './sheet-builder';
import type { FormatId } from './workbook-model';

export const columns = [
  'no',
  'order',
  'row',
  'x',
  'y',
  'kind',
  'fish',
  'weight',
  'day',
  'years',
  'month',
  'days',
  'leap',
  'qx',
  'qy',
  'fishX',
  'fishY',
  'rootX',
  'rootY',
  'grownX',
  'grownY',
  'gramsX',
  'problem',
  'lotX',
  'lotY',
  'came',
  'fishThenX',
  'fishThenY',
  'rootThenX',
  'rootThenY',
  'sinceThenX',
  'sinceThenY',
  'lotThenX',
  'lotThenY',
] as const;
export type ColumnId = (typeof columns)[number];

export const heads: Readonly<Record<ColumnId, string>> = {
  no: 'Line of its block',
  order: 'In order',
  row: 'Row of the log',
  x: 'Tank',
  y: 'To tank',
  kind: 'Event',
  fish: 'Fish of the row',
  weight: 'Weight of the row, g',
  day: 'Day',
  years: 'Years',
  month: 'Month',
  days: 'Days',
  leap: 'Leap days',
  qx: 'Line before, tank',
  qy: 'Line before, to tank',
  fishX: 'Fish before, tank',
  fishY: 'Fish before, to tank',
  rootX: 'Root before, tank',
  rootY: 'Root before, to tank',
  grownX: 'Growth, tank',
  grownY: 'Growth, to tank',
  gramsX: 'Weight before, g',
  problem: 'Cannot be',
  lotX: 'Lot before, tank',
  lotY: 'Lot before, to tank',
  came: 'Lot that came',
  fishThenX: 'Fish, tank',
  fishThenY: 'Fish, to tank',
  rootThenX: 'Root, tank',
  rootThenY: 'Root, to tank',
  sinceThenX: 'Since, tank',
  sinceThenY: 'Since, to tank',
  lotThenX: 'Lot, tank',
  lotThenY: 'Lot, to tank',
};

/** What a tank holds: the column of the first of its two places in a line. */
export const held = {
  fish: 'fishThenX',
  root: 'rootThenX',
  since: 'sinceThenX',
  lot: 'lotThenX',
} as const;
export type Held = keyof typeof held;
export const heldIds = Object.keys(held) as Held[];

export const facts = [
  'tgc',
  'best_low',
  'best_high',
  'feed_low',
  'feed_high',
] as const satisfies FishColumn[];

export const tankHeads = [
  'Tank',
  'Line in Species',
  ...facts,
  ...daysBefore.slice(0, 12).map((_, m) => `Rise a day, month ${m + 1}`),
  ...daysBefore.map((_, m) => `Rise before month ${m + 1}`),
  ...daysBefore.slice(0, 12).map((_, m) => `Appetite, month ${m + 1}`),
  'Last line',
  'Fish',
  'Root',
  'Since (0: none)',
  'Lots',
  'Fish on the day of the plan',
  'Mean weight, g',
  'In the tank since',
  'Lot',
  'Lines to put right',
];

/** Lines of a block. */
const blockLines = (tanks: number): number => (tanks <= 20 ? 25 : 100);

export interface JournalPlace {
  readonly firstRow: number;
  /** First free column. */
  readonly column: number;
  /** Rows of the log that it has lines for. */
  readonly lines: number;
  readonly tanks: number;
}

/** Columns of what stands to the right of the lines. */
function places(first: number, tanks: number) {
  const ofTanks = first + columns.length + 1;
  const factsOfTank = ofTanks + 2;
  const rises = factsOfTank + facts.length;
  const before = rises + 12;
  const appetite = before + 13;
  const last = appetite + 12;
  const ofHeld = last + 1;
  const says = ofTanks + tankHeads.length + 1;
  const snapshots = says + 2;
  return {
    /** What holds of each tank the year through, and what each holds in the end: one line a tank. */
    tanks: ofTanks,
    line: ofTanks + 1,
    facts: factsOfTank,
    rises,
    before,
    appetite,
    last,
    held: ofHeld,
    /** What it holds on the day of the plan. */
    shown: ofHeld + heldIds.length,
    says,
    /** What all tanks held when a block of lines began, in its first line. */
    atBlock: (what: 'last' | Held): number =>
      snapshots + ['last', ...heldIds].indexOf(what) * tanks,
  };
}

/** What all parts of the journal share: where each stands, and how they ask each other. */
export function journalOn(
  sheet: SheetBuilder,
  { firstRow, column: first, lines, tanks }: JournalPlace,
) {
  const place = places(first, tanks);
  const at = (id: ColumnId): number => first + columns.indexOf(id);
  const size = blockLines(tanks);
  const blockArea = (block: number, column: number, wide = 1): Formula =>
    fixedRef(area(firstRow + block * size, column, Math.min(size, lines - block * size), wide));
  /** Where in a block a tank stands last: twice the line, and one more where fish came into it. */
  const lastOf = (tank: Formula, x: Formula, y: Formula, no: Formula): Formula =>
    call(
      'SUMPRODUCT',
      call('MAX', x.is(tank).times(no).times(2), y.is(tank).times(no.times(2).plus(1))),
    );
  const fromBlock = (places: Formula, q: Formula): Formula =>
    call('INDEX', places, call('INT', q.over(2)), part(1).plus(call('MOD', q, 2)));
  const nothing: Readonly<Record<Held, Formula>> = {
    fish: part(0),
    root: part(0),
    since: part(0),
    lot: part(''),
  };
  /** What tank number `k` (from 0) held when a block began. */
  const atStart = (block: number, what: Held, k: number): Formula =>
    block === 0 ? nothing[what] : cellRef(firstRow + block * size, place.atBlock(what) + k);
  return {
    sheet,
    firstRow,
    lines,
    tanks,
    place,
    at,
    /** Above the heads: rows without a day or that do not count, whether all were seen, the day of the plan. */
    over: {
      row: firstRow - 2,
      rest: at('order'),
      counted: at('no'),
      seen: at('row'),
      today: at('month'),
    },
    /** Lines of a block, and how many blocks there are. */
    size,
    blocks: Math.ceil(lines / size),
    nothing,
    lastOf,
    fromBlock,
    put(row: number, column: number, formula: Formula, format: FormatId = 'general'): void {
      sheet.put(row, column, { formula, look: 'source', format });
    },
    head(column: number, value: string): void {
      sheet.put(firstRow - 1, column, { value, look: 'columnHead' });
    },
    rise: (tank: Formula, month: Formula | number): Formula =>
      call('INDEX', fixedRef(area(firstRow, place.rises, tanks, 12)), tank, month),
    before: (tank: Formula, month: Formula | number): Formula =>
      call('INDEX', fixedRef(area(firstRow, place.before, tanks, 13)), tank, month),
    afterBlock: (block: number, what: Held, k: number, q: Formula): Formula =>
      when(q.is(0), atStart(block, what, k), fromBlock(blockArea(block, at(held[what]), 2), q)),
    lastInBlock: (block: number, tank: Formula): Formula =>
      lastOf(
        tank,
        blockArea(block, at('x')),
        blockArea(block, at('y')),
        blockArea(block, at('no')),
      ),
  };
}
export type FishJournal = ReturnType<typeof journalOn>;
