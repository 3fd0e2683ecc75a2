import type { PlanContext } from '../context';
import type { TreatmentEntry } from '../farm';
import { blankUnless } from '../formula-parts';
import type { SheetModel } from '../workbook-model';
import { type Columns, HEAD_ROW, register, registerSheet } from '../register';

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
  };
  const sheet = registerSheet(
    SHEET,
    'What was given to fish, plants or water, and how long does anything wait for it?',
  );
  register(sheet, ctx, {
    prefix: 'Treatments',
    headRow: HEAD_ROW,
    columns,
    list: 'treatments',
    spare: 20,
    cautions: ['medicines', 'sprays'],
  });
  return sheet.model();
}
