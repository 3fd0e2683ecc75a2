import { describe, expect, it } from 'vitest';
import {
  biomassOf,
  type Group,
  lotsInWords,
  mergeGroups,
  noFish,
  SEVERAL_LOTS,
  splitGroup,
  withCount,
} from '../../../src/core/groups';

const group = (fish: number, weight: number, lot: string): Group => ({
  fish,
  weight,
  lots: new Map([[lot, 1]]),
});
const spring = group(300, 40, 'spring');
const autumn = group(100, 200, 'autumn');

describe('groups of fish in a tank', () => {
  it('keep fish and kg when they come together, and know the lots by number', () => {
    const both = mergeGroups(spring, autumn);
    expect(both.fish).toBe(400);
    // 12 kg and 20 kg.
    expect(biomassOf(both)).toBeCloseTo(32, 12);
    expect(both.weight).toBeCloseTo(80, 12);
    expect(Object.fromEntries(both.lots)).toEqual({ spring: 0.75, autumn: 0.25 });
    // A second time of the same lot is no third lot.
    expect([...mergeGroups(both, spring).lots.keys()]).toEqual(['spring', 'autumn']);
  });

  it('are the other alone where one of them is empty', () => {
    expect(mergeGroups(noFish, spring)).toBe(spring);
    expect(mergeGroups(spring, noFish)).toBe(spring);
  });

  it('have neither weight nor lots once none is left', () => {
    expect(withCount(spring, 0)).toBe(noFish);
    expect(withCount(spring, 12)).toEqual({ ...spring, fish: 12 });
    expect(splitGroup(spring, 300)).toEqual({ left: noFish, out: spring });
    expect(splitGroup(spring, 0).out).toBe(noFish);
  });

  it('leave as many kg behind as do not go out', () => {
    const { left, out } = splitGroup(mergeGroups(spring, autumn), 100, 200);
    expect(biomassOf(left) + biomassOf(out)).toBeCloseTo(32, 12);
    expect(left.weight).toBeCloseTo(40, 12);
  });
});

describe('lots in words', () => {
  it('stand in the order in which they came, each once, none for nothing', () => {
    expect(lotsInWords('', 'spring')).toBe('spring');
    expect(lotsInWords('spring', '')).toBe('spring');
    expect(lotsInWords('spring', 'autumn')).toBe('spring, autumn');
    expect(lotsInWords('spring, autumn', 'autumn')).toBe('spring, autumn');
    // A lot whose name is a part of another's is another.
    expect(lotsInWords('spring 2', 'spring')).toBe('spring 2, spring');
  });

  it('are several where they would not fit, from then on', () => {
    const [long, most] = ['a'.repeat(150), 'b'.repeat(48)];
    expect(lotsInWords(long, most)).toBe(`${long}, ${most}`);
    expect(lotsInWords(long, `${most}b`)).toBe(SEVERAL_LOTS);
    expect(lotsInWords(SEVERAL_LOTS, 'spring')).toBe(SEVERAL_LOTS);
    expect(lotsInWords('spring', SEVERAL_LOTS)).toBe(SEVERAL_LOTS);
  });
});
