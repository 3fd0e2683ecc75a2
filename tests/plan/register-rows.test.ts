import { Model } from '@odoo/o-spreadsheet';
import { describe, expect, it } from 'vitest';
import { checkSheets } from '../../src/check/check';
import { gridFrom } from '../../src/engine/engine';
import { quietly } from '../../src/engine/quietly';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';

/** Tanks and beds without what stands in them. */
const farm = readFarm({
  ...demoFarm,
  tanks: [{ name: 'North', volume: 7800, species: 'Nile tilapia' }],
  beds: [{ name: 'R01', kind: 'raft', length: 7.2, width: 1.2 }],
  markets: [],
  waterTests: [],
  harvests: [],
  plantings: [],
  fishLog: [{ date: '2026-04-01', tank: 'North', what: 'stocked', fish: 600, weight: 40 }],
});
const plan = planWorkbook(farm, { formulas: 'plain' });

function opened() {
  const engine = quietly(() => new Model(gridFrom(plan)));
  const id = (sheet: string): string => engine.getters.getSheetIdByName(sheet) as string;
  const value = (sheet: string, row: number, col: number): unknown =>
    engine.getters.getEvaluatedCell({ sheetId: id(sheet), row, col }).value;
  const type = (sheet: string, row: number, cells: readonly string[]): void =>
    cells.forEach((content, col) => {
      if (content !== '')
        quietly(() => engine.dispatch('UPDATE_CELL', { sheetId: id(sheet), row, col, content }));
    });
  const copyDown = (sheet: string, from: number, columns: number): void => {
    const sheetId = id(sheet);
    for (let col = 0; col < columns; col++) {
      const cell = engine.getters.getCell({ sheetId, row: from, col });
      if (!cell?.isFormula) continue;
      const content = engine.getters.getTranslatedCellFormula(sheetId, 0, 1, cell.compiledFormula);
      quietly(() => engine.dispatch('UPDATE_CELL', { sheetId, row: from + 1, col, content }));
    }
  };
  return { value, type, copyDown };
}

/** The line below the last prepared one, and the column that says what is to be put right. */
function endOf(register: 'Fishlog' | 'Plantings' | 'Harvest') {
  const says = plan.names.find(({ name }) => name === `${register}_says`);
  const { sheet, area } = says as NonNullable<typeof says>;
  const prepared = plan.sheets
    .find(({ name }) => name === sheet)
    ?.rows.filter((row, r) => r >= area.row && row[area.column]?.formula !== undefined);
  return { below: area.row + (prepared?.length ?? 0), says: area.column, head: area.row - 1 };
}

describe('lines typed below the prepared ones', () => {
  it.each([
    ['Fish log', 'Fishlog', ['2026-04-02', 'North', 'died', '5']],
    ['Plantings', 'Plantings', ['A', 'lettuce']],
    ['Harvest log', 'Harvest', ['2026-04-02', 'lettuce']],
  ] as const)('are named on the %s until they have formulas', (sheet, register, cells) => {
    const { value, type, copyDown } = opened();
    const { below, says, head } = endOf(register);
    expect(value(sheet, head - 1, says)).toBe('');
    type(sheet, below, cells);
    expect(value(sheet, head - 1, says)).toMatch(/^Lines below count nowhere/);
    const values = Array.from({ length: below + 1 }, (_, row) =>
      Array.from({ length: says + 1 }, (__, col) => value(sheet, row, col) ?? ''),
    );
    const findings = checkSheets([{ name: sheet, from: 'A1', values, formulas: [] } as never]);
    expect(findings.map(({ what }) => what)).toContain(
      `${sheet}: Lines below count nowhere: copy the formulas down.`,
    );
    copyDown(sheet, below - 1, says + 1);
    expect(value(sheet, head - 1, says)).toBe('');
  });
});

describe('a longer register', () => {
  it('has more prepared lines', () => {
    const dead = { tank: 'North', what: 'died', fish: 0 };
    const long = readFarm({
      ...demoFarm,
      fishLog: Array.from({ length: 1000 }, () => ({ ...dead, date: '2026-04-02' })),
    });
    const log = planWorkbook(long, { formulas: 'plain' }).sheets.find(
      ({ name }) => name === 'Fish log',
    );
    const prepared = log?.rows.filter((row, r) => r > 4 && row[10]?.formula !== undefined);
    expect(prepared?.length).toBeGreaterThanOrEqual(1000 + 100);
  });
});
