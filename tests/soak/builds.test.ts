import { expect, it } from 'vitest';
import { BuildCancelled, buildInExcel } from '../../src/hosts/excel/excel-writer';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import type { WorkbookModel } from '../../src/plan/workbook-model';
import { planWorkbook } from '../../src/plan/plan';
import { openExcel } from '../tools/excel-open';
import type { Witness } from '../tools/excel-witness';
import { heldBytes } from './heap';
import { oneOf, randomNumbers } from './random';
import { BUILDS, LONG, WHOLE_BUILDS } from './soak-size';

const SEED = 20260414;
const GROWTH_LIMIT = 40e6;
/** A workbook is closed and a new one opened after so many builds. */
const BUILDS_IN_ONE = 5;

const random = randomNumbers(SEED);
const whole = planWorkbook(readFarm(demoFarm), { formulas: 'live' });
/** Most builds are of the sheets that stand on their own. */
const names = new Set(['Crops', 'Species', 'Sources']);
const few = {
  ...whole,
  sheets: whole.sheets.filter(({ name }) => names.has(name)),
  names: whole.names.filter(({ sheet }) => names.has(sheet)),
};

type Ending = 'whole' | 'failed' | 'cancelled';

/** Builds once, now and then with a failure in the middle or a cancel, and looks at what is left. */
async function build({ workbook, host }: Witness, plan: WorkbookModel): Promise<Ending> {
  const before = workbook.sheets.map((sheet) => sheet.name);
  const kind = oneOf<Ending>(random, ['whole', 'whole', 'failed', 'cancelled']);
  const cancel = new AbortController();
  const tooLate = random();
  host.failAtAction = kind === 'failed' ? host.actions + 1 + Math.floor(random() * 200) : 0;
  try {
    await buildInExcel(
      plan,
      { notes: false },
      (share) => {
        if (kind === 'cancelled' && share >= tooLate) cancel.abort();
      },
      cancel.signal,
    );
    expect(workbook.sheets).toHaveLength(before.length + plan.sheets.length);
    return 'whole';
  } catch (thrown) {
    expect(thrown).toBeInstanceOf(Error);
    expect((thrown as Error).message).toMatch(/^[A-Z]\w+ \w+ \w+/);
    expect((thrown as Error).message).not.toMatch(/undefined|TypeError|is not a function/);
    expect(workbook.sheets.map((sheet) => sheet.name)).toEqual(before);
    return thrown instanceof BuildCancelled ? 'cancelled' : 'failed';
  } finally {
    host.failAtAction = 0;
  }
}

it(`builds ${BUILDS} times, ${WHOLE_BUILDS} of them the whole demo plan, some of them failing or stopped${LONG ? ', and gives its memory back' : ''}`, async () => {
  const endings = new Set<Ending>();
  let early = 0;
  for (let i = 0; i < BUILDS;) {
    const excel = openExcel();
    for (let k = 0; k < BUILDS_IN_ONE; k++, i++) {
      endings.add(await build(excel, i % (BUILDS / WHOLE_BUILDS) === 0 ? whole : few));
    }
    if (early === 0 && i >= BUILDS / 5) early = heldBytes();
  }
  expect(endings).toEqual(new Set<Ending>(['whole', 'failed', 'cancelled']));
  if (LONG) expect(heldBytes() - early).toBeLessThan(GROWTH_LIMIT);
}, 3_600_000);
