/**
 * Sends random farms through workbooks and back, metric and US, live and plain: through files, the workbench and
 * LibreOffice. npm run soak:farms [-- HOW_MANY [FIRST]]
 */
import fc from 'fast-check';
import { openBook } from '../../src/ooxml/open-book';
import { readFarm } from '../../src/plan/farm';
import { anyFarm } from '../tools/any-farm';
import {
  fileOf,
  kinds,
  otherThan,
  throughGrid,
  throughLibreOffice,
  throughOpenedFile,
} from '../tools/there-and-back';

const [farms = 100, first = 1] = process.argv.slice(2).map(Number);
/** So many at a time go through LibreOffice. */
const AT_ONCE = 20;

async function run(): Promise<void> {
  let faulty = 0;
  const told = (name: string, way: string, faults: readonly string[]): void => {
    if (faults.length === 0) return;
    faulty += 1;
    console.log(`${name}, ${way}: ${faults.slice(0, 5).join('; ')}`);
  };
  for (let from = first; from < first + farms; from += AT_ONCE) {
    const seeds = Array.from(
      { length: Math.min(AT_ONCE, first + farms - from) },
      (_, i) => from + i,
    );
    const chosen = new Map(
      seeds.map((seed) => {
        const [units, formulas] = kinds[seed % kinds.length] ?? ['metric', 'live'];
        const [json] = fc.sample(anyFarm(units), { seed, numRuns: 1 });
        return [`farm-${seed}-${units}-${formulas}`, [readFarm(json), formulas]] as const;
      }),
    );
    for (const [name, [farm, formulas]] of chosen) {
      told(name, 'through a file', otherThan(farm, openBook(fileOf(farm, formulas))));
      told(name, 'through the grid', throughGrid(farm, formulas));
      told(name, 'through an opened file', await throughOpenedFile(farm, formulas));
    }
    for (const [name, faults] of throughLibreOffice(chosen))
      told(name, 'through LibreOffice', faults);
    console.log(`up to farm ${from + seeds.length - 1}: ${faulty} faults`);
  }
  console.log(`${farms} farms, four ways each: ${faulty} came back otherwise.`);
  process.exitCode = faulty > 0 ? 1 : 0;
}

void run();
