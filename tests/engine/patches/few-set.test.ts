import { describe, expect, it } from 'vitest';
import { FewSet } from '../../../src/engine/patches/few-set';
import { PlaceMap } from '../../../src/engine/patches/place-map';
import { randomNumbers } from '../../soak/random';

const members = Array.from({ length: 14 }, (_, n) => ({ n }));

describe('the sets and maps of dependencies', () => {
  it('hold what a Set holds, however few or many', () => {
    const random = randomNumbers(7);
    const [few, set] = [new FewSet<{ n: number }>(), new Set<{ n: number }>()];
    const sizes = new Set<number>();
    for (let i = 0; i < 3000; i++) {
      const one = members[Math.floor(random() * members.length)] as { n: number };
      // Few most of the time, now and then many.
      const adds = random() < (Math.floor(i / 300) % 2 === 0 ? 0.2 : 0.7);
      for (const either of [few, set]) {
        if (i % 500 === 499) either.clear();
        else if (adds) either.add(one);
        else either.delete(one);
      }
      sizes.add(set.size);
      expect(few.size).toBe(set.size);
      expect(new Set(few)).toEqual(set);
      expect([...few].length).toBe(set.size);
      expect(few.has(one)).toBe(set.has(one));
    }
    expect(Math.min(...sizes)).toBe(0);
    expect(Math.max(...sizes)).toBeGreaterThan(9);
  });

  it('find single cells within small areas and in large ones', () => {
    const map = new PlaceMap<string>();
    const at = (sheetId: string, col: number, row: number) => ({ sheetId, col, row });
    map.set(at('a', 0, 0), 'A1');
    map.set(at('a', 2, 5), 'C6');
    map.set(at('a', 1000, 1_048_575), 'last');
    map.set(at('b', 2, 5), 'other sheet');
    expect(map.get(at('a', 2, 5))).toBe('C6');
    const within = (left: number, top: number, right: number, bottom: number) =>
      [...map.within('a', { left, top, right, bottom })].sort();
    expect(within(2, 5, 2, 5)).toEqual(['C6']);
    expect(within(0, 0, 2, 0)).toEqual(['A1']);
    expect(within(0, 0, 2, 9)).toEqual(['A1', 'C6']);
    expect(within(1, 0, 16_383, 1_048_575)).toEqual(['C6', 'last']);
    map.delete(at('a', 2, 5));
    expect(within(1, 0, 16_383, 1_048_575)).toEqual(['last']);
    expect([...map.values()].sort()).toEqual(['A1', 'last', 'other sheet']);
    expect([...map.within('c', { left: 0, top: 0, right: 9, bottom: 9 })]).toEqual([]);
  });
});
