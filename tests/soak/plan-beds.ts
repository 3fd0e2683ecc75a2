/**
 * Plans the beds of 200 random farms, looks each plan through, and says how far the plans are from their bounds:
 * npm run soak:beds [-- HOW_MANY [FIRST]]
 */
import { planBeds } from '../../src/ahead/bed-plan';
import { seasonOfFarm } from '../../src/ahead/season-of-farm';
import { loadSolver } from '../../src/ahead/solver';
import { bedFaults } from '../ahead/bed-faults';
import { randomBedFarm } from '../ahead/random-bed-farms';
import { rowsPassedOver } from '../ahead/rows-passed-over';

const [farms = 200, first = 0] = process.argv.slice(2).map(Number);

async function run(): Promise<void> {
  const solve = await loadSolver();
  const gaps: number[] = [];
  let faulty = 0;
  let peak = 0;
  const began = process.cpuUsage();
  for (let seed = first; seed < first + farms; seed++) {
    const farm = randomBedFarm(seed, { beds: 20, crops: 6, rows: seed % 2 === 1 });
    const { season } = seasonOfFarm(farm, { weeks: 26 });
    const plan = planBeds(solve, season, { seconds: 20, gap: 0.02 });
    const faults = [...bedFaults(season, plan, 0.02), ...rowsPassedOver(farm, plan.plantings)];
    gaps.push(plan.gap);
    if (faults.length > 0) faulty++;
    peak = Math.max(peak, process.memoryUsage().rss);
    if (faults.length > 0 || plan.gap > 0.02) {
      const gap = `gap ${(100 * plan.gap).toFixed(1)} %`;
      const size = `${season.beds.length} beds, ${season.crops.length} crops`;
      console.log([`farm ${seed}`, size, gap, plan.status, ...faults].join('; '));
    }
  }
  gaps.sort((a, b) => a - b);
  const within = gaps.filter((gap) => gap <= 0.02).length;
  const median = (100 * (gaps[Math.floor(gaps.length / 2)] ?? 0)).toFixed(1);
  const cpu = Math.round(process.cpuUsage(began).user / 1e6);
  console.log(
    `${farms} farms: ${faulty} with faults, ${within} within 2 % of the bound, median ${median} %, ${cpu} s of computing, memory at most ${Math.round(peak / 1e6)} MB`,
  );
  process.exitCode = faulty > 0 ? 1 : 0;
}

void run();
