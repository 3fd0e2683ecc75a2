import { extname } from 'node:path';
import { fishOfFarm } from '../ahead/fish-farm';
import { planFish } from '../ahead/fish-plan';
import { type FishReport, fishReport } from '../ahead/fish-report';
import { loadSolver, type Progress } from '../ahead/solver';
import { GillError } from '../core/errors';
import { demoFarm } from '../plan/demo-farm';
import { readArguments } from './command-arguments';
import type { Command } from './command';
import { farmFromFile, farmOf } from './farm-file';
import { Mistake } from './mistake';
import { writeOutputFile } from './workbook-file';

const options = {
  fish: { type: 'boolean' },
  demo: { type: 'boolean' },
  weeks: { type: 'string' },
  seconds: { type: 'string' },
  without: { type: 'string' },
  json: { type: 'string' },
  out: { type: 'string' },
  force: { type: 'boolean' },
} as const;

/** A whole number typed after an option. */
function wholeOf(option: string, typed: string, min: number, max: number): number {
  const value = Number(typed);
  if (Number.isInteger(value) && value >= min && value <= max) return value;
  throw new Mistake(`${option} takes a whole number from ${min} to ${max}; got ${typed}.`);
}

const perCent = (share: number): string => `${(100 * share).toFixed(1)} %`;

function shown(report: FishReport): string {
  // In the order in which they are done on one day: tanks are emptied before others come in.
  const lines = [
    ...report.sales.map(({ date, tank, fish, weight, kg }) => [
      date,
      `sell from ${tank}`,
      `${fish} fish of ${Math.round(weight)} g, ${Math.round(kg)} kg`,
    ]),
    ...report.moves.map(({ date, from, to, fish, weight }) => [
      date,
      `move from ${from} to ${to}`,
      `${fish} fish of ${Math.round(weight)} g`,
    ]),
    ...report.groups.flatMap(({ from, date, tank, fish, weight }) =>
      from === 'stocked'
        ? [[date, `stock ${tank}`, `${fish} fish of ${Math.round(weight)} g`]]
        : [],
    ),
  ].sort((a, b) => (a[0] as string).localeCompare(b[0] as string));
  return [
    ...lines.map((line) => line.join('\t')),
    '',
    'No feed on the day before fish are moved or sold.',
    `${report.plannedKgMonth} kg a month of ${report.wantedKgMonth} wanted; at most ${perCent(report.gap)} from the best plan of its kind.`,
    ...report.leftOut.map(({ tank, why }) => `${tank}: ${why}.`),
    ...report.reasons.map((reason) => `${reason}.`),
  ].join('\n');
}

/** On a terminal, how far the search is; nothing where the output is a file. */
function told({ seconds, objective, bound, gap }: Progress): void {
  if (!process.stderr.isTTY) return;
  const worth = objective === undefined ? 'no plan yet' : `${Math.round(-objective)} kg`;
  const most = bound === undefined ? '' : ` of at most ${Math.round(-bound)} kg`;
  const apart = gap === undefined ? '' : `, ${perCent(gap)} apart`;
  process.stderr.write(`\r\u001b[K${Math.round(seconds)} s: ${worth}${most}${apart}`);
}

/** Plans the weeks to come. */
export const ahead: Command = async (args) => {
  const { values, positionals } = readArguments(args, options);
  const [path, ...more] = positionals;
  if (more.length > 0) throw new Mistake(`ahead takes one farm file; got ${positionals.length}.`);
  if ((path === undefined) !== (values.demo === true)) {
    throw new Mistake('ahead takes either a farm file (ahead FARM.json) or --demo, not both.');
  }
  if (values.fish !== true) {
    throw new Mistake('Say what to plan: ahead FARM.json --fish plans the tanks.');
  }
  if (values.out !== undefined || (path !== undefined && extname(path).toLowerCase() === '.xlsx')) {
    throw new Mistake(
      'ahead takes a farm file (FARM.json) and writes a report (--json REPORT.json); it cannot read or write a workbook yet.',
    );
  }
  const weeks = wholeOf('--weeks', values.weeks ?? '52', 4, 104);
  const seconds = wholeOf('--seconds', values.seconds ?? '60', 1, 3600);
  const farm = path === undefined ? farmOf(demoFarm, 'The demo farm') : await farmFromFile(path);
  const without = (values.without ?? '').split(',').filter((name) => name.trim() !== '');
  try {
    const { wanted, leftOut } = fishOfFarm(farm, { weeks, without });
    const plan = planFish(wanted, await loadSolver(), { seconds, progress: told });
    if (process.stderr.isTTY) process.stderr.write('\r\u001b[K');
    const report = fishReport(wanted, plan, leftOut);
    if (values.json !== undefined) {
      const text = `${JSON.stringify({ farm: farm.name, ...report }, undefined, 1)}\n`;
      await writeOutputFile(values.json, text, {
        force: values.force === true,
        ...(path !== undefined && { input: path }),
      });
    }
    console.log(shown(report));
  } catch (fault) {
    if (!(fault instanceof GillError)) throw fault;
    throw new Mistake(`${path ?? 'The demo farm'}: ${fault.message}.`);
  }
  return 0;
};
