/**
 * Ten years in the registers of the demo farm, formulas of the spreadsheet's own: what the workbench's engine gives in
 * every cell with a formula, beside what LibreOffice gives.
 *
 *     npm run soak:years                         5,000 rows in the Fish log, few in the others
 *     npm run soak:years -- --only Plantings     another register; several with commas
 *     npm run soak:years -- --share 0.1          a tenth of the rows
 */
import { parseArgs } from 'node:util';
import { Model } from '@odoo/o-spreadsheet';
import { GillError } from '../../src/core/errors';
import { gridFrom } from '../../src/engine/engine';
import { quietly } from '../../src/engine/quietly';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { planWorkbook } from '../../src/plan/plan';
import { recalculated } from '../tools/libreoffice';
import { rowsOfTenYears, tenYearsFarm } from '../tools/ten-years-farm';

const { values: asked } = parseArgs({
  options: {
    only: { type: 'string', default: 'Fish log' },
    share: { type: 'string', default: '1' },
  },
});
/** Nothing but a real computation can pass where every value in the file is this one. */
const POISON = 999;
const CLOSE = 1e-9;
/** Below this a number is nothing. */
const NOTHING = 1e-12;

function isSame(own: unknown, others: unknown): boolean {
  if (typeof own === 'number' && typeof others === 'number') {
    const size = Math.max(Math.abs(own), Math.abs(others));
    return Math.abs(own - others) <= Math.max(CLOSE * size, NOTHING);
  }
  if (others instanceof GillError) return own === others.code;
  return (own ?? '') === (others ?? '');
}

async function run(): Promise<void> {
  const rows = rowsOfTenYears(Number(asked.share), asked.only.split(','));
  const plan = planWorkbook(tenYearsFarm(rows), { formulas: 'plain' });
  const { getters } = quietly(() => new Model(gridFrom(plan)));
  const file = writeXlsx(plan, () => POISON);
  const values = (await recalculated(new Map([['years.xlsx', file]]), 'hard')).get('years.xlsx');
  if (!values) throw new Error('LibreOffice computed nothing');
  let compared = 0;
  const differences: string[] = [];
  for (const sheetId of getters.getSheetIds()) {
    const sheet = getters.getSheetName(sheetId);
    for (const position of getters.getEvaluatedCellsPositions(sheetId)) {
      if (!getters.getCell(position)?.isFormula) continue;
      compared += 1;
      const own = getters.getEvaluatedCell(position).value;
      const others = values(sheet, position.row, position.col);
      if (isSame(own, others)) continue;
      differences.push(
        `${sheet}, column ${position.col + 1}, row ${position.row + 1}: ${String(own)}, LibreOffice ${others instanceof GillError ? others.code : String(others)}`,
      );
    }
  }
  console.log(
    `${JSON.stringify(rows)}: ${compared} formulas, ${differences.length} give something else`,
  );
  for (const says of differences.slice(0, 50)) console.log(says);
  process.exitCode = differences.length > 0 || compared === 0 ? 1 : 0;
}

void run();
