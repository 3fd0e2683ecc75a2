/**
 * Ten years in the registers of the demo farm: what one edit costs in the workbench's engine. Run by hand with
 * `npm run bench:years`, with smaller numbers of rows of fish, plantings and
 * harvests behind it where that takes too long; nothing in the tests depends on a clock.
 */
import { execFileSync } from 'node:child_process';
import { Model } from '@odoo/o-spreadsheet';
import { isoText, serialFromIsoText } from '../../src/core/serial-date';
import { gridFrom } from '../../src/engine/engine';
import { quietly } from '../../src/engine/quietly';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import type { FormulaMode } from '../../src/plan/live-or-plain';
import { planWorkbook } from '../../src/plan/plan';
import type { WorkbookModel } from '../../src/plan/workbook-model';

const [fish = 5000, plantings = 5000, harvests = 20_000] = process.argv.slice(3).map(Number);
const modes = (process.argv[2] ?? 'live,plain').split(',') as FormulaMode[];
const asOf = serialFromIsoText(demoFarm.asOf) as number;
const first = asOf - 3650;
const dayOf = (i: number, of: number): string => isoText(first + Math.floor((i * 3649) / of));

/** Each tank is stocked, loses a few, is weighed and sold, round after round. */
function fishLog(count: number): unknown[] {
  const tanks = demoFarm.tanks.map(({ name }) => name);
  const round = [
    ['stocked', 650, 50],
    ['died', 4],
    ['weighed', 30, 120],
    ['died', 3],
    ['weighed', 30, 260],
    ['died', 2],
    ['weighed', 30, 480],
    ['sold', 200, 640],
    ['weighed', 30, 600],
    ['sold', 441],
  ] as const;
  return Array.from({ length: count }, (_, i) => {
    const [what, heads, weight] = round[
      Math.floor(i / tanks.length) % round.length
    ] as (typeof round)[0];
    return {
      date: dayOf(i, count),
      tank: tanks[i % tanks.length],
      what,
      fish: heads,
      ...(weight !== undefined && { weight }),
    };
  });
}

function batches(count: number): unknown[] {
  const beds = demoFarm.beds.map(({ name }) => name);
  return Array.from({ length: count }, (_, i) => {
    const planted =
      first + Math.floor((Math.floor(i / beds.length) * 3649) / (count / beds.length));
    const isLast = i + beds.length >= count;
    return {
      crop: i % 2 === 0 ? 'lettuce' : 'basil',
      bed: beds[i % beds.length],
      plants: 170,
      sown: isoText(planted - 21),
      planted: isoText(planted),
      ...(!isLast && { cleared: isoText(planted + 33) }),
    };
  });
}

const sales = (count: number): unknown[] =>
  Array.from({ length: count }, (_, i) => ({
    date: dayOf(i, count),
    crop: i % 2 === 0 ? 'lettuce' : 'basil',
    bed: demoFarm.beds[i % demoFarm.beds.length]?.name,
    quantity: 12,
    unit: 'piece',
    price: 1.2,
  }));

const cpu = (work: () => unknown): number => {
  const start = process.cpuUsage();
  quietly(work);
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1e6;
};

const farm = readFarm({
  ...demoFarm,
  tanks: demoFarm.tanks.map(({ name, volume, species, bore, pipe, lift, air }) => ({
    ...{ name, volume, species, bore, pipe, lift, air },
  })),
  beds: demoFarm.beds.map(({ name, kind, length, width, depth }) => ({
    ...{ name, kind, length, width },
    ...(depth !== undefined && { depth }),
  })),
  fishLog: fishLog(fish),
  plantings: batches(plantings),
  harvests: sales(harvests),
});

const edits: readonly (readonly [
  sheet: string,
  row: number,
  column: number,
  values: readonly string[],
])[] = [
  ['Fish log', 5 + fish - 3, 3, ['2', '3', '4']],
  ['Fish log', 5 + fish - 3, 0, ['2026-04-09', '2026-04-10', '2026-04-11']],
  ['Plantings', 5 + plantings - 3, 7, ['2026-04-01', '2026-04-02', '2026-04-03']],
  ['Harvest log', 5 + harvests - 3, 3, ['10', '11', '13']],
];

// Two workbooks of this size do not fit side by side into the memory of one process.
if (modes.length > 1) {
  const [, script = '', , ...counts] = process.argv;
  for (const mode of modes)
    execFileSync(process.execPath, [...process.execArgv, script, mode, ...counts], {
      stdio: 'inherit',
    });
  process.exit();
}

for (const formulas of modes) {
  let plan: WorkbookModel | undefined;
  const made = cpu(() => (plan = planWorkbook(farm, { formulas })));
  const model = plan as unknown as WorkbookModel;
  let engine: Model | undefined;
  const opened = cpu(() => (engine = new Model(gridFrom(model))));
  const { getters } = engine as unknown as Model;
  const all = cpu(() => {
    for (const sheet of model.sheets) {
      const sheetId = getters.getSheetIdByName(sheet.name) as string;
      sheet.rows.forEach((row, r) =>
        row.forEach((cell, c) => cell && getters.getEvaluatedCell({ sheetId, row: r, col: c })),
      );
    }
  });
  console.log(
    `${formulas}: made in ${made.toFixed(1)} s, opened in ${opened.toFixed(1)} s, computed in ${all.toFixed(1)} s`,
  );
  for (const [sheet, row, col, values] of edits) {
    const sheetId = getters.getSheetIdByName(sheet) as string;
    const times = values.map((content) =>
      cpu(() => {
        (engine as unknown as Model).dispatch('UPDATE_CELL', { sheetId, row, col, content });
        // What a grower looks at after it.
        const tanks = getters.getSheetIdByName('Tanks') as string;
        return getters.getEvaluatedCell({ sheetId: tanks, row: 5, col: 3 });
      }),
    );
    console.log(
      `  ${sheet}, column ${col + 1}: ${times.map((one) => one.toFixed(2)).join(', ')} s`,
    );
  }
}
