import { helpers, Model, type WorkbookData } from '@odoo/o-spreadsheet';
import { describe, expect, it } from 'vitest';
import { gridFrom } from '../../../src/engine/engine';
import { registerFunctions } from '../../../src/engine/engine-functions';
import { exportedData, exportingData } from '../../../src/engine/patches/exported-data';
import { storedValuesOf } from '../../../src/engine/patches/open-with-stored-values';
import { quietly } from '../../../src/engine/quietly';
import { putTogether } from '../../../src/engine/sheet-contents';
import { packingGrid } from '../../../src/hosts/workbench/packed-grid';
import { unpackedSheets } from '../../../src/hosts/workbench/packed-sheets';
import { atOnce } from '../../../src/plan/in-steps';
import { planWorkbook } from '../../../src/plan/plan';
import { sampleFarm } from '../../tools/farms';

/** What each cell has of the entries that zones name: zones and numbers may be cut and counted otherwise. */
function byCell(zones: Record<string, number>, entries: Record<number, unknown>) {
  const cells: Record<string, unknown> = {};
  for (const [zone, id] of Object.entries(zones)) {
    const { top, left, bottom, right } = helpers.toZone(zone);
    for (let row = top; row <= bottom; row++) {
      for (let col = left; col <= right; col++) cells[`${col},${row}`] = entries[id];
    }
  }
  return cells;
}

const spreadOut = ({ sheets, styles, formats, ...rest }: WorkbookData) => ({
  ...rest,
  sheets: sheets.map((sheet) => ({
    ...sheet,
    styles: byCell(sheet.styles, styles),
    formats: byCell(sheet.formats, formats),
  })),
});

describe('the data of a workbook in steps', () => {
  registerFunctions();
  const plan = planWorkbook(sampleFarm('larkfield-school'), { formulas: 'plain' });
  const model = quietly(() => new Model(gridFrom(plan)));
  const id = exportedData(model).sheets[0]?.id ?? '';
  const target = [helpers.toZone('A1:C4')];
  const style = { bold: true, align: 'left', fontSize: 10, textColor: '#000000' };
  quietly(() => model.dispatch('SET_FORMATTING', { sheetId: id, target, style } as never));
  quietly(() => model.dispatch('UPDATE_CELL', { sheetId: id, col: 40, row: 3, content: '1e-9' }));

  it('are those that the library gives at once', () => {
    const steps = exportingData(model);
    let count = 0;
    let step = steps.next();
    for (; step.done !== true; step = steps.next()) count += 1;
    expect(count).toBeGreaterThan(20);
    expect(spreadOut(step.value)).toEqual(spreadOut(exportedData(model)));
  });

  it('are kept as texts that hold the same, with what formulas give', () => {
    const content = '"quoted" \\ ü';
    quietly(() => model.dispatch('UPDATE_CELL', { sheetId: id, col: 40, row: 4, content }));
    const { frame, sheets, hasValues } = atOnce(packingGrid(model, true));
    const unpacked = unpackedSheets(sheets);
    expect(hasValues).toBe(true);
    expect(putTogether(frame, unpacked)).toEqual(atOnce(exportingData(model)));
    const values = frame.sheets.map((sheet) => [sheet.id, unpacked(sheet.id)?.values]);
    expect(Object.fromEntries(values)).toEqual(storedValuesOf(model));
  });
});
