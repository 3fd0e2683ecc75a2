/** What planning the fish of small and large farms takes in computing and memory: npm run bench:fish [-- 5|40] */
import { fishOfFarm } from '../../src/ahead/fish-farm';
import { planFish } from '../../src/ahead/fish-plan';
import { loadSolver } from '../../src/ahead/solver';
import { demoFarm } from '../../src/plan/demo-farm';
import { type Farm, readFarm } from '../../src/plan/farm';

/** The demo farm without planned rows, so many times over, with tanks of three sizes. */
function farmOf(times: number): Farm {
  const copies = <T extends object>(rows: readonly T[], change: (row: T, copy: number) => object) =>
    Array.from({ length: times }, (_, copy) => rows.map((row) => change(row, copy))).flat();
  const named = (name: unknown, copy: number): unknown =>
    typeof name !== 'string' || copy === 0 ? name : `${name} of ${copy + 1}`;
  const { stock, tanks } = demoFarm;
  const fishLog: readonly Readonly<Record<string, unknown>>[] = demoFarm.fishLog;
  return readFarm({
    ...demoFarm,
    stock: { ...stock, wanted: times * (stock.wanted as number) },
    tanks: copies(tanks, (tank, copy) => ({
      ...tank,
      name: named(tank.name, copy),
      volume: (tank.volume as number) * [1, 0.75, 1.5][copy % 3]!,
    })),
    fishLog: copies(
      fishLog.filter((row) => row['planned'] === undefined),
      (row, copy) => ({
        ...row,
        ...Object.fromEntries(
          ['tank', 'toTank', 'lot'].flatMap((field) =>
            row[field] === undefined ? [] : [[field, named(row[field], copy)]],
          ),
        ),
      }),
    ),
  });
}

const megabytes = (): number => Math.round(process.memoryUsage().rss / 1e6);

async function run(): Promise<void> {
  const solve = await loadSolver();
  const before = megabytes();
  const [tanks] = process.argv.slice(2).map(Number);
  for (const times of tanks === undefined ? [1, 8] : [tanks / 5]) {
    const { wanted } = fishOfFarm(farmOf(times), { weeks: 52 });
    const began = process.cpuUsage();
    const plan = planFish(wanted, solve, { seconds: times === 1 ? 20 : 120, gap: 0.03 });
    const { user, system } = process.cpuUsage(began);
    console.log(
      `${wanted.tanks.length} tanks, 52 weeks: ${((user + system) / 1e6).toFixed(1)} s of computing (${plan.seconds.toFixed(1)} s by the clock), ${(100 * plan.gap).toFixed(1)} % from the best, ${plan.status}, ${plan.rows.length} rows, ${megabytes()} MB held, ${before} MB before`,
    );
    for (const reason of plan.reasons) console.log(`  ${reason}`);
  }
}

void run();
