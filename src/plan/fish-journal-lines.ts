import { SEVERAL_LOTS } from '../core/groups';
import { leapDays, yearsAfter } from './day-parts';
import { kindIs, problems } from './fish-log-columns';
import {
  all,
  any,
  blankUnless,
  call,
  cases,
  type Condition,
  type Formula,
  isoDate,
  joined,
  not,
  part,
  when,
} from './formula-parts';
import { nth } from './names';
import { fixedRef, rowRef, span } from './references';
import { dayOfDayKey, isKey, keyInOrder, rowOfKey } from './register-keys';
import { area } from './sheet-builder';
import { type ColumnId, held, type Held, type FishJournal } from './fish-journal-layout';

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

/** A line of the journal: its places, what it says, and what is asked of it more than once. */
function journalLine(journal: FishJournal, line: number) {
  const { firstRow, place, at, size, nothing, put, fromBlock, tanks } = journal;
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
  const goes = all(isIn, c('y').above(0));
  const writeY = (id: ColumnId, formula: Formula): void =>
    put(row, at(id), when(goes, formula, id === 'lotY' || id === 'lotThenY' ? '' : 0));
  const isFirst = row === start;
  const heldBefore = (what: Held, tank: Formula, q: Formula): Formula => {
    const early =
      block === 0
        ? nothing[what]
        : call('INDEX', fixedRef(area(start, place.atBlock(what), 1, tanks)), 1, tank);
    return isFirst ? early : when(q.is(0), early, fromBlock(above(held[what], 2), q));
  };
  const is = (what: Parameters<typeof kindIs>[1]): Condition => kindIs(c('kind'), what);
  const graded = all(c('weight').above(0), not(is('died')));
  const heavier = c('fishX')
    .times(c('gramsX'))
    .minus(c('fish').times(c('weight')));
  return {
    journal,
    line,
    row,
    no: line - block * size + 1,
    c,
    above,
    isFirst,
    write,
    /** Written where fish went to another tank. */
    writeY,
    beforeX: (what: Held): Formula => heldBefore(what, c('x'), c('qx')),
    beforeY: (what: Held): Formula => heldBefore(what, c('y'), c('qy')),
    is,
    cannot: c('problem').above(0),
    /** Fish of a weight of their own leave. */
    graded,
    /** Grams that are left where they leave. */
    heavier,
  };
}
type JournalLine = ReturnType<typeof journalLine>;

/** Which row it is, and what it says. */
function whatItSays({ journal, line, row, no, c, write }: JournalLine): void {
  const { sheet, at, over, put } = journal;
  sheet.put(row, at('no'), { value: no, look: 'source' });
  put(
    row,
    at('order'),
    keyInOrder(
      'Fishlog_key',
      fixedRef(area(over.row, over.counted)),
      line + 1,
      fixedRef(area(over.row, over.rest)),
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
  write('years', yearsAfter(day));
  write('month', call('MONTH', day));
  write('days', call('DAY', day).minus(1));
  write('leap', leapDays(day, { years: c('years'), month: c('month'), days: c('days') }));
}

/** What its tanks hold when its day comes. */
function tanksBefore(line: JournalLine): void {
  const { journal, c, above, isFirst, write, writeY, beforeX, beforeY } = line;
  const { lastOf, rise, before } = journal;
  const last = (tank: Formula): Formula =>
    isFirst ? part(0) : lastOf(tank, above('x'), above('y'), above('no'));
  write('qx', last(c('x')));
  writeY('qy', last(c('y')));
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
}

function whyItCannotBe({ c, write, is, graded, heavier }: JournalLine): void {
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
}

/** Fish and weight that it leaves in its tanks. */
function fishAfter({ c, write, writeY, is, cannot, graded, heavier }: JournalLine): void {
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
}

/** Since when there are fish in its tanks, and of which lots. */
function lotsAfter({ c, write, writeY, beforeX, beforeY, is, cannot }: JournalLine): void {
  const day = c('day');
  write('lotX', beforeX('lot'));
  writeY('lotY', beforeY('lot'));
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

/** The lines of the journal, in order of time. */
export function journalLines(journal: FishJournal): void {
  for (let n = 0; n < journal.lines; n++) {
    const line = journalLine(journal, n);
    whatItSays(line);
    tanksBefore(line);
    whyItCannotBe(line);
    fishAfter(line);
    lotsAfter(line);
  }
}
