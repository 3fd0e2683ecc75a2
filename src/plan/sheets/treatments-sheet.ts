import type { PlanContext } from '../context';
import type { TreatmentEntry } from '../farm';
import { all, blankUnless, call, cases, joined, not, when } from '../formula-parts';
import { nth } from '../names';
import { type Columns, HEAD_ROW, helperColumn, register, registerSheet } from '../register';
import { bedKey, bedOfKey, isKey, keyInOrder, rowOfKey } from '../register-keys';
import { EVERYWHERE, placeAndDay, placeNamed } from '../treated-places';
import type { SheetModel } from '../workbook-model';

const SHEET = 'Treatments';

/** What was given to fish, plants or water, and how long to wait before anything is cut or sold. */
export function treatmentsSheet(ctx: PlanContext): SheetModel {
  const columns: Columns<TreatmentEntry, 'Treatments'> = {
    date: {
      head: 'Date',
      width: 12,
      look: 'input',
      format: 'date',
      field: 'date',
      rule: { rule: { kind: 'date' }, message: 'Type the day of the treatment.' },
    },
    where: {
      head: 'Where',
      width: 14,
      look: 'input',
      field: 'where',
      note: 'A tank, a bed, or all: for what goes into the water of the whole farm.',
    },
    what: { head: 'What', width: 40, look: 'input', field: 'what' },
    amount: { head: 'Amount', width: 14, look: 'input', field: 'amount' },
    wait: {
      head: 'Days to wait',
      width: 9,
      look: 'input',
      quantity: 'days',
      field: 'wait',
      note: 'As the label or the vet says: days until anything that was treated may be cut or sold.',
      rule: {
        rule: { kind: 'whole', min: 0 },
        message: 'Type a whole number of days, as the label or the vet says.',
      },
    },
    remark: { head: 'Remark', width: 34, look: 'input', field: 'remark' },
    free: {
      head: 'Free from',
      width: 12,
      look: 'result',
      format: 'date',
      note: 'The first day on which it may be cut or sold.',
      formula: (at) => blankUnless(at('date').isNumber, at('date').plus(at('wait').orZero)),
    },
    says: {
      always: true,
      head: 'To put right',
      width: 44,
      look: 'verdict',
      note: 'A line that cannot be read keeps nothing from being cut or sold.',
      formula: (at) =>
        cases(
          [
            [call('COUNTA', at.shown('date', 'wait')).is(0), ''],
            [not(at('date').isNumber), 'type the date'],
            [at('where').isBlank, 'say where: a tank, a bed, or all'],
            [not(at('place').isNumber), joined('there is no tank or bed called ', at('where'))],
            [
              all(at('wait').isFilled, not(all(at('wait').isNumber, at('wait').orZero.atLeast(0)))),
              'type the days to wait as a whole number',
            ],
          ],
          '',
        ),
    },
    place: helperColumn('Place, by number', (at) =>
      blankUnless(
        at('where').isFilled,
        when(call('TRIM', at('where')).is('all'), EVERYWHERE, placeNamed(at('where'), '')),
      ),
    ),
    key: {
      ...helperColumn<TreatmentEntry, 'Treatments'>('Place and day', (at, row) =>
        blankUnless(
          all(at('place').isNumber, at('date').isNumber, at('wait').orZero.above(0)),
          bedKey(at('place'), at('date'), row + 1),
        ),
      ),
      total: (column) => call('COUNT', column),
    },
    sorted: helperColumn('In order', (at, row) =>
      keyInOrder('Treatments_key', at.total('key'), row + 1),
    ),
    until: helperColumn('Its place waits until', (at, row) => {
      const place = bedOfKey(at('sorted'));
      const own = placeAndDay(place, nth('Treatments_free', rowOfKey(at('sorted'))));
      return blankUnless(
        isKey(at('sorted')),
        row === 0
          ? own
          : call('MAX', own, when(bedOfKey(at.above('sorted')).is(place), at.above('until'), 0)),
      );
    }),
  };
  const sheet = registerSheet(
    SHEET,
    'What was given to fish, plants or water, and how long does anything wait for it?',
  );
  const made = register(sheet, ctx, {
    prefix: 'Treatments',
    headRow: HEAD_ROW,
    columns,
    list: 'treatments',
    spare: 20,
    cautions: ['medicines', 'sprays'],
  });
  sheet.mark(made.cells('says'), made.first('says').isFilled, 'watch');
  return sheet.model();
}
