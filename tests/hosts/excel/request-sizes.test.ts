import { expect, it } from 'vitest';
import { excelHost } from '../../../src/hosts/excel/excel-host';
import { planWorkbook } from '../../../src/plan/plan';
import { LARGE_FARM } from '../../soak/soak-size';
import { openExcel } from '../../tools/excel-open';
import { farmOfSize, inWords, sampleFarm } from '../../tools/farms';
import { few } from '../../tools/how-many';

/** Excel on the web takes at most 5 MB (learn.microsoft.com, resource limits); we stay below this. */
const MAX_BYTES = 2_000_000;
/** A build keeps one cell, by which it sees whether Excel knows the functions. */
const MAX_KEPT = 1;

const LARGE = inWords(...LARGE_FARM);
const plans = few(2, [
  ['quillwater', 'plain'],
  ['larkfield-school', 'live'],
  ['larkfield-school', 'plain'],
  ['quillwater', 'live'],
  ['aldermoor-springs', 'plain'],
  ['aldermoor-springs', 'live'],
  [LARGE, 'plain'],
] as const);

/** By farm and kind of formulas: each request of a build with its actions, and its bytes to the next 100 kB. */
it.each(plans)('each request of a build stays below 2 MB: %s, %s', async (name, formulas) => {
  const farm = name === LARGE ? farmOfSize(...LARGE_FARM) : sampleFarm(name as 'quillwater');
  const { host, workbook } = openExcel({ sheets: ['Mine'] });
  const plan = planWorkbook(farm, { formulas });
  let told = 0;
  await excelHost().build(plan, () => (told += 1), new AbortController().signal);
  const bytes = host.requests.map((request) => request.bytes);
  expect(Math.max(...bytes)).toBeLessThan(MAX_BYTES);
  expect(host.mostKept).toBeLessThanOrEqual(MAX_KEPT);
  expect(host.kept.size).toBe(0);
  expect(told).toBeGreaterThan(host.requests.length);
  expect(workbook.sheets).toHaveLength(plan.sheets.length + 1);
  const total = bytes.reduce((sum, value) => sum + value, 0);
  // Were a plan smaller than what a request takes, nothing would be seen of how it is divided.
  if (name !== 'larkfield-school') expect(total).toBeGreaterThan(MAX_BYTES);
  // For whoever wants the numbers: npm run test:only -- tests/hosts/excel/request-sizes --reporter verbose
  console.info(
    `${name}, ${formulas}: ${bytes.length} requests, ${host.actions} actions, ${total} bytes, the largest ${Math.max(...bytes)}`,
  );
  if (formulas === 'live') return;
  // What was built is read again, as the checks read it.
  const read = await excelHost().readSheets();
  expect(read).toHaveLength(plan.sheets.length);
  expect(host.largestAnswer).toBeLessThan(MAX_BYTES);
});
