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
import { isoText, serialFromIsoText } from '../../src/core/serial-date';
import { gridFrom } from '../../src/engine/engine';
import { quietly } from '../../src/engine/quietly';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import type { FormulaMode } from '../../src/plan/live-or-plain';
import { planWorkbook } from '../../src/plan/plan';
import type { WorkbookModel } from '../../src/plan/workbook-model';

const { values: asked } = parseArgs({
  options: {
    mode: { type: 'string', default: 'live,plain' },
    only: { type: 'string' },
    share: { type: 'string', default: '1' },
    runs: { type: 'string', default: '2' },
  },
});
/** Rows of ten years; a register that is not asked for has a few. */
const rowsOf = (sheet: string, tenYears: number): number =>
  Math.round(
    (asked.only === undefined || asked.only.split(',').includes(sheet) ? tenYears : 60) *
      Number(asked.share),
  );
const counts = {
  fish: rowsOf('Fish log', 5000),
  plantings: rowsOf('Plantings', 5000),
  harvests: rowsOf('Harvest log', 20_000),
  feed: rowsOf('Feed log', 18_250),
  treatments: rowsOf('Treatments', 300),
  water: rowsOf('Water log', 1000),
};
const modes = asked.mode.split(',') as FormulaMode[];
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

const tankOf = (i: number): string => demoFarm.tanks[i % demoFarm.tanks.length]?.name ?? '';

const feedLog = (count: number): unknown[] =>
  Array.from({ length: count }, (_, i) => ({
    date: dayOf(i, count),
    tank: tankOf(i),
    given: 1 + (i % 40) / 10,
  }));

const treatmentsOf = (count: number): unknown[] =>
  Array.from({ length: count }, (_, i) => ({
    date: dayOf(i, count),
    where: i % 2 === 0 ? tankOf(i) : demoFarm.beds[i % demoFarm.beds.length]?.name,
    what: 'soap',
    wait: i % 7,
  }));

const waterTests = (count: number): unknown[] =>
  Array.from({ length: count }, (_, i) => ({
    ...{ date: dayOf(i, count), temperature: 26, ph: 7, tan: 1, nitrite: 0.2, oxygen: 6 },
    alkalinity: 80,
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
  fishLog: fishLog(counts.fish),
  feedLog: feedLog(counts.feed),
  plantings: batches(counts.plantings),
  harvests: sales(counts.harvests),
  treatments: treatmentsOf(counts.treatments),
  waterTests: waterTests(counts.water),
});

/** A cell of the last row but two of each register, or another, and what is typed there one after another. */
const edits: readonly (readonly [
  sheet: string,
  rows: number,
  column: number,
  what: string,
  values: readonly string[],
])[] = [
  ['Fish log', counts.fish, 3, 'fish', ['2', '3', '4']],
  ['Fish log', counts.fish, 0, 'date', ['2026-04-09', '2026-04-10', '2026-04-11']],
  ['Fish log', counts.fish / 2, 3, 'fish, five years ago', ['2', '3', '4']],
  ['Plantings', counts.plantings, 8, 'planted out', ['2026-04-01', '2026-04-02', '2026-04-03']],
  ['Plantings', counts.plantings, 7, 'plants', ['150', '160', '155']],
  ['Plantings', counts.plantings / 2, 10, 'cleared, five years ago', ['2021-06-01', '2021-06-02']],
  ['Harvest log', counts.harvests, 3, 'how many', ['10', '11', '13']],
  ['Harvest log', counts.harvests, 0, 'date', ['2026-04-09', '2026-04-10', '2026-04-11']],
  ['Feed log', counts.feed, 2, 'given', ['1', '2', '3']],
  ['Treatments', counts.treatments, 4, 'days to wait', ['11', '12', '13']],
  ['Water log', counts.water, 2, 'pH', ['6.9', '7.1', '7.2']],
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
