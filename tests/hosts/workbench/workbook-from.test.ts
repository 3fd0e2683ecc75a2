import { Model } from '@odoo/o-spreadsheet';
import { beforeAll, describe, expect, it } from 'vitest';
import { demoPlan } from '../../../src/hosts/workbench/demo-plan';
import { gridFrom } from '../../../src/engine/engine';
import { quietly } from '../../../src/engine/quietly';
import { workbookFrom } from '../../../src/hosts/workbench/workbook-from';
import type { Area, SheetModel } from '../../../src/plan/workbook-model';

const several = ({ rows, columns }: Area): boolean => rows * columns > 1;

/** What of a sheet has to come back from the grid; a merge of one cell is none. */
const essence = (sheet: SheetModel) => ({
  ...sheet,
  columnWidths: undefined,
  merges: sheet.merges.filter(several),
  rows: sheet.rows.map((row) =>
    row.map((cell) => {
      if (!cell) return undefined;
      const { value, ...rest } = { ...cell, format: cell.format ?? 'general' };
      // An empty text and nothing are the same to the grid.
      return value === '' || value === undefined ? rest : { ...rest, value };
    }),
  ),
});

describe('a workbook read back from the engine', () => {
  const plan = demoPlan();
  let model: Model;
  const type = (sheet: string, row: number, col: number, content: string): void => {
    const sheetId = model.getters.getSheetIdByName(sheet) as string;
    quietly(() => model.dispatch('UPDATE_CELL', { sheetId, row, col, content }));
  };
  const back = () => workbookFrom(model, { '': plan }, plan.farm);
  let untouched: ReturnType<typeof back>;

  beforeAll(() => {
    model = quietly(() => new Model(gridFrom(plan)));
    untouched = back();
  });

  it.each(plan.sheets.map((sheet, index) => ({ name: sheet.name, sheet, index })))(
    'gives $name as the plan has it',
    ({ sheet, index }) => {
      const found = untouched.model.sheets[index] as SheetModel;
      const trimmed = (rows: SheetModel['rows']) =>
        rows.map((row) => Object.fromEntries(Object.entries(row).filter(([, cell]) => cell)));
      const [got, wanted] = [essence(found), essence(sheet)];
      expect({ ...got, rows: trimmed(got.rows) }).toEqual({
        ...wanted,
        rows: trimmed(wanted.rows),
      });
    },
  );

  it('loses nothing of an untouched plan, and keeps its names', () => {
    expect(untouched.losses.sentences()).toEqual([]);
    expect(untouched.model.names).toEqual(plan.names);
  });

  it("reports what the grower's own changes lose", () => {
    const sheetId = model.getters.getSheetIdByName('Start') as string;
    type('Start', 20, 5, '=SEQUENCE(3,1,7)');
    type('Start', 20, 8, '=FORMAT.LARGE.NUMBER(12345678)');
    type('Start', 20, 9, '2026-05-01');
    type('Start', 21, 9, "'0450");
    const target = [{ top: 20, bottom: 20, left: 9, right: 9 }];
    quietly(() => model.dispatch('SET_FORMATTING', { sheetId, target, style: { bold: true } }));
    const { model: saved, losses } = back();
    const row = saved.sheets[0]?.rows[20];
    expect(row?.[5]).toMatchObject({ value: 7 });
    expect(saved.sheets[0]?.rows[22]?.[5]).toMatchObject({ value: 9 });
    expect(typeof row?.[8]?.value).toBe('number');
    // 2026-05-01 is 61 days after 2026-03-01, serial 46082.
    expect(row?.[9]).toMatchObject({ value: 46082 + 61, format: 'date' });
    expect(saved.sheets[0]?.rows[21]?.[9]).toMatchObject({ value: '0450' });
    expect(losses.sentences()).toEqual([
      'A formula that fills several cells is saved as values (Start!F21)',
      expect.stringContaining('FORMAT.LARGE.NUMBER is a function that only the workbench has'),
      expect.stringContaining(
        "Colours, fonts or borders of your own become the plan's (Start!J21)",
      ),
    ]);
  });

  it('keeps columns that were unfolded in sight, and says that their group is lost', () => {
    const opened = quietly(() => new Model(gridFrom(plan)));
    const sheetId = opened.getters.getSheetIdByName('Tanks') as string;
    const folded = plan.sheets.find(({ name }) => name === 'Tanks')?.folded;
    if (!folded) throw new Error('The sheet Tanks folds nothing');
    const [start, end] = [folded.column, folded.column + folded.columns - 1];
    quietly(() =>
      opened.dispatch('UNFOLD_HEADER_GROUP', { sheetId, dimension: 'COL', start, end }),
    );
    const { model: saved, losses } = workbookFrom(opened, { '': plan }, plan.farm);
    expect(saved.sheets.find(({ name }) => name === 'Tanks')?.folded).toBeUndefined();
    expect(saved.sheets.find(({ name }) => name === 'Beds')?.folded).toBeDefined();
    expect(losses.sentences()).toEqual([
      'Groups of rows or columns are saved without their group (Tanks)',
    ]);
  });
});
