/**
 * Plans the fish of 200 random farms, plays each plan through a ledger and the Fish log, and says how far the plans are
 * from their bounds: npm run soak:fish [-- HOW_MANY [FIRST]]
 */
import { planFish } from '../../src/ahead/fish-plan';
import { loadSolver } from '../../src/ahead/solver';
import { planFaults } from '../ahead/plan-faults';
import { randomFarm, randomFarmWithRows } from '../ahead/random-farms';

const [farms = 200, first = 1] = process.argv.slice(2).map(Number);

async function run(): Promise<void> {
  const solve = await loadSolver();
  const gaps: number[] = [];
  let faulty = 0;
  let peak = 0;
  for (let seed = first; seed < first + farms; seed++) {
    const wanted = seed % 2 === 1 ? randomFarm(seed) : randomFarmWithRows(seed).wanted;
    const plan = planFish(wanted, solve, { seconds: 30, gap: 0.03 });
    const faults = planFaults(wanted, plan);
    gaps.push(plan.gap);
    if (faults.length > 0) faulty++;
    peak = Math.max(peak, process.memoryUsage().rss);
    console.log(
      [
        `farm ${seed}`,
        `${wanted.tanks.length} tanks`,
        `${wanted.weeks} weeks`,
        `gap ${(100 * plan.gap).toFixed(1)} %`,
        `${plan.seconds.toFixed(1)} s`,
        `${plan.rows.length} rows`,
        ...(plan.gap > 0.05 ? plan.reasons : []),
        ...faults,
      ].join('; '),
    );
  }
  gaps.sort((a, b) => a - b);
  const within = gaps.filter((gap) => gap <= 0.05).length;
  console.log(
    `${farms} farms: ${faulty} with faults, ${within} within 5 % of the bound, median ${(100 * (gaps[Math.floor(gaps.length / 2)] ?? 0)).toFixed(1)} %, memory at most ${Math.round(peak / 1e6)} MB`,
  );
  process.exitCode = faulty > 0 ? 1 : 0;
}

void run();
