import type { PlanContext } from '../context';
import type { FeedLogEntry } from '../farm';
import { all, any, call, cases, joined, not } from '../formula-parts';
import type { SheetModel } from '../workbook-model';
import { named } from '../names';
import { type Columns, HEAD_ROW, register, registerSheet, spareRows } from '../register';

const SHEET = 'Feed log';

/**
 * What was fed: one line a tank and day. A register of its own, since feed is given daily: as rows of the Fish log it
 * would lengthen the order of events that follows each tank, and as treatments the list that every sale waits for. The
 * plan's own feed goes by the model; what was given counts in the own figures alone.
 */
export function feedLogSheet(ctx: PlanContext): SheetModel {
  const columns: Columns<FeedLogEntry, 'Feedlog'> = {
    date: {
      head: 'Date',
      width: 12,
      look: 'input',
      format: 'date',
      field: 'date',
      rule: { rule: { kind: 'date' }, message: 'Type the day of the feeding.' },
    },
    tank: {
      head: 'Tank',
      width: 14,
      look: 'input',
      field: 'tank',
      rule: {
        rule: { kind: 'list', name: 'Tanks_name' },
        message: 'Choose a tank of the Tanks sheet.',
      },
    },
    given: {
      head: 'Given',
      width: 9,
      look: 'input',
      quantity: 'mass',
      field: 'given',
      note: 'All that the tank got on that day; 0 where it got nothing. A day without a line is a day of which nobody knows.',
      rule: { rule: { kind: 'number', min: 0 }, message: 'Type how much; 0 where none was given.' },
    },
    feed: {
      head: 'Which feed',
      width: 26,
      look: 'input',
      field: 'feed',
      note: 'Name and, from the bag, its lot: so that it can be found again where something was wrong with it.',
    },
    remark: { head: 'Remark', width: 34, look: 'input', field: 'remark' },
    says: {
      always: true,
      head: 'To put right',
      width: 44,
      look: 'verdict',
      note: 'What cannot be in a line by itself. Feed against the fish of the tank is looked at by the check.',
      formula: (at) =>
        cases(
          [
            [call('COUNTA', at.shown('date', 'feed')).is(0), ''],
            [not(at('date').isNumber), 'type the date'],
            [at('date').above(named('Farm_date')), 'a day that is still to come'],
            [
              not(call('MATCH', call('TRIM', at('tank')), named('Tanks_name'), 0).isNumber),
              joined('Tanks has no tank called ', at('tank')),
            ],
            [
              any(not(at('given').isNumber), all(at('given').isNumber, at('given').below(0))),
              'type how much was given; 0 where none was',
            ],
          ],
          '',
        ),
    },
  };
  const sheet = registerSheet(
    SHEET,
    'What did each tank get to eat? One line a tank and day.',
    false,
  );
  const made = register(sheet, ctx, {
    prefix: 'Feedlog',
    headRow: HEAD_ROW,
    columns,
    list: 'feedLog',
    spare: spareRows(ctx.farm.feedLog.length),
    diary: 'date',
  });
  sheet.mark(made.cells('says'), made.first('says').isFilled, 'watch');
  return sheet.model();
}
