/**
 * The Fish log in order of time, beside the log: what each row leaves in its tank, and in the one that fish
 * went to. Each line looks only at lines above it: in its block of lines for the line before of the tank, and
 * else at what all tanks held when the block began. From the last block follows what tanks hold on the day of
 * the plan.
 *
 * A weight stands as its cube root less what the tank's fish grow from the first of the year of the plan up to
 * the day of the row, below it for earlier days. So it stays the same between rows, and fish that nobody
 * touches need no line.
 */
import { SEVERAL_LOTS } from '../core/groups';
import { feedRateCard } from '../functions/feed-cards';
import { growthWeightCard } from '../functions/growth-cards';
import { cardStep } from './card-step';
import type { PlanContext } from './context';
import { fishSentences, kindIs, problems } from './fish-log-columns';
import {
  all,
  any,
  blankIf,
  blankUnless,
  call,
  cases,
  type Condition,
  type Formula,
  isoDate,
  joined,
  madeElsewhere,
  not,
  part,
  when,
} from './formula-parts';
import { type FishColumn, named, nth, type FigureName } from './names';
import { cellRef, fixedRef, rowRef, span } from './references';
import { dayOfDayKey, isKey, keyInOrder, rowOfKey } from './register-keys';
import { area, type SheetBuilder } from './sheet-builder';
import type { FormatId } from './workbook-model';

