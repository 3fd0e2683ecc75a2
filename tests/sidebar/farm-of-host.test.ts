import { beforeAll, describe, expect, it } from 'vitest';
import { writtenRows } from '../../src/ahead/written-rows';
import { isoText } from '../../src/core/serial-date';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { NoPlanFound } from '../../src/plan/read-book';
import { planWorkbook } from '../../src/plan/plan';
import {
  changedFile,
  changeOfPlan,
  changeOfTakingBack,
  isSameFarm,
  onDay,
  openFarm,
  type OpenFarm,
} from '../../src/sidebar/ahead/farm-of-host';
import { changeSentences } from '../../src/sidebar/ahead/plan-preview';
import { sampleFarm } from '../tools/farms';
import { differences } from '../tools/same-farm';
import { smallBook, smallSheet, word } from '../tools/small-book';

const farm = sampleFarm('larkfield-school');
const hostOf = (bytes: Uint8Array) => ({ fileBytes: () => Promise.resolve(bytes) });
const [tank = '', other = ''] = farm.tanks.map(({ name }) => name);

describe('the farm of the open workbook', () => {
  let open: OpenFarm;
  /** With a move that the planner wrote for three weeks later. */
  let planned: OpenFarm;

  beforeAll(async () => {
    open = await openFarm(hostOf(writeXlsx(planWorkbook(farm, { formulas: 'plain' }), () => 0)));
    const move = {
      date: farm.asOf + 21,
      kind: 'moved',
      tank,
      toTank: other,
      fish: 2,
      planned: true,
      expected: 40,
    } as const;
    const change = changeOfPlan(open, open.farm, { fish: { report: {} as never, rows: [move] } });
    expect(change.rows).toEqual(writtenRows(open.farm, [move]));
    planned = await openFarm(hostOf(changedFile(open, change)));
  });

  it('is read from its cells; without a plan a sentence says so', async () => {
    expect(differences(open.farm.fishLog, farm.fishLog)).toEqual([]);
    const notes = writeXlsx(smallBook([smallSheet('Notes', [[word('hello')]])]), () => 0);
    await expect(openFarm(hostOf(notes))).rejects.toThrow(NoPlanFound);
  });

  it('is read anew as soon as it would differ for a planner', () => {
    expect(isSameFarm(open, open)).toBe(true);
    expect(isSameFarm(open, planned)).toBe(false);
  });

  it('takes its day of the plan from a plan that starts later', () => {
    const day = farm.asOf + 14;
    const later = onDay(open, day);
    expect(later.asOf).toBe(day);
    const change = changeOfPlan(open, later, {});
    expect(changeSentences(change, [])[0]).toBe(`The day of the plan becomes ${isoText(day)}.`);
    const place = open.reading.places.get('asOf');
    expect(change.cells).toEqual([
      { sheet: place?.sheet, row: place?.row, column: place?.column, value: day },
    ]);
    // Rows that are ahead of the later day, too, make room for a plan of the fish from then on.
    const again = changeOfPlan(planned, onDay(planned, day), {
      fish: { report: {} as never, rows: [] },
    });
    expect(again.gone.fishLog).toHaveLength(1);
    // One that is due by then stays, and asks what became of it.
    const after = changeOfPlan(planned, onDay(planned, farm.asOf + 30), {
      fish: { report: {} as never, rows: [] },
    });
    expect(after.gone.fishLog).toEqual([]);
  });

  it('is as before once the rows of the planner are taken back', async () => {
    const back = changeOfTakingBack(planned);
    expect(changeSentences(back, [])).toEqual([
      'Fish log: 1 row of the planner that nobody touched taken out.',
      'Rows that you typed or changed stay as they are.',
    ]);
    const bare = await openFarm(hostOf(changedFile(planned, back)));
    expect(isSameFarm(bare, open)).toBe(true);
  });
});
