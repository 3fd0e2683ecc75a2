/** Calls of cards against the bare loop of the same arithmetic. */
import { unionisedShare } from '../../src/core/ammonia';
import { feedRate } from '../../src/core/feeding';
import { growingTemperature, grownWeight } from '../../src/core/growth';
import { oxygenSaturation } from '../../src/core/oxygen';
import { species } from '../../src/core/tables/species';
import { callCard } from '../../src/functions/call';
import { findCard } from '../../src/functions/card-list';
import { excelFunction } from '../../src/hosts/excel/excel-functions';
import { type Line, ratioLine } from './line';
import { medians } from './timing';

const ROWS = 100_000;
const SINGLE_CALLS = 10_000;
/** Many rounds, since some of them clear away the memory of all. */
const LONG = { rounds: 45, warmUp: 15 };

/** Numbers spread evenly over a range, in an order without pattern. */
const spread = (count: number, low: number, high: number): number[] =>
  Array.from({ length: count }, (_, i) => low + ((high - low) * ((i * 7919) % count)) / count);

const column = (numbers: readonly number[]): number[][] => numbers.map((number) => [number]);

const cardNamed = (id: string) => {
  const card = findCard(id);
  if (!card) throw new Error(`There is no card ${id}`);
  return card;
};

interface Ranged {
  readonly id: string;
  readonly ranges: readonly (readonly [low: number, high: number])[];
  /** The arithmetic as a program without a spreadsheet would have it. */
  readonly bare: (...row: number[]) => number;
}

const tilapia = species.find(({ name }) => name === 'Nile tilapia');
if (!tilapia) throw new Error('The species of the bench is not in the table');

const ranged: readonly Ranged[] = [
  {
    id: 'AMMONIA.UNIONISED',
    ranges: [
      [0.1, 5],
      [6, 9],
      [10, 32],
    ],
    bare: (tan = 0, ph = 0, water = 0) => tan * unionisedShare(ph, water, 0),
  },
  { id: 'OXYGEN.FULL', ranges: [[5, 35]], bare: (water = 0) => oxygenSaturation(water, 0, 0) },
  {
    id: 'FEED.DAY',
    ranges: [
      [1, 900],
      [5, 900],
    ],
    bare: (fish = 0, weight = 0) => fish * weight * feedRate(tilapia, weight),
  },
  {
    id: 'GROWTH.WEIGHT',
    ranges: [
      [5, 400],
      [1, 90],
      [20, 31],
    ],
    bare: (weight = 0, days = 0, water = 0) =>
      grownWeight(weight, days, growingTemperature(tilapia, water), tilapia.facts.tgc[0]),
  },
];

/** Loops written out by number of arguments, so that the bare loop carries nothing that it need not. */
function bareLoop(bare: Ranged['bare'], columns: readonly (readonly number[])[]): number[] {
  const out: number[] = [];
  const [a = [], b = [], c = []] = columns as number[][];
  if (columns.length === 1) for (let i = 0; i < a.length; i++) out.push(bare(a[i] as number));
  else if (columns.length === 2)
    for (let i = 0; i < a.length; i++) out.push(bare(a[i] as number, b[i] as number));
  else
    for (let i = 0; i < a.length; i++)
      out.push(bare(a[i] as number, b[i] as number, c[i] as number));
  return out;
}

/** The same, between the cells that a spreadsheet hands over and those that it takes back. */
function bareLoopOfCells(
  bare: Ranged['bare'],
  blocks: readonly (readonly (readonly number[])[])[],
): number[][] {
  const out: number[][] = [];
  const [a = [], b = [], c = []] = blocks as number[][][];
  const cell = (block: number[][], i: number): number => (block[i] as number[])[0] as number;
  if (blocks.length === 1) for (let i = 0; i < a.length; i++) out.push([bare(cell(a, i))]);
  else if (blocks.length === 2)
    for (let i = 0; i < a.length; i++) out.push([bare(cell(a, i), cell(b, i))]);
  else for (let i = 0; i < a.length; i++) out.push([bare(cell(a, i), cell(b, i), cell(c, i))]);
  return out;
}

function sameOrStop(id: string, left: unknown, right: number): void {
  if (typeof left !== 'number' || !(Math.abs(left - right) <= 1e-12 * Math.abs(right))) {
    throw new Error(`GILL.${id} gives ${String(left)} where the bare loop gives ${right}`);
  }
}

export function rangedCalls(): Line[] {
  return ranged.flatMap(({ id, ranges, bare }) => {
    const card = cardNamed(id);
    const columns = ranges.map(([low, high]) => spread(ROWS, low, high));
    const blocks = columns.map(column);
    const answer = callCard(card, blocks) as number[][];
    bareLoop(bare, columns).forEach((value, i) => sameOrStop(id, answer[i]?.[0], value));
    const [call = NaN, loop = NaN, loopOfCells = NaN] = medians(
      [
        () => callCard(card, blocks),
        () => bareLoop(bare, columns),
        () => bareLoopOfCells(bare, blocks),
      ],
      LONG,
    );
    const what = `GILL.${id} over 100,000 rows in one call`;
    return [
      ratioLine(`${what}, against the bare loop over numbers`, call / loop, 'at most 3'),
      ratioLine(`${what}, against the bare loop over cells`, call / loopOfCells, 'at most 1.5'),
    ];
  });
}

export function singleCalls(): Line[] {
  const { id, ranges, bare } = ranged[0] as Ranged;
  const columns = ranges.map(([low, high]) => spread(SINGLE_CALLS, low, high));
  const call = excelFunction(cardNamed(id));
  const cells = Array.from({ length: SINGLE_CALLS }, (_, i) =>
    columns.map((numbers) => [[numbers[i]]]),
  );
  const loop = bareLoop(bare, columns);
  cells.forEach((args, i) =>
    sameOrStop(id, (call(...args) as number[][])[0]?.[0], loop[i] as number),
  );
  const [adapter = NaN, bareTime = NaN] = medians([
    () => cells.map((args) => call(...args)),
    () => bareLoop(bare, columns),
  ]);
  return [
    ratioLine(
      `GILL.${id}, 10,000 calls of one cell through Excel's adapter, against the bare loop`,
      adapter / bareTime,
      'none: Excel itself needs far longer for a call',
    ),
    {
      what: 'the same, time of one call',
      measured: `${((1000 * adapter) / SINGLE_CALLS).toFixed(2)} µs`,
      goal: 'below 10 µs',
    },
  ];
}
