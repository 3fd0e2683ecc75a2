import { describe, expect, it } from 'vitest';
import type { Outcome } from '../../src/functions/card';
import { loopFor, type Work } from '../../src/functions/place-loops';

const PLACES = 4;

/** A ranged call with so many arguments: each range holds its own figures, each second argument is one value. */
function work(count: number, quick: readonly number[]): Work {
  const ranged = (k: number): boolean => k % 2 === 0;
  return {
    compute: (...values) => values.join(),
    values: Array.from({ length: count }, (_, k) =>
      ranged(k) ? Array.from({ length: PLACES }, (__, i) => `${k}${i}`) : [`${k}`],
    ) as unknown as Work['values'],
    masks: Array.from({ length: count }, (_, k) =>
      ranged(k) ? -1 : 0,
    ) as unknown as Work['masks'],
    quick: Uint8Array.from(quick),
    answers: Array.from({ length: PLACES }, (): Outcome[] => ['before']),
  };
}
const answer = (count: number, place: number): string =>
  Array.from({ length: count }, (_, k) => (k % 2 === 0 ? `${k}${place}` : `${k}`)).join();

describe.each([1, 2, 3, 4, 5, 6, 7, 8, 9])('the loop for %d arguments', (count) => {
  it('fills in the places that are quick, each from its own row, and no other', () => {
    const one = work(count, [1, 0, 1, 2]);
    loopFor(one)(one, { place: 0 });
    expect(one.answers).toEqual([[answer(count, 0)], ['before'], [answer(count, 2)], ['before']]);
  });

  it('begins where it is told and reports its place', () => {
    const one = work(count, [1, 1, 1, 1]);
    const at = { place: 2 };
    loopFor(one)(one, at);
    expect(one.answers).toEqual([['before'], ['before'], [answer(count, 2)], [answer(count, 3)]]);
    expect(at.place).toBe(PLACES - 1);
  });

  it('stops at the place whose arithmetic throws', () => {
    const one = work(count, [1, 1, 1, 1]);
    const at = { place: 0 };
    const compute = (...values: unknown[]): string => {
      if (values[0] === '02') throw new Error('no answer');
      return 'one';
    };
    expect(() => loopFor(one)({ ...one, compute }, at)).toThrow('no answer');
    expect(at.place).toBe(2);
    expect(one.answers).toEqual([['one'], ['one'], ['before'], ['before']]);
  });
});
