import { fishEvents } from '../../core/fish-log';
import type { PlanContext } from '../context';
import { type FishLogEntry, planMarks } from '../farm';
import { fishJournal } from '../fish-journal';
import { computedFishColumns } from '../fish-log-columns';
import type { SheetModel } from '../workbook-model';
import { type Columns, HEAD_ROW, register, registerSheet, spareRows } from '../register';
import { SPARE_TANKS } from './tanks-sheet';

const SHEET = 'Fish log';
/** What happened to the fish, and what is meant to happen: one row an event, in any order. */
export function fishLogSheet(ctx: PlanContext): SheetModel {
  const tanks = ctx.farm.tanks.length + SPARE_TANKS;
  const tank = { kind: 'list', name: 'Tanks_name' } as const;
  const columns: Columns<FishLogEntry, 'Fishlog'> = {
    date: {
      head: 'Date',
      width: 12,
      look: 'input',
      format: 'date',
      field: 'date',
      rule: { rule: { kind: 'date' }, message: 'Type the day of the event.' },
    },
    tank: {
      head: 'Tank',
      width: 14,
      look: 'input',
      field: 'tank',
      rule: { rule: tank, message: 'Choose a tank of the Tanks sheet.' },
    },
    what: {
      head: 'What',
      width: 10,
      look: 'input',
      field: 'what',
      note: 'stocked: came into the tank. moved: went to another tank. sold, died: left it. counted: the tank holds exactly so many. weighed: the mean weight is this.',
      rule: {
        rule: { kind: 'words', words: fishEvents },
        message: `Choose ${fishEvents.slice(0, -1).join(', ')} or ${fishEvents.at(-1)}.`,
      },
    },
    fish: {
      head: 'Fish',
      width: 9,
      look: 'input',
      quantity: 'count',
      field: 'fish',
      note: 'How many came, went or were counted. Of fish weighed it may stay blank.',
      rule: { rule: { kind: 'whole', min: 0 }, message: 'Type a whole number of fish.' },
    },
    weight: {
      head: 'Mean weight',
      width: 9,
      look: 'input',
      quantity: 'fishWeight',
      field: 'weight',
      note: 'Needed for stocked and weighed. Fish moved or sold without one weigh what the tank weighs in the mean.',
      rule: { rule: { kind: 'number', min: 0 }, message: 'Type the mean weight of one fish.' },
    },
    to_tank: {
      head: 'To tank',
      width: 14,
      look: 'input',
      field: 'toTank',
      note: 'For fish that moved.',
      rule: { rule: tank, message: 'Choose a tank of the Tanks sheet, or leave it blank.' },
    },
    lot: {
      head: 'Lot',
      width: 22,
      look: 'input',
      field: 'lot',
      note: 'A name for fish that are stocked together. Left blank, day and tank are their name. Lots that were mixed leave in shares of what is there, whichever is named.',
    },
    planned: {
      head: 'Planned',
      width: 11,
      look: 'input',
      field: 'planned',
      note: 'planned: meant to happen, counts in the weeks ahead alone. Once done, clear the word; done in another way, write otherwise here and what was done in a row of its own; or write not done.',
      rule: {
        rule: { kind: 'words', words: planMarks },
        message: 'Choose planned, otherwise or not done; leave it blank for what was done.',
      },
    },
    remark: { head: 'Remark', width: 34, look: 'input', field: 'remark' },
    spread: {
      head: 'Spread',
      width: 8,
      look: 'input',
      quantity: 'share',
      field: 'spread',
      note: 'Of fish weighed one by one: standard deviation over mean, such as 25 %. The heaviest less the lightest over the mean is three times as much among 10 fish, four times among 30 (Tippett 1925).',
      rule: {
        rule: { kind: 'number', min: 0, max: 0.8 },
        message: 'Type a share from 0 % to 80 %, or leave it blank.',
      },
    },
    ...computedFishColumns(tanks),
  };
  const sheet = registerSheet(
    SHEET,
    'What happened to the fish, and what is planned? One line an event, in any order.',
  );
  const made = register(sheet, ctx, {
    prefix: 'Fishlog',
    headRow: HEAD_ROW,
    columns,
    list: 'fishLog',
    spare: spareRows(ctx.farm.fishLog.length),
    diary: 'date',
    cautions: ['wounds', 'quarantine', 'permit'],
  });
  sheet.mark(made.cells('says'), made.first('says').isFilled, 'watch');
  fishJournal(sheet, ctx, {
    firstRow: made.firstRow,
    column: made.columns + 1,
    lines: made.rows,
    tanks,
  });
  return sheet.model();
}
