import { expect, it } from 'vitest';
import { excelHost } from '../../../src/hosts/excel/excel-host';
import { planWorkbook } from '../../../src/plan/plan';
import { openExcel } from '../../tools/excel-open';
import { LARGE_FARM_IN_WORDS, largeFarm, sampleFarm, sampleNames } from '../../tools/farms';

/** Excel on the web takes at most 5 MB (learn.microsoft.com, resource limits); we stay below this. */
const MAX_BYTES = 2_000_000;
/** A build keeps one cell, by which it sees whether Excel knows the functions. */
const MAX_KEPT = 1;

/** By farm and kind of formulas: each request of a build with its actions, and its bytes to the next 100 kB. */
it(`each request of a build stays below 2 MB, for the samples and ${LARGE_FARM_IN_WORDS}`, async () => {
  const lines: string[] = [];
  for (const [name, farm] of [
    ...sampleNames.map((sample) => [sample, sampleFarm(sample)] as const),
    [LARGE_FARM_IN_WORDS, largeFarm()] as const,
  ]) {
    const isLarge = name === LARGE_FARM_IN_WORDS;
    for (const formulas of isLarge ? (['plain'] as const) : (['live', 'plain'] as const)) {
      const { host, workbook } = openExcel({ sheets: ['Mine'] });
      const plan = planWorkbook(farm, { formulas });
      let told = 0;
      await excelHost().build(plan, () => (told += 1), new AbortController().signal);
      const bytes = host.requests.map((request) => request.bytes);
      expect(Math.max(...bytes), name).toBeLessThan(MAX_BYTES);
      expect(host.mostKept, name).toBeLessThanOrEqual(MAX_KEPT);
      expect(host.kept.size, name).toBe(0);
      expect(told, name).toBeGreaterThan(host.requests.length);
      expect(workbook.sheets).toHaveLength(plan.sheets.length + 1);
      const total = bytes.reduce((sum, value) => sum + value, 0);
      lines.push(
        `${name}, ${formulas}: ${bytes.length} requests, ${host.actions} actions, ${total} bytes, the largest ${Math.max(...bytes)}`,
      );
      if (!isLarge) continue;
      // What was built is read again, as the checks read it.
      const read = await excelHost().readSheets();
      expect(read).toHaveLength(plan.sheets.length);
      expect(host.largestAnswer).toBeLessThan(MAX_BYTES);
    }
  }
  // For whoever wants the numbers: npm run test:only -- tests/hosts/excel/request-sizes --reporter verbose
  console.info(lines.join('\n'));
});