const columns = [
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
type ColumnId = (typeof columns)[number];

const heads: Readonly<Record<ColumnId, string>> = {
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
const held = {
  fish: 'fishThenX',
  root: 'rootThenX',
  since: 'sinceThenX',
  lot: 'lotThenX',
} as const;
type Held = keyof typeof held;
const heldIds = Object.keys(held) as Held[];

const daysBefore = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365] as const;
export const daysBeforeList = madeElsewhere(`{${daysBefore.slice(0, 12).join(',')}}`);
const facts = [
  'tgc',
  'best_low',
  'best_high',
  'feed_low',
  'feed_high',
] as const satisfies FishColumn[];

/** Lines of a block. */
const blockLines = (tanks: number): number => (tanks <= 20 ? 25 : 100);

const bothLots = (before: Formula, came: Formula): Formula => {
  const listed = (text: Formula): Formula => joined(', ', text, ', ');
  return cases(
    [
      [before.isBlank, came],
      [call('ISNUMBER', call('FIND', listed(came), listed(before))) as Condition, before],
      [
        any(
          before.is(SEVERAL_LOTS),
          came.is(SEVERAL_LOTS),
          call('LEN', before).plus(call('LEN', came)).above(198),
        ),
        SEVERAL_LOTS,
      ],
    ],
    joined(before, ', ', came),
  );
};

export interface JournalPlace {
  readonly firstRow: number;
  /** First free column. */
  readonly column: number;
  /** Rows of the log that it has lines for. */
  readonly lines: number;
  readonly tanks: number;
}

/** Writes the journal beside the log, and names what tanks hold. */
export function fishJournal(
  sheet: SheetBuilder,
  ctx: PlanContext,
  { firstRow, column: first, lines, tanks }: JournalPlace,
): void {
  const head = firstRow - 1;
  const at = (id: ColumnId): number => first + columns.indexOf(id);
  const put = (row: number, column: number, formula: Formula, format: FormatId = 'general'): void =>
    sheet.put(row, column, { formula, look: 'source', format });
  columns.forEach((id) => {
    sheet.put(head, at(id), { value: heads[id], look: 'columnHead' });
    sheet.width(at(id), 9);
  });

  // What holds of each tank the year through, and what each holds in the end: one line a tank.
  const tankFirst = first + columns.length + 1;
  const tankHeads = [
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
  const LINE = tankFirst + 1;
  const FACTS = tankFirst + 2;
  const RISES = FACTS + facts.length;
  const BEFORE = RISES + 12;
  const APPETITE = BEFORE + 13;
  const LAST = APPETITE + 12;
  const HELD = LAST + 1;
  const SHOWN = HELD + heldIds.length;
  tankHeads.forEach((value, i) => {
    sheet.put(head, tankFirst + i, { value, look: 'columnHead' });
    sheet.width(tankFirst + i, 9);
  });
  const rise = (tank: Formula, month: Formula | number): Formula =>
    call('INDEX', fixedRef(area(firstRow, RISES, tanks, 12)), tank, month);
  const before = (tank: Formula, month: Formula | number): Formula =>
    call('INDEX', fixedRef(area(firstRow, BEFORE, tanks, 13)), tank, month);

  const today = named('Farm_date');
  const yearOf = (day: Formula): Formula => call('YEAR', day).minus(call('YEAR', today));
  const leapOf = (day: Formula, years: Formula, month: Formula, days: Formula): Formula =>
    day
      .minus(call('DATE', call('YEAR', today), 1, 1))
      .minus(part(365).times(years))
      .minus(call('INDEX', daysBeforeList, 1, month))
      .minus(days);

  // Above the heads: how many rows have no day or do not count, whether all rows were seen, the day of the plan.
  const over = head - 1;
  const REST = at('order');
  const COUNTED = at('no');
  const SEEN = at('row');
  const TODAY = at('month');
  const keys = named('Fishlog_key');
  put(over, REST, call('COUNTIF', keys, 0));
  put(over, COUNTED, call('COUNT', keys).minus(fixedRef(area(over, REST))));
  put(
    over,
    SEEN,
    all(
      call('COUNT', keys).is(call('COUNTA', named('Fishlog_date'))),
      fixedRef(area(over, COUNTED)).atMost(lines),
    ),
  );
  put(over, TODAY, call('MONTH', today));
  put(over, TODAY + 1, call('DAY', today).minus(1));
  const [monthNow, daysNow] = [fixedRef(area(over, TODAY)), fixedRef(area(over, TODAY + 1))];
  put(over, TODAY + 2, leapOf(today, part(0), monthNow, daysNow), 'whole');
  const leapNow = fixedRef(area(over, TODAY + 2));

  // What all tanks held when a block of lines began stands in its first line.
  const size = blockLines(tanks);
  const blocks = Math.ceil(lines / size);
  const SAYS = tankFirst + tankHeads.length + 1;
  sheet.put(head, SAYS, { value: 'What is said of a row', look: 'columnHead' });
  fishSentences.forEach((value, i) => {
    if (value !== '') sheet.put(firstRow + i, SAYS, { value, look: 'source' });
  });
  ctx.name('Journal_says', sheet.name, area(firstRow, SAYS, fishSentences.length));
  const snapFirst = SAYS + 2;
  const snapColumn = (what: 'last' | Held): number =>
    snapFirst + ['last', ...heldIds].indexOf(what) * tanks;
  if (blocks > 1) {
    (['last', ...heldIds] as const).forEach((what) =>
      sheet.heading(head, snapColumn(what), tanks, `At the start of a block: ${what}`),
    );
  }
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
    block === 0 ? nothing[what] : cellRef(firstRow + block * size, snapColumn(what) + k);
  const afterBlock = (block: number, what: Held, k: number, q: Formula): Formula =>
    when(q.is(0), atStart(block, what, k), fromBlock(blockArea(block, at(held[what]), 2), q));
  const lastInBlock = (block: number, tank: Formula): Formula =>
    lastOf(tank, blockArea(block, at('x')), blockArea(block, at('y')), blockArea(block, at('no')));
  for (let block = 1; block < blocks; block++) {
    const row = firstRow + block * size;
    for (let k = 0; k < tanks; k++) {
      put(row, snapColumn('last') + k, lastInBlock(block - 1, part(k + 1)));
      const q = cellRef(row, snapColumn('last') + k);
      for (const what of heldIds) put(row, snapColumn(what) + k, afterBlock(block - 1, what, k, q));
    }
  }

  for (let line = 0; line < lines; line++) {
    const row = firstRow + line;
    const block = Math.floor(line / size);
    const start = firstRow + block * size;
    const c = (id: ColumnId): Formula => rowRef(row, at(id));
    const above = (id: ColumnId, wide = 1): Formula =>
      span(rowRef(start, at(id)), rowRef(row - 1, at(id) + wide - 1));
    const isIn = c('row').isFilled;
    const write = (id: ColumnId, formula: Formula): void =>
      // A day less a day is a number, and not itself a day.
      put(row, at(id), blankUnless(isIn, formula), id === 'leap' ? 'whole' : 'general');
    sheet.put(row, at('no'), { value: line - block * size + 1, look: 'source' });
    put(
      row,
      at('order'),
      keyInOrder(
        'Fishlog_key',
        fixedRef(area(over, COUNTED)),
        line + 1,
        fixedRef(area(over, REST)),
      ),
    );
    put(row, at('row'), blankUnless(isKey(c('order')), rowOfKey(c('order'))));
    write('x', nth('Fishlog_tank_number', c('row')));
    write('y', nth('Fishlog_to_number', c('row')));
    write('kind', nth('Fishlog_kind', c('row')));
    write('fish', nth('Fishlog_fish', c('row')).orZero);
    write('weight', nth('Fishlog_weight', c('row')).orZero);
    const day = c('day');
    write('day', dayOfDayKey(c('order')));
    write('years', yearOf(day));
    write('month', call('MONTH', day));
    write('days', call('DAY', day).minus(1));
    write('leap', leapOf(day, c('years'), c('month'), c('days')));
    const goes = all(isIn, c('y').above(0));
    const writeY = (id: ColumnId, formula: Formula): void =>
      put(row, at(id), when(goes, formula, id === 'lotY' || id === 'lotThenY' ? '' : 0));
    const isFirst = row === start;
    const last = (tank: Formula): Formula =>
      isFirst ? part(0) : lastOf(tank, above('x'), above('y'), above('no'));
    write('qx', last(c('x')));
    writeY('qy', last(c('y')));
    const heldBefore = (what: Held, tank: Formula, q: Formula): Formula => {
      const early =
        block === 0
          ? nothing[what]
          : call('INDEX', fixedRef(area(start, snapColumn(what), 1, tanks)), 1, tank);
      return isFirst ? early : when(q.is(0), early, fromBlock(above(held[what], 2), q));
    };
    const beforeX = (what: Held): Formula => heldBefore(what, c('x'), c('qx'));
    const beforeY = (what: Held): Formula => heldBefore(what, c('y'), c('qy'));
    write('fishX', beforeX('fish'));
    write('rootX', beforeX('root'));
    writeY('fishY', beforeY('fish'));
    writeY('rootY', beforeY('root'));
    const grown = (tank: Formula): Formula =>
      c('years')
        .times(before(tank, 13))
        .plus(before(tank, c('month')))
        .plus(c('days').times(rise(tank, c('month'))))
        .plus(c('leap').times(rise(tank, 2)));
    write('grownX', grown(c('x')));
    writeY('grownY', grown(c('y')));
    write('gramsX', when(c('fishX').is(0), 0, c('rootX').plus(c('grownX')).power(3)));
    const is = (what: Parameters<typeof kindIs>[1]): Condition => kindIs(c('kind'), what);
    const graded = all(c('weight').above(0), not(is('died')));
    const heavier = c('fishX')
      .times(c('gramsX'))
      .minus(c('fish').times(c('weight')));
    write(
      'problem',
      cases(
        [
          [is('stocked'), 0],
          [all(c('fishX').is(0), not(all(is('counted'), c('fish').is(0)))), problems['no fish']],
          [is('counted'), 0],
          [is('weighed'), when(c('fish').above(c('fishX')), problems['few to weigh'], 0)],
          [c('fish').above(c('fishX')), problems['few to leave']],
          [all(graded, c('fish').below(c('fishX')), heavier.atMost(0)), problems['too heavy']],
        ],
        0,
      ),
    );
    const cannot = c('problem').above(0);
    write('lotX', beforeX('lot'));
    writeY('lotY', beforeY('lot'));
    write(
      'fishThenX',
      cases(
        [
          [any(cannot, is('weighed')), c('fishX')],
          [is('stocked'), c('fishX').plus(c('fish'))],
          [is('counted'), c('fish')],
        ],
        c('fishX').minus(c('fish')),
      ),
    );
    writeY('fishThenY', when(cannot, c('fishY'), c('fishY').plus(c('fish'))));
    write(
      'rootThenX',
      cases(
        [
          [c('fishThenX').is(0), 0],
          [any(cannot, is('died'), c('weight').is(0)), c('rootX')],
        ],
        cases(
          [
            [
              is('stocked'),
              c('fishX')
                .times(c('gramsX'))
                .plus(c('fish').times(c('weight')))
                .over(c('fishThenX')),
            ],
            [any(is('weighed'), is('counted')), c('weight')],
          ],
          heavier.over(c('fishThenX')),
        )
          .power(part(1).over(3))
          .minus(c('grownX')),
      ),
    );
    const gramsY = c('rootY').plus(c('grownY')).power(3);
    writeY(
      'rootThenY',
      when(
        cannot,
        c('rootY'),
        when(c('fishY').is(0), 0, c('fishY').times(gramsY))
          .plus(c('fish').times(when(graded, c('weight'), c('gramsX'))))
          .over(c('fishThenY'))
          .power(part(1).over(3))
          .minus(c('grownY')),
      ),
    );
    write(
      'sinceThenX',
      cases(
        [
          [c('fishThenX').is(0), 0],
          [c('fishX').is(0), day],
        ],
        beforeX('since'),
      ),
    );
    writeY('sinceThenY', when(all(c('fishY').is(0), not(cannot)), day, beforeY('since')));
    const lot = nth('Fishlog_lot', c('row'));
    write(
      'came',
      when(
        is('stocked'),
        when(
          lot.isBlank,
          joined(isoDate(day), ' ', call('TRIM', nth('Tanks_name', c('x')))),
          call('TRIM', lot),
        ),
        c('lotX'),
      ),
    );
    write(
      'lotThenX',
      cases(
        [
          [c('fishThenX').is(0), ''],
          [is('stocked'), bothLots(c('lotX'), c('came'))],
        ],
        c('lotX'),
      ),
    );
    writeY('lotThenY', when(cannot, c('lotY'), bothLots(c('lotY'), c('came'))));
  }

  const seen = fixedRef(area(over, SEEN));
  for (let k = 0; k < tanks; k++) {
    const row = firstRow + k;
    const c = (column: number): Formula => rowRef(row, column);
    const name = nth('Tanks_name', k + 1);
    put(row, tankFirst, name.isFilled);
    const isThere = c(tankFirst) as Condition;
    const ifThere = (column: number, formula: Formula, format?: FormatId): void =>
      put(row, column, blankUnless(isThere, formula), format);
    ifThere(LINE, nth('Tanks_line', k + 1));
    facts.forEach((fact, i) => ifThere(FACTS + i, nth(`Fish_${fact}`, c(LINE))));
    const factOf = (fact: string): Formula | undefined => {
      const i = (facts as readonly string[]).indexOf(fact);
      return i < 0 ? undefined : c(FACTS + i);
    };
    for (let m = 0; m < 12; m++) {
      const water = nth('Month_water', m + 1);
      ifThere(
        RISES + m,
        c(FACTS)
          .over(1000)
          .times(cardStep(growthWeightCard, 'temperature', { arguments: { water }, fact: factOf })),
      );
      ifThere(
        APPETITE + m,
        cardStep(feedRateCard, 'appetite', { arguments: { water }, fact: factOf }),
      );
    }
    put(row, BEFORE, part(0));
    for (let m = 1; m <= 12; m++) {
      const length = (daysBefore[m] as number) - (daysBefore[m - 1] as number);
      ifThere(BEFORE + m, c(BEFORE + m - 1).plus(c(RISES + m - 1).times(length)));
    }
    put(row, LAST, lastInBlock(blocks - 1, part(k + 1)));
    heldIds.forEach((what, i) => put(row, HELD + i, afterBlock(blocks - 1, what, k, c(LAST))));
    const [fish, root, since, lot] = heldIds.map((_, i) => c(HELD + i)) as [
      Formula,
      Formula,
      Formula,
      Formula,
    ];
    const number = part(k + 1);
    ifThere(
      SHOWN,
      when(
        seen as Condition,
        fish,
        // Rows that nothing looked at must not be missing from what tanks hold.
        call(
          'VALUE',
          'the Fish log has more rows than its folded columns: copy them down beside the new rows, or renew the plan',
        ),
      ),
    );
    const stocked = c(SHOWN).above(0);
    const shown = (i: number, formula: Formula, format?: FormatId): void =>
      ifThere(SHOWN + i, blankUnless(stocked, formula), format);
    const grownNow = before(number, monthNow)
      .plus(daysNow.times(rise(number, monthNow)))
      .plus(leapNow.times(rise(number, 2)));
    shown(1, root.plus(grownNow).power(3));
    shown(2, blankIf(since.is(0), since), 'date');
    shown(3, lot);
    ifThere(
      SHOWN + 4,
      call(
        'SUMPRODUCT',
        named('Fishlog_tank_number')
          .is(number)
          .plus(named('Fishlog_to_number').is(number))
          .above(0)
          .times(named('Fishlog_says').isFilled),
      ),
    );
  }
  const names: readonly FigureName[] = [
    'Held_fish',
    'Held_weight',
    'Held_since',
    'Held_lot',
    'Held_wrong',
  ];
  names.forEach((name, i) => ctx.name(name, sheet.name, area(firstRow, SHOWN + i, tanks)));
  ctx.name('Journal_rise', sheet.name, area(firstRow, RISES, tanks, 12));
  ctx.name('Journal_before', sheet.name, area(firstRow, BEFORE, tanks, 13));
  ctx.name('Journal_appetite', sheet.name, area(firstRow, APPETITE, tanks, 12));
  ctx.name('Journal_order', sheet.name, area(firstRow, at('order'), lines));
  ctx.name('Journal_problem', sheet.name, area(firstRow, at('problem'), lines));
}
