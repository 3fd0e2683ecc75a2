import { describe, expect, it } from 'vitest';
import {
  rearingStages,
  stageOf,
  stageWeights,
  timesThrough,
} from '../../../src/core/rearing-stages';

/** Weights by which publications name small fish, g; the end of a range belongs to the next stage. */
const published = [
  ['fry', 0.3, 0.99, 'FAO AFFRIS, Atlantic salmon, table 1: fry 0.3 to 1.0 g'],
  ['fingerlings', 1, 4.9, 'FAO AFFRIS, Atlantic salmon, table 1: fingerlings 1.0 to 5.0 g'],
  ['fingerlings', 25, 49.9, 'FAO AFFRIS, common carp, growth: fingerlings 25 to 50 g'],
  ['grow-out', 250, 500, 'FAO AFFRIS, common carp, growth: growers 250 to 500 g'],
  ['grow-out', 100, 4000, 'FAO AFFRIS, Atlantic salmon, table 1: growers 100 to 4000 g'],
] as const;

describe('stages of rearing', () => {
  it.each(published)('%s weigh %s to %s g (%s)', (stage, from, to) => {
    expect([stageOf(from), stageOf(to)]).toEqual([stage, stage]);
  });

  it('follow each other without a gap, and a life from the first to the last goes through each once', () => {
    rearingStages.slice(1).forEach((stage, i) => {
      const before = rearingStages[i] as (typeof rearingStages)[number];
      expect(stageWeights[stage][0]).toBe(stageWeights[before][1]);
    });
    for (const stage of rearingStages)
      expect(timesThrough(stage, ...stageWeights[stage])).toBeCloseTo(1, 12);
  });
});
