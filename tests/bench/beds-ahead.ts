/**
 * What a plan of the beds is worth against sowing every so many days, on the sample farms, and what planning large farms
 * takes in computing and memory: npm run bench:beds [-- samples|sizes]
 */
import { readFileSync } from 'node:fs';
import { emptyBedWeeks, marketOutlook, planBeds } from '../../src/ahead/bed-plan';
import { moneyOf, shareOfWeeksServed, shareServed } from '../../src/ahead/bed-report';
import { fixedCadence } from '../../src/ahead/fixed-cadence';
import type { PlannedBatch } from '../../src/ahead/season';
import { seasonOfFarm } from '../../src/ahead/season-of-farm';
import { loadSolver, type Solver } from '../../src/ahead/solver';
import { crops } from '../../src/core/tables/crops';
import { isoText } from '../../src/core/serial-date';
import { type Farm, readFarm } from '../../src/plan/farm';

const WEEKS = 52;
const read = (name: string): object =>
  JSON.parse(readFileSync(`sample-workbooks/${name}.json`, 'utf8')) as object;
const perCent = (share: number): string => `${(100 * share).toFixed(1)} %`;

function samples(solve: Solver): void {
  const heads = ['farm', 'beds by', 'weeks served', 'units served', 'empty bed-weeks', 'sold for'];
  console.log(`| ${[...heads, 'short for', 'beyond for', 'from the best'].join(' | ')} |`);
  console.log(`| ${Array.from({ length: 9 }, () => '---').join(' | ')} |`);
  for (const name of ['quillwater', 'larkfield-school', 'aldermoor-springs']) {
    const farm = readFarm(read(name));
    const { season } = seasonOfFarm(farm, { weeks: WEEKS });
    const say = (by: string, plantings: readonly PlannedBatch[], gap: string): void => {
      const outlook = marketOutlook(season, plantings);
      const money = moneyOf(outlook, season);
      const figures = [money.sold, money.short, money.surplus].map((sum) => Math.round(sum));
      const empty = emptyBedWeeks(season, plantings);
      console.log(
        `| ${[farm.name, by, perCent(shareOfWeeksServed({ outlook })), perCent(shareServed(outlook)), Math.round(empty), ...figures, gap].join(' | ')} |`,
      );
    };
    say('fixed cadence', fixedCadence(farm, season).plantings, '');
    const plan = planBeds(solve, season, { seconds: 60, gap: 0.01 });
    say('planner', plan.plantings, perCent(plan.gap));
  }
}

/** The demo farm with so many beds and crops, its market as many times as large. */
function largeFarm(beds: number, wishes: number): Farm {
  const file = read('quillwater') as { asOf: string; beds: object[]; markets: object[] };
  const many = Array.from({ length: beds }, (_, n) => ({
    name: `B${n + 1}`,
    kind: n % 2 === 0 ? 'raft' : 'gravel',
    length: n % 4 === 0 ? 6 : 7.2,
    width: 1.2,
    depth: 0.3,
  }));
  const markets = crops.slice(0, wishes).map(({ name }, n) => ({
    crop: name,
    unit: 'piece',
    perWeek: Math.round((beds / wishes) * (4 + (n % 7))),
    price: 1 + (n % 5) / 2,
    every: 7,
    firstHarvest: isoText(46125 + 60),
  }));
  return readFarm({ ...file, beds: many, markets, plantings: [], harvests: [] });
}

const megabytes = (): number => Math.round(process.memoryUsage().rss / 1e6);

function sizes(solve: Solver): void {
  const before = megabytes();
  for (const [beds, wishes] of [
    [48, 10],
    [500, 30],
  ] as const) {
    const began = process.cpuUsage();
    const { season } = seasonOfFarm(largeFarm(beds, wishes), { weeks: WEEKS });
    const plan = planBeds(solve, season, { seconds: 120, gap: 0.02 });
    const { user, system } = process.cpuUsage(began);
    console.log(
      `${beds} beds, ${season.crops.length} crops, ${WEEKS} weeks: ${((user + system) / 1e6).toFixed(1)} s of computing (${plan.seconds.toFixed(1)} s by the clock), ${perCent(plan.gap)} from the best, ${plan.plantings.length} plantings, ${megabytes()} MB held, ${before} MB before`,
    );
  }
}

async function run(): Promise<void> {
  const solve = await loadSolver();
  const [which] = process.argv.slice(2);
  if (which !== 'sizes') samples(solve);
  if (which !== 'samples') sizes(solve);
}

void run();
