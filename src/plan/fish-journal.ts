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
import type { PlanContext } from './context';
import { leapDays } from './day-parts';
import { fishSentences } from './fish-log-columns';
import { all, call, part } from './formula-parts';
import { named } from './names';
import { cellRef, fixedRef } from './references';
import { area, type SheetBuilder } from './sheet-builder';
import {
  columns,
  heads,
  heldIds,
  tankHeads,
  journalOn,
  type FishJournal,
  type JournalPlace,
} from './fish-journal-layout';
import { journalLines } from './fish-journal-lines';
import { journalTanks } from './fish-journal-tanks';

/** Above the heads: how many rows have no day or do not count, whether all rows were seen, the day of the plan. */
function aboveTheHeads({ over, lines, put }: FishJournal): void {
  const { row } = over;
  const today = named('Farm_date');
  const keys = named('Fishlog_key');
  put(row, over.rest, call('COUNTIF', keys, 0));
  put(row, over.counted, call('COUNT', keys).minus(fixedRef(area(row, over.rest))));
  put(
    row,
    over.seen,
    all(
      call('COUNT', keys).is(call('COUNTA', named('Fishlog_date'))),
      fixedRef(area(row, over.counted)).atMost(lines),
    ),
  );
  put(row, over.today, call('MONTH', today));
  put(row, over.today + 1, call('DAY', today).minus(1));
  const [monthNow, daysNow] = [
    fixedRef(area(row, over.today)),
    fixedRef(area(row, over.today + 1)),
  ];
  put(
    row,
    over.today + 2,
    leapDays(today, { years: part(0), month: monthNow, days: daysNow }),
    'whole',
  );
}

function sentences({ sheet, firstRow, place, head }: FishJournal, ctx: PlanContext): void {
  head(place.says, 'What is said of a row');
  fishSentences.forEach((value, i) => {
    if (value !== '') sheet.put(firstRow + i, place.says, { value, look: 'source' });
  });
  ctx.name('Journal_says', sheet.name, area(firstRow, place.says, fishSentences.length));
}

/** What all tanks held when a block of lines began stands in its first line. */
function startsOfBlocks({
  sheet,
  firstRow,
  tanks,
  place,
  size,
  blocks,
  put,
  ...journal
}: FishJournal): void {
  const { lastInBlock, afterBlock } = journal;
  if (blocks > 1) {
    (['last', ...heldIds] as const).forEach((what) =>
      sheet.heading(firstRow - 1, place.atBlock(what), tanks, `At the start of a block: ${what}`),
    );
  }
  for (let block = 1; block < blocks; block++) {
    const row = firstRow + block * size;
    for (let k = 0; k < tanks; k++) {
      put(row, place.atBlock('last') + k, lastInBlock(block - 1, part(k + 1)));
      const q = cellRef(row, place.atBlock('last') + k);
      for (const what of heldIds)
        put(row, place.atBlock(what) + k, afterBlock(block - 1, what, k, q));
    }
  }
}

/** Writes the journal beside the log, and names what tanks hold. */
export function fishJournal(sheet: SheetBuilder, ctx: PlanContext, at: JournalPlace): void {
  const journal = journalOn(sheet, at);
  const { place, head } = journal;
  const wide = (column: number, value: string): void => {
    head(column, value);
    sheet.width(column, 9);
  };
  columns.forEach((id) => wide(journal.at(id), heads[id]));
  tankHeads.forEach((value, i) => wide(place.tanks + i, value));
  aboveTheHeads(journal);
  sentences(journal, ctx);
  startsOfBlocks(journal);
  journalLines(journal);
  journalTanks(journal, ctx);
}
