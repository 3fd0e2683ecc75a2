import { MINUTES_TO_ACT } from '../../core/fish-oxygen';
import type { PlanContext } from '../context';
import { all } from '../formula-parts';
import { register } from '../register';
import { cautionCell, pagesFrom, SheetBuilder } from '../sheet-builder';
import { Flow } from '../sheet-flow';
import type { SheetModel } from '../workbook-model';
import { airFields, answerLine } from './plant-room-air';
import { floodFields } from './plant-room-floods';
import { plantRoomMonths } from './plant-room-months';
import { tankColumns } from './plant-room-tanks';
import { waterFields } from './plant-room-water';
import { pumpsBlock } from './pumps-block';
import { SPARE_TANKS } from './tanks-sheet';

export const PLANT_ROOM = 'Plant room';
/** First of the columns that hold metric twins of the fields in US units. */
const TWINS = 20;

export function plantRoomSheet(ctx: PlanContext): SheetModel {
  const sheet = new SheetBuilder(PLANT_ROOM, {
    title: 'Plant room',
    question:
      'How long do the fish live when something stops, and what do pumps, air, water and heat ask for?',
    widths: [],
    landscape: true,
    headRows: 2,
  });
  const flow = new Flow(sheet, ctx, { row: 3, columns: 9, metricColumn: TWINS });
  answerLine(ctx, flow);
  flow.wide(
    cautionCell([
      'air',
      'electricity',
      'sulphide',
      'chlorine',
      'weight',
      'heater',
      'sprays',
      'law',
    ]),
  );
  flow.skip();
  const begins = [0, flow.row];
  airFields(ctx, flow);
  flow.skip();
  begins.push(flow.row);
  pumpsBlock(sheet, ctx, flow, TWINS);
  flow.skip();
  begins.push(flow.row);
  begins.push(waterFields(sheet, ctx, flow));
  flow.skip();
  begins.push(flow.row);
  floodFields(sheet, ctx, flow);
  flow.skip();
  begins.push(flow.row);
  begins.push(...plantRoomMonths(sheet, ctx, flow));
  flow.skip();
  flow.heading('Tank by tank');
  sheet.text(flow.skip(), 0, 'Whole farm', 'label');
  const made = register(sheet, ctx, {
    prefix: 'Plant',
    headRow: flow.skip(),
    columns: tankColumns(ctx),
    list: 'tanks',
    spare: SPARE_TANKS,
  });
  for (const id of ['all_stops', 'full'] as const) {
    const cell = made.first(id);
    sheet.mark(made.cells(id), all(cell.isNumber, cell.below(MINUTES_TO_ACT)), 'bad');
  }
  const standby = made.first('backup');
  sheet.mark(made.cells('backup'), all(standby.isNumber, standby.below(MINUTES_TO_ACT)), 'watch');
  // What belongs together keeps to its page.
  sheet.printOnPages(pagesFrom(begins, made.firstRow + made.rows, made.shown));
  return sheet.model();
}
