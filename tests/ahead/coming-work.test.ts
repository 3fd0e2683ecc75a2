import { describe, expect, it } from 'vitest';
import { comingWork } from '../../src/ahead/coming-work';
import { writtenRows } from '../../src/ahead/written-rows';
import type { Farm } from '../../src/plan/farm';
import { sampleFarm } from '../tools/farms';

const farm = sampleFarm('larkfield-school');
const [tankA = '', tankB = ''] = farm.tanks.map(({ name }) => name);
const [bed = ''] = farm.beds.map(({ name }) => name);
const crop = farm.markets[0]?.crop ?? '';
const day = (later: number): number => farm.asOf + later;

/** The farm with nothing in its registers but what is planned here. */
const withRows = (from: number): Farm => {
  const { fishLog, plantings } = writtenRows(
    farm,
    [
      {
        date: day(from + 1),
        kind: 'moved',
        tank: tankA,
        toTank: tankB,
        fish: 9,
        planned: true,
        expected: 40,
      },
      { date: day(from + 1), kind: 'sold', tank: tankA, fish: 3, planned: true, expected: 400 },
    ],
    [1, 2].map((later) => ({
      crop,
      bed,
      plants: 20,
      area: 0.1,
      sown: day(from + 1),
      plantedOut: day(from + 20 * later),
      firstCut: day(from + 50),
      cleared: day(from + 60),
    })),
  );
  return { ...farm, fishLog: [...fishLog], plantings: [...plantings] };
};

describe('what the rows ask for in the weeks to come', () => {
  it('lists the day before handling once a tank, and sowings of one day together', () => {
    const { weeks, waiting } = comingWork(withRows(7));
    const all = weeks.flatMap(({ tasks }) => tasks);
    expect(all.filter(({ says }) => says === `${tankA}: no feed today`)).toEqual([
      { day: day(7), what: 'fish', says: `${tankA}: no feed today` },
    ]);
    expect(all.filter(({ day: on }) => on === day(8)).map(({ says }) => says)).toEqual([
      `move 9 fish from ${tankA} to ${tankB}`,
      `sell 3 fish of ${tankA}`,
      `sow ${crop} for 40 plants, to go into ${bed}`,
    ]);
    expect(all.map(({ says }) => says)).toContain(`plant 20 ${crop} out into ${bed}`);
    expect(waiting).toEqual([]);
  });

  it('covers five weeks without a gap: the current one from the day of the plan, and the next four', () => {
    const { weeks } = comingWork(farm);
    expect(weeks).toHaveLength(5);
    expect(weeks[0]?.from).toBe(farm.asOf);
    weeks.slice(1).forEach(({ from, to }, at) => {
      expect(from).toBe((weeks[at]?.to ?? NaN) + 1);
      expect(to - from).toBe(6);
    });
  });

  it('asks what became of planned rows whose day has passed', () => {
    const { waiting, weeks } = comingWork(withRows(-9));
    expect(waiting.map(({ says }) => says)).toEqual([
      `move 9 fish from ${tankA} to ${tankB}`,
      `sell 3 fish of ${tankA}`,
      `sow ${crop}, ${bed}`,
    ]);
    expect(weeks.flatMap(({ tasks }) => tasks).some(({ what }) => what === 'fish')).toBe(false);
  });
});
