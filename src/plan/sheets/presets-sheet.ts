import type { PlanContext } from '../context';
import type { PresetEntry } from '../farm';
import { gapsOf } from '../gaps';
import { type Columns, register } from '../register';
import { SheetBuilder } from '../sheet-builder';
import type { SheetModel } from '../workbook-model';

const SHEET = 'Presets';

/** What nobody has typed: figures that were proposed, and answers that are missing. */
export function presetsSheet(ctx: PlanContext): SheetModel {
  const columns: Columns<PresetEntry, 'Presets'> = {
    what: { head: 'What', width: 30, look: 'input', field: 'what' },
    figure: {
      head: 'Preset to',
      width: 14,
      look: 'input',
      field: 'figure',
      mixed: true,
      note: 'As the farm has it. Once another figure stands in its place, it is preset no more.',
    },
    why: { head: 'Why', width: 96, look: 'input', field: 'why' },
    field: {
      head: 'Place in the farm file',
      width: 26,
      look: 'input',
      field: 'field',
      note: 'Leave it as it is: by it the figure is known as preset when the plan is built anew.',
    },
  };
  const sheet = new SheetBuilder(SHEET, {
    title: 'Presets and gaps',
    question: 'Which figures did nobody type, and what is still missing?',
    widths: [],
    landscape: true,
    headRows: 2,
  });
  const gaps = gapsOf();
  sheet.heading(3, 0, 3, 'What is missing, and what stays blank without it');
  gaps.forEach((formula, i) => sheet.wide(4 + i, 0, 3, { formula, look: 'computed' }));
  const head = 4 + gaps.length + 2;
  sheet.heading(head - 1, 0, 3, 'What was preset: cells with a dashed edge, to be overwritten');
  register(sheet, ctx, {
    prefix: 'Presets',
    headRow: head,
    columns,
    list: 'presets',
    // A table has a row, where nothing was preset as well.
    spare: ctx.farm.presets.length === 0 ? 1 : 0,
  });
  return sheet.model();
}
