import { feedRateCard } from '../functions/feed-cards';
import { growthWeightCard } from '../functions/growth-cards';
import { cardStep } from './card-step';
import type { PlanContext } from './context';
import { daysBefore } from './day-parts';
import {
  blankIf,
  blankUnless,
  call,
  type Condition,
  type Formula,
  part,
  when,
} from './formula-parts';
import { named, nth, type FigureName } from './names';
import { fixedRef, rowRef } from './references';
import { area } from './sheet-builder';
import type { FormatId } from './workbook-model';
import { heldIds, facts, type FishJournal } from './fish-journal-layout';

/** A tank of the journal: a line beside the first rows. */
function journalTank(journal: FishJournal, k: number) {
  const { firstRow, place, put } = journal;
  const row = firstRow + k;
  const c = (column: number): Formula => rowRef(row, column);
  const isThere = c(place.tanks) as Condition;
  return {
    journal,
    k,
    number: part(k + 1),
    row,
    c,
    ifThere(column: number, formula: Formula, format?: FormatId): void {
      put(row, column, blankUnless(isThere, formula), format);
    },
  };
}
type JournalTank = ReturnType<typeof journalTank>;

/** What holds of it the year through. */
function yearOf({ journal, k, row, c, ifThere }: JournalTank): void {
  const { place, put } = journal;
  put(row, place.tanks, nth('Tanks_name', k + 1).isFilled);
  ifThere(place.line, nth('Tanks_line', k + 1));
  facts.forEach((fact, i) => ifThere(place.facts + i, nth(`Fish_${fact}`, c(place.line))));
  const factOf = (fact: string): Formula | undefined => {
    const i = (facts as readonly string[]).indexOf(fact);
    return i < 0 ? undefined : c(place.facts + i);
  };
  for (let m = 0; m < 12; m++) {
    const water = nth('Month_water', m + 1);
    ifThere(
      place.rises + m,
      c(place.facts)
        .over(1000)
        .times(cardStep(growthWeightCard, 'temperature', { arguments: { water }, fact: factOf })),
    );
    ifThere(
      place.appetite + m,
      cardStep(feedRateCard, 'appetite', { arguments: { water }, fact: factOf }),
    );
  }
  put(row, place.before, part(0));
  for (let m = 1; m <= 12; m++) {
    const length = (daysBefore[m] as number) - (daysBefore[m - 1] as number);
    ifThere(place.before + m, c(place.before + m - 1).plus(c(place.rises + m - 1).times(length)));
  }
}

/** What it holds after the last line. */
function heldInTheEnd({ journal, k, number, row, c }: JournalTank): void {
  const { place, blocks, put, lastInBlock, afterBlock } = journal;
  put(row, place.last, lastInBlock(blocks - 1, number));
  heldIds.forEach((what, i) =>
    put(row, place.held + i, afterBlock(blocks - 1, what, k, c(place.last))),
  );
}

/** What it holds on the day of the plan, and how many rows of it are to be put right. */
function heldNow({ journal, number, c, ifThere }: JournalTank): void {
  const { place, over, rise, before } = journal;
  const seen = fixedRef(area(over.row, over.seen));
  const [monthNow, daysNow, leapNow] = [0, 1, 2].map((i) =>
    fixedRef(area(over.row, over.today + i)),
  ) as [Formula, Formula, Formula];
  const [fish, root, since, lot] = heldIds.map((_, i) => c(place.held + i)) as [
    Formula,
    Formula,
    Formula,
    Formula,
  ];
  ifThere(
    place.shown,
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
  const stocked = c(place.shown).above(0);
  const shown = (i: number, formula: Formula, format?: FormatId): void =>
    ifThere(place.shown + i, blankUnless(stocked, formula), format);
  const grownNow = before(number, monthNow)
    .plus(daysNow.times(rise(number, monthNow)))
    .plus(leapNow.times(rise(number, 2)));
  shown(1, root.plus(grownNow).power(3));
  shown(2, blankIf(since.is(0), since), 'date');
  shown(3, lot);
  ifThere(
    place.shown + 4,
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

function tankNames(
  { sheet, firstRow, tanks, place, at, lines }: FishJournal,
  ctx: PlanContext,
): void {
  const names: readonly FigureName[] = [
    'Held_fish',
    'Held_weight',
    'Held_since',
    'Held_lot',
    'Held_wrong',
  ];
  names.forEach((name, i) => ctx.name(name, sheet.name, area(firstRow, place.shown + i, tanks)));
  ctx.name('Journal_rise', sheet.name, area(firstRow, place.rises, tanks, 12));
  ctx.name('Journal_before', sheet.name, area(firstRow, place.before, tanks, 13));
  ctx.name('Journal_appetite', sheet.name, area(firstRow, place.appetite, tanks, 12));
  ctx.name('Journal_order', sheet.name, area(firstRow, at('order'), lines));
  ctx.name('Journal_problem', sheet.name, area(firstRow, at('problem'), lines));
}

/** What each tank holds, one line a tank. */
export function journalTanks(journal: FishJournal, ctx: PlanContext): void {
  for (let k = 0; k < journal.tanks; k++) {
    const tank = journalTank(journal, k);
    yearOf(tank);
    heldInTheEnd(tank);
    heldNow(tank);
  }
  tankNames(journal, ctx);
}
