import { describe, expect, it } from 'vitest';
import { groupRatios } from '../../src/core/feed-area';

/** Somerville et al. 2014, FAO Tech. Pap. 589, section 2.1.4: g of feed for each m2 and day. */
const LEAFY = [40, 50] as const;
const FRUITING = [50, 80] as const;
const middle = ([low, high]: readonly [number, number]): number => (low + high) / 2;

describe('feed that a square metre of plants uses', () => {
  it('is the middle of the published range of leafy and of fruiting plants', () => {
    expect(groupRatios.leafy).toBe(middle(LEAFY));
    expect(groupRatios.fruiting).toBe(middle(FRUITING));
  });

  it('of other groups is taken from these two [common practice, no source]', () => {
    for (const group of ['herb', 'root', 'flower'] as const) {
      expect(groupRatios[group], group).toBe(groupRatios.leafy);
    }
    expect(groupRatios.brassica).toBe((groupRatios.leafy + groupRatios.fruiting) / 2);
  });
});
