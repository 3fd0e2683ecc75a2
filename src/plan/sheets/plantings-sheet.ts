import type { PlanContext } from '../context';
import { type PlantingEntry, planMarks } from '../farm';
import type { SheetModel } from '../workbook-model';
import { plantingsAhead } from '../planting-ahead';
import { computedPlantingColumns, plantingSentences } from '../planting-columns';
import { type Columns, register, type RegisterColumn, spareRows } from '../register';
import { area, SheetBuilder } from '../sheet-builder';

const SHEET = 'Plantings';
type Column = RegisterColumn<PlantingEntry, 'Plantings'>;

const dateColumn = (head: string, field: keyof PlantingEntry, note?: string): Column => ({
  head,
  width: 11,
  look: 'input',
  format: 'date',
  field,
  ...(note !== undefined && { note }),
  rule: { rule: { kind: 'date' }, message: 'Type a date, or leave it blank until you know it.' },
});

const countColumn = (head: string, field: keyof PlantingEntry, message: string): Column => ({
  head,
  width: 8,
  look: 'input',
  quantity: 'plants',
  field,
  rule: { rule: { kind: 'whole', min: 0 }, message },
});

/** One batch of one crop a row, from the seed to the cleared bed. */
export function plantingsSheet(ctx: PlanContext): SheetModel {
  const columns: Columns<PlantingEntry, 'Plantings'> = {
    batch: {
      head: 'Batch',
      width: 20,
      look: 'input',
      field: 'batch',
      note: 'A name or number of your own for what was sown together; rows in two beds may share it.',
    },
    crop: {
      head: 'Crop',
      width: 16,
      look: 'input',
      field: 'crop',
      rule: {
        rule: { kind: 'list', name: 'Crop_name' },
        message: 'Choose a crop of the Crops sheet.',
      },
    },
    seeds: countColumn('Seeds', 'seeds', 'Type a whole number of seeds.'),
    sown: dateColumn('Sown', 'sown'),
    up: dateColumn('Up', 'up', 'The day on which about half of them are up.'),
    came_up: countColumn('Came up', 'cameUp', 'Type how many seedlings came up.'),
    bed: {
      head: 'Bed',
      width: 10,
      look: 'input',
      field: 'bed',
      rule: {
        rule: { kind: 'list', name: 'Beds_name' },
        message: 'Choose a bed of the Beds sheet, or leave it blank in the nursery.',
      },
    },
    plants: countColumn('Plants', 'plants', 'Type a whole number of plants.'),
    planted: dateColumn(
      'Planted out',
      'planted',
      'Left blank until it is done. Crops that are sown in place need none.',
    ),
    first_cut: dateColumn('First cut', 'firstCut', 'The day of the first cut, once it was made.'),
    cleared: dateColumn('Cleared', 'cleared', 'The day on which the bed became free, once it did.'),
    planned: {
      head: 'Planned',
      width: 11,
      look: 'input',
      field: 'planned',
      note: 'planned: meant to be sown. Once it is, clear the word; done in another way, write otherwise here and what was done in a row of its own; or write not done.',
      rule: {
        rule: { kind: 'words', words: planMarks },
        message: 'Choose planned, otherwise or not done; leave it blank for what was done.',
      },
    },
    remark: { head: 'Remark', width: 34, look: 'input', field: 'remark' },
    ...computedPlantingColumns(),
    ...plantingsAhead(),
  };
  const sheet = new SheetBuilder(SHEET, {
    title: 'Plantings',
    question:
      'What was sown, planted, cut and cleared, and what is planned? One line a batch in a bed.',
    widths: [],
    landscape: true,
    headRows: 5,
    headColumns: 1,
  });
  const made = register(sheet, ctx, {
    prefix: 'Plantings',
    headRow: 4,
    columns,
    list: 'plantings',
    spare: spareRows(ctx.farm.plantings.length),
    diary: 'crop',
    cautions: ['food'],
  });
  const words = made.columns + 1;
  sheet.put(made.firstRow - 1, words, { value: 'What is said of a row', look: 'columnHead' });
  plantingSentences.forEach((value, i) =>
    sheet.put(made.firstRow + i, words, { value, look: 'source' }),
  );
  ctx.name('Planting_says', SHEET, area(made.firstRow, words, plantingSentences.length));
  sheet.mark(made.cells('says'), made.first('says').isFilled, 'watch');
  return sheet.model();
}
