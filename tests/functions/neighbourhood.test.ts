import { describe, expect, it } from 'vitest';
import { callCard } from '../../src/functions/call';
import { cards, findCard } from '../../src/functions/card-list';
import type { Card } from '../../src/functions/card';
import {
  neighbourhood,
  numberOf,
  valuesAround,
  variedArguments,
} from '../../src/functions/neighbourhood';

const card = (id: string): Card => findCard(id) as Card;

describe('the curve of a function over one argument', () => {
  const ammonia = card('AMMONIA.UNIONISED');

  it('is what the function gives at each value, the others as they stand', () => {
    const { points, present } = neighbourhood(ammonia, [1, 8, 25], 1);
    expect(present).toEqual({ x: 8, y: callCard(ammonia, [1, 8, 25]) });
    expect(points.length).toBeGreaterThan(20);
    for (const { x, y } of points) expect(y, `pH ${x}`).toBe(callCard(ammonia, [1, x, 25]));
    // Bates & Pinsent's equilibrium: the share rises with pH all the way.
    const known = points.map(({ y }) => y as number);
    expect(known).toEqual([...known].sort((a, b) => a - b));
  });

  it('stays within what the argument takes, whole where it takes whole numbers', () => {
    for (const one of cards) {
      for (const parameter of one.parameters) {
        if (parameter.kind !== 'number') continue;
        const { low, high, takes } = parameter;
        const value = Number.isFinite(low) ? Math.max(low, Math.min(high, low + 2)) : 1;
        for (const x of valuesAround(parameter, value, 11)) {
          if (Number.isFinite(low))
            expect(x, `${one.id} ${parameter.name}`).toBeGreaterThanOrEqual(low - 1e-9);
          if (Number.isFinite(high))
            expect(x, `${one.id} ${parameter.name}`).toBeLessThanOrEqual(high * (1 + 1e-9) + 1e-9);
          if (/^a whole number/.test(takes))
            expect(Number.isInteger(x), `${one.id} ${parameter.name}`).toBe(true);
        }
      }
    }
  });

  it('has a gap where the function gives an error', () => {
    const full = card('OXYGEN.FULL');
    const { points } = neighbourhood(full, [30], 0);
    expect(points.some(({ y }) => y !== undefined)).toBe(true);
    for (const { x, y } of points) {
      expect(y).toBe(typeof callCard(full, [x]) === 'number' ? callCard(full, [x]) : undefined);
    }
  });

  it('can be drawn over the numbers that are given, typed or in one cell', () => {
    expect(variedArguments(ammonia, [1, [[8]], 25])).toEqual([0, 1, 2]);
    expect(variedArguments(ammonia, [1, [[8], [7]], 25])).toEqual([0, 2]);
    expect(variedArguments(ammonia, [1, 'eight', null])).toEqual([0]);
    expect(numberOf([[8, 9]])).toBeUndefined();
    // A function that fills several cells has no single curve.
    const several = cards.find(({ columns }) => columns !== undefined) as Card;
    expect(
      variedArguments(
        several,
        several.parameters.map(() => 1),
      ),
    ).toEqual([]);
  });
});
