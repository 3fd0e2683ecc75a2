import type { PlanContext } from '../context';
import { type HarvestEntry, marketUnits } from '../farm';
import {
  any,
  blankIf,
  blankUnless,
  blankWithout,
  call,
  cases,
  type Formula,
  isoDate,
  joined,
  not,
  sum,
  when,
} from '../formula-parts';
import type { SheetModel } from '../workbook-model';
import { lineOf, named } from '../names';
import { batchOn } from '../planting-columns';
import { hasToWait, placeNamed } from '../treated-places';
import { type Columns, HEAD_ROW, register, registerSheet } from '../register';

const SHEET = 'Harvest log';

/** Year and month of a day as one number. */
export const monthKey = (day: Formula): Formula =>
  call('YEAR', day).times(100).plus(call('MONTH', day));

/** What was cut and sold. Income by month is on Money. */
export function harvestLogSheet(ctx: PlanContext): SheetModel {
  const columns: Columns<HarvestEntry, 'Harvest'> = {
    date: {
      head: 'Date',
      width: 12,
      look: 'input',
      format: 'date',
      field: 'date',
      rule: { rule: { kind: 'date' }, message: 'Type the day of the harvest.' },
    },
    what: {
      head: 'Crop or fish',
      width: 20,
      look: 'input',
      field: 'crop',
      note: 'The name as it stands on Crops or Species; another spelling counts as a crop.',
    },
    bed: { head: 'Bed or tank', width: 14, look: 'input', field: 'bed' },
    quantity: {
      head: 'How many',
      width: 11,
      look: 'input',
      field: 'quantity',
      rule: { rule: { kind: 'number', min: 0 }, message: 'Type how many, or how much.' },
    },
    unit: {
      head: 'Sold by',
      width: 10,
      look: 'input',
      field: 'unit',
      rule: {
        rule: { kind: 'words', words: marketUnits },
        message: 'Choose piece, bunch, kg or lb.',
      },
    },
    price: {
      head: 'Price of one',
      width: 10,
      look: 'input',
      format: 'money',
      field: 'price',
      rule: { rule: { kind: 'number', min: 0 }, message: 'Type the price of one, kg or lb.' },
    },
    buyer: {
      head: 'Sold to',
      width: 18,
      look: 'input',
      field: 'buyer',
      note: 'Who got it: so that it can be found again where something was wrong with it.',
    },
    income: {
      head: 'Income',
      width: 12,
      look: 'result',
      format: 'money',
      formula: (at) =>
        blankWithout([at('quantity'), at('price')], at('quantity').times(at('price'))),
      total: sum,
    },
    kind: {
      head: 'Fish or crop',
      width: 10,
      look: 'computed',
      formula: (at) =>
        blankWithout([at('what')], when(lineOf('Fish', at('what')).isNumber, 'fish', 'crop')),
    },
    says: {
      head: 'To put right',
      width: 44,
      look: 'verdict',
      note: 'Blank where no bed or tank is named, or nothing speaks against it.',
      formula: (at) => {
        const bed = call('IFERROR', call('MATCH', at('bed'), named('Beds_name'), 0), 0);
        return blankIf(
          any(at('bed').isBlank, not(at('date').isNumber)),
          cases(
            [
              [
                hasToWait(placeNamed(at('bed')), at('date')),
                joined(
                  at('bed'),
                  ' was treated, and the days to wait were not over: see Treatments',
                ),
              ],
              [bed.is(0), ''],
              [
                batchOn(bed, at('date')).is(0),
                joined(at('bed'), ' was empty on ', isoDate(at('date')), ' by the Plantings'),
              ],
            ],
            '',
          ),
        );
      },
    },
    month: {
      helper: true,
      head: 'Month',
      width: 9,
      look: 'source',
      note: 'Year and month as one number, by which Money adds up.',
      formula: (at) => blankUnless(at('date').isNumber, monthKey(at('date'))),
    },
  };
  const sheet = registerSheet(SHEET, 'What was cut and sold, and what did it bring?', false);
  sheet.text(3, 0, 'All of it', 'label');
  const made = register(sheet, ctx, {
    prefix: 'Harvest',
    headRow: HEAD_ROW,
    columns,
    list: 'harvests',
    spare: 40,
    diary: 'date',
    cautions: ['food', 'coli'],
  });
  sheet.mark(made.cells('says'), made.first('says').isFilled, 'watch');
  return sheet.model();
}
