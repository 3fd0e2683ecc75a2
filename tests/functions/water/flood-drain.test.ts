import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { errorOf, numberOf } from '../../tools/card-value';

interface Bed {
  readonly area: number;
  readonly depth: number;
  readonly bore: number;
  readonly drop: number;
  readonly inflow: number;
}

/** L/h of an outlet of `bore` mm under `head` m: 0.6 of the ideal flow. */
const passes = (bore: number, head: number): number =>
  3.6e6 * 0.6 * ((Math.PI * (bore / 1000) ** 2) / 4) * Math.sqrt(2 * 9.80665 * head);

/** Minutes in small steps of the level, each at the flow of its middle; and what went out, L. */
function stepped({ area, depth, bore, drop, inflow }: Bed): { minutes: number; out: number } {
  const steps = 4000;
  let [hours, out] = [0, 0];
  for (let i = 0; i < steps; i++) {
    // Finer towards the end, where the head nearly runs out.
    const [upper, lower] = [depth * (1 - i / steps) ** 2, depth * (1 - (i + 1) / steps) ** 2];
    const flow = passes(bore, drop + (upper + lower) / 2);
    const time = ((upper - lower) * area * 0.4 * 1000) / (flow - inflow);
    hours += time;
    out += time * flow;
  }
  return { minutes: hours * 60, out };
}

describe('FLOOD.DRAIN', () => {
  it('is what small steps give, and what went out is what stood there and what ran in, within 0.1 %', () => {
    const beds = fc.record({
      area: fc.double({ min: 0.5, max: 40, noNaN: true }),
      depth: fc.double({ min: 0.1, max: 0.5, noNaN: true }),
      bore: fc.double({ min: 15, max: 80, noNaN: true }),
      drop: fc.double({ min: 0.05, max: 1, noNaN: true }),
      part: fc.constantFrom(0, 0.2, 0.6, 0.9),
    });
    fc.assert(
      fc.property(beds, ({ part, ...bed }) => {
        const inflow = part * passes(bed.bore, bed.drop);
        const { area, depth, bore, drop } = bed;
        const { minutes, out } = stepped({ ...bed, inflow });
        const ours = numberOf('FLOOD.DRAIN', area, depth, bore, drop, inflow);
        expect(Math.abs(ours / minutes - 1)).toBeLessThan(0.001);
        const came = numberOf('FLOOD.VOLUME', area, depth) + (ours / 60) * inflow;
        expect(Math.abs(out / came - 1)).toBeLessThan(0.001);
      }),
      { numRuns: 60, seed: 20261127 },
    );
  });

  it('a textbook exercise: 4 ft wide, an opening of 5 in2, from 6 to 2 ft in 94 s (engineeringprep.com, problem 435: read)', () => {
    const bore = `${Math.sqrt(20 / Math.PI)} in`;
    const area = `${4 * Math.PI} ft2`;
    const seconds = 60 * numberOf('FLOOD.DRAIN', area, '4 ft', bore, '2 ft', null, 1, 1);
    // The exercise rounds the ratio of the roots to 1.04 and g to 32.2 ft/s2.
    expect(Math.abs(seconds - 94)).toBeLessThan(0.7);
  });

  it('without inflow and drop: area over opening times the root of 2h/g (Irodov, Problems in general physics, 1.323: read)', () => {
    const opening = (Math.PI / 4) * 0.05 ** 2;
    const theirs = ((3 / opening) * Math.sqrt((2 * 0.4) / 9.80665)) / 60;
    expect(numberOf('FLOOD.DRAIN', 3, 0.4, 50, null, null, 1, 1)).toBeCloseTo(theirs, 9);
  });

  it('the upper half of the water goes in 29 % of the time (textbook ratio, 1 - root of a half)', () => {
    const all = numberOf('FLOOD.DRAIN', 3, 0.4, 50);
    const half = numberOf('FLOOD.DRAIN', 3, 0.2, 50, 0.2);
    expect(half / all).toBeCloseTo(1 - Math.SQRT1_2, 9);
  });

  it('says when a siphon would run on for ever, and never jumps on the way there', () => {
    const most = passes(25, 0.2);
    expect(errorOf('FLOOD.DRAIN', 2, 0.25, 25, 0.2, Math.ceil(most))).toMatch(
      /^#NUM! the outlet passes \d+ L\/h when the bed is nearly empty/,
    );
    expect(errorOf('FLOOD.DRAIN', 2, 0.25, 25, 0, 100)).toMatch(/^#NUM! the outlet passes 0 L\/h/);
    const at = (share: number): number => numberOf('FLOOD.DRAIN', 2, 0.25, 25, 0.2, share * most);
    expect(at(1e-6) / at(0)).toBeCloseTo(1, 4);
    for (let share = 0; share < 0.95; share += 0.1)
      expect(at(share + 0.05)).toBeGreaterThan(at(share));
  });
});
