import { describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { MAX_SERIAL } from '../../src/core/serial-date';
import { dayOfStage, sowingOffset, sowingSeries, stageDate } from '../../src/core/sowing';
import { type Crop, crops } from '../../src/core/tables/crops';

function startedBy(start: Crop['start']): Crop {
  const crop = crops.find((crop) => crop.start === start);
  if (!crop) throw new Error(`No crop of the table is started from ${start}`);
  return crop;
}

const sentence = (work: () => unknown): string => {
  try {
    work();
  } catch (thrown) {
    if (thrown instanceof GillError) return `${thrown.name} ${thrown.code} ${thrown.message}`;
  }
  throw new Error('no error with a sentence');
};

describe('stages that a crop lacks', () => {
  it('nothing emerges from cuttings or plugs', () => {
    for (const crop of crops) {
      expect(dayOfStage(crop, 'emerge') === undefined).toBe(
        ['cuttings', 'plugs'].includes(crop.start),
      );
    }
    // Whatever days the table knows for the crop when it is sown.
    for (const start of ['cuttings', 'plugs'] as const) {
      expect(dayOfStage({ ...startedBy('seed'), start }, 'emerge')).toBeUndefined();
    }
    const crop = crops.find((crop) => ['cuttings', 'plugs'].includes(crop.start)) as Crop;
    expect(sentence(() => sowingOffset(crop, 'emerge'))).toBe(
      `GillError #NUM! ${crop.name}: started from ${crop.start}, so nothing emerges; the stages are transplant, first cut, clear`,
    );
  });

  it('what is sown in place is not transplanted', () => {
    const crop = startedBy('in place');
    expect(sentence(() => sowingOffset(crop, 'transplant'))).toBe(
      `GillError #NUM! ${crop.name}: sown in place, so there is no transplant; the stages are emerge, first cut, clear`,
    );
  });
});

describe('the end of the calendar', () => {
  const END = 'falls outside the dates from 1900-03-01 to 9999-12-31';

  it('a series may end on the last day there is, and no later', () => {
    // Three batches a week apart, 40 days from sowing to the first cut.
    const first = MAX_SERIAL - 40 - 2 * 7;
    expect(sowingSeries(first, 7, 3, 40)[2]?.firstCut).toBe(MAX_SERIAL);
    expect(sentence(() => sowingSeries(first + 1, 7, 3, 40))).toContain(
      `the stage "first cut" ${END}`,
    );
  });

  it('a series of a crop may not be cleared later', () => {
    const crop = startedBy('in place');
    const cleared = dayOfStage(crop, 'clear') as number;
    expect(sowingSeries(MAX_SERIAL - cleared, 1, 1, crop)[0]?.clear).toBe(MAX_SERIAL);
    expect(sentence(() => sowingSeries(MAX_SERIAL - cleared + 1, 1, 1, crop))).toContain(
      `the last batch ${END}`,
    );
  });

  it('names the stage that would come too late', () => {
    expect(sentence(() => stageDate(MAX_SERIAL, 1, 'clear'))).toContain(`the stage "clear" ${END}`);
  });
});
