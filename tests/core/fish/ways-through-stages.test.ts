import { describe, expect, it } from 'vitest';
import {
  evenSurvival,
  lengthOf,
  openEnds,
  rearingStages,
  stageOf,
  stageWeights,
  timesThrough,
} from '../../../src/core/rearing-stages';

describe('ways through the stages of rearing', () => {
  it('follow each other without a gap, open where a life begins and ends', () => {
    const ends = rearingStages.map(openEnds);
    expect(ends[0]?.[0]).toBe(0);
    expect(ends.at(-1)?.[1]).toBe(Infinity);
    for (let i = 1; i < ends.length; i++) expect(ends[i]?.[0]).toBe(ends[i - 1]?.[1]);
    for (const stage of rearingStages) expect(stageOf(stageWeights[stage][0])).toBe(stage);
  });

  it('are gone through once from limit to limit, and not at all beside them', () => {
    for (const stage of rearingStages)
      for (const way of rearingStages)
        expect(timesThrough(stage, ...stageWeights[way])).toBeCloseTo(stage === way ? 1 : 0, 12);
  });

  it('share the way of a life by the cube root of the weight', () => {
    // From 8 to 27 g is one of the roots 2 to 3; all fingerlings go from 1 to the root of 50.
    expect(lengthOf('fingerlings')).toBeCloseTo(50 ** (1 / 3) - 1, 12);
    expect(timesThrough('fingerlings', 8, 27)).toBeCloseTo(1 / (50 ** (1 / 3) - 1), 12);
    // Half of the roots from 500 g to 1 kg more go on at the rate of grow-out.
    expect(timesThrough('grow-out', 500, 1000)).toBeCloseTo(
      (10 - 500 ** (1 / 3)) / (500 ** (1 / 3) - 50 ** (1 / 3)),
      12,
    );
    for (const [from, to] of [
      [0.2, 700],
      [0.5, 30],
      [40, 60],
    ] as const) {
      const way = rearingStages.reduce(
        (sum, stage) => sum + timesThrough(stage, from, to) * lengthOf(stage),
        0,
      );
      expect(way).toBeCloseTo(to ** (1 / 3) - from ** (1 / 3), 12);
    }
  });

  it('give a life back its survival, however it is cut', () => {
    for (const [from, to] of [
      [1, 500],
      [30, 600],
      [0.3, 0.9],
    ] as const) {
      const whole = rearingStages.reduce(
        (alive, stage) =>
          alive * evenSurvival(stage, 0.72, from, to) ** timesThrough(stage, from, to),
        1,
      );
      expect(whole).toBeCloseTo(0.72, 12);
    }
  });

  it('lose in each stage what was lost there, where a survival is a stage’s own', () => {
    // SRAC 282: some 20 % of the fry die, and at most 2 % in the final grow-out.
    expect(evenSurvival('fry', 0.8, ...stageWeights.fry)).toBeCloseTo(0.8, 12);
    expect(evenSurvival('grow-out', 0.98, ...stageWeights['grow-out'])).toBeCloseTo(0.98, 12);
  });
});
