/**
 * Ten years in the registers of the demo farm: what opening and one edit cost in the workbench's engine. Run by hand:
 *
 *     npm run bench:years                                   all registers, live and then plain: long
 *     npm run bench:years -- --mode live --only Plantings   one register with its ten years, the others nearly empty
 *     npm run bench:years -- --mode plain --share 0.1       a tenth of all rows
 *
 * Nothing in the tests depends on a clock.
 */
import { parseArgs } from 'node:util';
import { execFileSync } from 'node:child_process';
import { Model } from '@odoo/o-spreadsheet';
import { gridFrom } from '../../src/engine/engine';
import { quietly } from '../../src/engine/quietly';
import type { FormulaMode } from '../../src/plan/live-or-plain';
import { planWorkbook } from '../../src/plan/plan';
import type { WorkbookModel } from '../../src/plan/workbook-model';
import { rowsOfTenYears, tenYearsFarm } from '../tools/ten-years-farm';

const { values: asked } = parseArgs({
  options: {
    mode: { type: 'string', default: 'live,plain' },
    only: { type: 'string' },
    share: { type: 'string', default: '1' },
    runs: { type: 'string', default: '2' },
  },
});
const counts = rowsOfTenYears(Number(asked.share), asked.only?.split(','));
const modes = asked.mode.split(',') as FormulaMode[];

const cpu = (work: () => unknown): number => {
  const start = process.cpuUsage();
  quietly(work);
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1e6;
};

const farm = tenYearsFarm(counts);

/** A cell of the last row but two of each register, or another, and what is typed there one after another. */
const edits: readonly (readonly [
  sheet: string,
  rows: number,
  column: number,
  what: string,
  values: readonly string[],
])[] = [
  ['Fish log', counts['Fish log'], 3, 'fish', ['2', '3', '4']],
  ['Fish log', counts['Fish log'], 0, 'date', ['2026-04-09', '2026-04-10', '2026-04-11']],
  ['Fish log', counts['Fish log'] / 2, 3, 'fish, five years ago', ['2', '3', '4']],
  ['Plantings', counts.Plantings, 8, 'planted out', ['2026-04-01', '2026-04-02', '2026-04-03']],
  ['Plantings', counts.Plantings, 7, 'plants', ['150', '160', '155']],
  ['Plantings', counts.Plantings / 2, 10, 'cleared, five years ago', ['2021-06-01', '2021-06-02']],
  ['Harvest log', counts['Harvest log'], 3, 'how many', ['10', '11', '13']],
  ['Harvest log', counts['Harvest log'], 0, 'date', ['2026-04-09', '2026-04-10', '2026-04-11']],
  ['Feed log', counts['Feed log'], 2, 'given', ['1', '2', '3']],
  ['Treatments', counts.Treatments, 4, 'days to wait', ['11', '12', '13']],
  ['Water log', counts['Water log'], 2, 'pH', ['6.9', '7.1', '7.2']],
];

// Two workbooks of this size do not fit side by side into the memory of one process.
if (modes.length > 1) {
  const [, script = '', ...given] = process.argv;
  for (const mode of modes)
    execFileSync(process.execPath, [...process.execArgv, script, ...given, '--mode', mode], {
      stdio: 'inherit',
    });
  process.exit();
}

for (const formulas of modes) {
  let plan: WorkbookModel | undefined;
  const made = cpu(() => (plan = planWorkbook(farm, { formulas })));
  let engine: Model | undefined;
  const opened = cpu(() => (engine = new Model(gridFrom(plan as WorkbookModel))));
  // The page holds what is open, not the plan that it was made from.
  plan = undefined;
  const { getters } = engine as unknown as Model;
  const held = process.memoryUsage().heapUsed / 2 ** 30;
  console.log(
    `${formulas}: made in ${made.toFixed(1)} s, opened in ${opened.toFixed(1)} s; ${held.toFixed(1)} GB`,
  );
  const faults = getters
    .getSheetIds()
    .flatMap((sheetId) =>
      Object.values(getters.getEvaluatedCells(sheetId)).flatMap((cell) =>
        cell.type === 'error' && /call stack/.test(cell.message ?? '') ? [cell.value] : [],
      ),
    );
  if (faults.length > 0) {
    console.log(`  ${faults.length} cells hold an error: the engine went too deep to compute them`);
    process.exitCode = 1;
  }
  /** What a grower looks at after it. */
  const look = (): void => {
    for (const [name, row, col] of [
      ['Tanks', 5, 3],
      ['Beds', 6, 14],
      ['Week', 8, 1],
      ['Money', 8, 1],
    ] as const)
      getters.getEvaluatedCell({ sheetId: getters.getSheetIdByName(name) as string, row, col });
  };
  for (const [sheet, rows, col, what, values] of edits) {
    if (asked.only !== undefined && !asked.only.split(',').includes(sheet)) continue;
    const sheetId = getters.getSheetIdByName(sheet) as string;
    const row = 5 + Math.round(rows) - 3;
    const times = values.slice(0, Number(asked.runs)).map((content) =>
      cpu(() => {
        (engine as unknown as Model).dispatch('UPDATE_CELL', { sheetId, row, col, content });
        look();
      }),
    );
    console.log(`  ${sheet}, ${what}: ${times.map((one) => one.toFixed(2)).join(', ')} s`);
  }
}
