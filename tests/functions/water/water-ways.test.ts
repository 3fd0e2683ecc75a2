import { LinkProperty, Project, Workspace } from 'epanet-js';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { kinematicViscosity } from '../../../src/core/water-properties';
import { errorOf, numberOf } from '../../tools/card-value';

const WATER = 20;
/** m2/s that EPANET takes for a relative viscosity of 1 (EPANET 2.2 manual, options). */
const EPANET_VISCOSITY = 1.1e-5 * 0.3048 ** 2;

interface Way {
  readonly shutoff: number;
  /** L/h */
  readonly most: number;
  readonly lift: number;
  /** mm, m */
  readonly bore: number;
  readonly length: number;
  readonly loss: number;
}

/**
 * A sump, a pump, a pipe with fittings up to a tank, and from the tank a return back down, full: EPANET's own
 * input. The curve has three points, which EPANET fits with a parabola.
 */
const network = (
  { shutoff, most, lift, bore, length, loss }: Way,
  back: Back,
): string => `[JUNCTIONS]
P 0 0
[RESERVOIRS]
S 0
T ${lift}
[PIPES]
UP P T ${length} ${bore} 0.0015 ${loss} Open
DOWN T S ${back.length} ${back.bore} 0.0015 ${back.loss} Open
[PUMPS]
PUMP S P HEAD C
[CURVES]
C 0 ${shutoff}
C ${most / 7200} ${0.75 * shutoff}
C ${most / 3600} 0
[OPTIONS]
UNITS LPS
HEADLOSS D-W
VISCOSITY ${kinematicViscosity(WATER) / EPANET_VISCOSITY}
ACCURACY 0.00001
TRIALS 200
[TIMES]
DURATION 0
[END]
`;

interface Back {
  readonly bore: number;
  readonly length: number;
  readonly loss: number;
}

let workspace: Workspace;
beforeAll(async () => {
  workspace = new Workspace();
  await workspace.loadModule();
});

function epanetFlows(way: Way, back: Back): { up: number; down: number } {
  const project = new Project(workspace);
  workspace.writeFile('way.inp', network(way, back));
  project.open('way.inp', 'way.rpt', 'way.out');
  project.solveH();
  const flow = (id: string): number =>
    3600 * project.getLinkValue(project.getLinkIndex(id), LinkProperty.Flow);
  const flows = { up: flow('UP'), down: flow('DOWN') };
  project.close();
  return flows;
}

/** The card with its loss taken at its own answer, as its page says. */
function ourFlow({ shutoff, most, lift, bore, length, loss }: Way): number {
  let flow = most / 2;
  for (let i = 0; i < 12; i++) {
    const head = numberOf('FLOW.HEADLOSS', flow, bore, length, WATER, 'plastic', loss);
    flow = numberOf('FLOW.PUMP', shutoff, most, lift, head, flow);
  }
  return flow;
}

/** L/h at which a full pipe loses the whole height, by halving. */
function fullReturn(height: number, { bore, length, loss }: Back): number {
  let [low, high] = [1, 1e6];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    const head = numberOf('FLOW.HEADLOSS', middle, bore, length, WATER, 'plastic', loss);
    if (head > height) high = middle;
    else low = middle;
  }
  return low;
}

const ways: readonly (readonly [Way, Back])[] = [
  { shutoff: 3.5, most: 14000, lift: 1.5, bore: 50, length: 20 },
  { shutoff: 6, most: 20000, lift: 2.2, bore: 63, length: 40 },
  { shutoff: 2.4, most: 6000, lift: 0.8, bore: 32, length: 12 },
  { shutoff: 12, most: 30000, lift: 4, bore: 75, length: 120 },
].map((way, i) => {
  const elbows = 2 + i;
  const loss = numberOf('FLOW.FITTINGS', elbows, 1, 1, 0, 1, 1, 1, 1);
  const back = {
    bore: 50 + 15 * i,
    length: 15 + 10 * i,
    loss: numberOf('FLOW.FITTINGS', 2, 0, 0, 0, 0, 0, 1, 1),
  };
  return [{ ...way, loss }, back] as const;
});

describe('pump, pipe, fittings and return against EPANET 2.2 (Rossman et al. 2020)', () => {
  it.each(ways)('%j: flow up and flow back within 0.3 %', (way, back) => {
    const theirs = epanetFlows(way, back);
    expect(Math.abs(ourFlow(way) / theirs.up - 1)).toBeLessThan(0.003);
    expect(Math.abs(fullReturn(way.lift, back) / theirs.down - 1)).toBeLessThan(0.003);
  });

  it('one round from a flow near the answer is within 1 % of it', () => {
    for (const [way] of ways) {
      const exact = ourFlow(way);
      const near = 1.15 * exact;
      const head = numberOf(
        'FLOW.HEADLOSS',
        near,
        way.bore,
        way.length,
        WATER,
        'plastic',
        way.loss,
      );
      const flow = numberOf('FLOW.PUMP', way.shutoff, way.most, way.lift, head, near);
      expect(Math.abs(flow / exact - 1)).toBeLessThan(0.01);
    }
  });
});

describe('FLOW.PUMP', () => {
  it('stands on both curves: what the pump holds there is what the way costs', () => {
    const cases = fc.record({
      shutoff: fc.double({ min: 1, max: 30, noNaN: true }),
      most: fc.double({ min: 500, max: 1e5, noNaN: true }),
      lifted: fc.double({ min: 0, max: 0.95, noNaN: true }),
      loss: fc.double({ min: 0, max: 10, noNaN: true }),
      curve: fc.constantFrom('curved', 'straight'),
    });
    fc.assert(
      fc.property(cases, ({ shutoff, most, lifted, loss, curve }) => {
        const lift = lifted * shutoff;
        const flow = numberOf('FLOW.PUMP', shutoff, most, lift, loss, most / 2, curve);
        const share = flow / most;
        const held = shutoff * (1 - (curve === 'curved' ? share ** 2 : share));
        expect(held).toBeCloseTo(lift + loss * (2 * share) ** 2, 8);
      }),
      { numRuns: 100, seed: 20261127 },
    );
  });
  it('has a sentence where the pump does not reach the lift', () => {
    expect(errorOf('FLOW.PUMP', 2, 5000, 2)).toMatch(/^#NUM! a pump that holds 2 m at most/);
  });
});

describe('FLOW.DRAIN', () => {
  it.each([
    [40, 0.67, 0.95, 1.35],
    [50, 1.22, 1.73, 2.45],
    [100, 7.8, 11, 15.5],
    [150, 22.9, 32.4, 45.8],
  ])(
    '%d mm half full at 0.5, 1 and 2 %%: %d, %d, %d m³/h (Manning, own table of the reference)',
    (bore, ...flows) => {
      flows.forEach((flow, i) => {
        const ours = numberOf('FLOW.DRAIN', bore, [0.005, 0.01, 0.02][i] as number) / 1000;
        expect(Math.abs(ours / flow - 1)).toBeLessThan(0.01);
      });
    },
  );
  it('a full pipe carries twice what it carries half full, at the same speed (National Standard Plumbing Code 2009, appendix K, read)', () => {
    const [half, full] = [numberOf('FLOW.DRAIN', 75, 0.02), numberOf('FLOW.DRAIN', 75, 0.02, 1)];
    expect(full / half).toBeCloseTo(2, 9);
    expect(numberOf('FLOW.SPEED', full, 75)).toBeCloseTo(numberOf('FLOW.SPEED', half, 75, 0.5), 12);
  });
  it.each([
    [50, 0.021],
    [75, 0.0105],
  ])(
    '%d mm at the least slope of that code runs about as fast as it says scours, 0.61 m/s',
    (bore, slope) => {
      const speed = numberOf('FLOW.SPEED', numberOf('FLOW.DRAIN', bore, slope), bore, 0.5);
      expect(Math.abs(speed / 0.61 - 1)).toBeLessThan(0.2);
    },
  );
});

describe('SUMP.VOLUME', () => {
  it('closes the balance of water on random farms: what is pumped out comes back, and nothing runs over', () => {
    const farms = fc.record({
      bore: fc.constantFrom(25, 32, 50, 63, 75),
      length: fc.double({ min: 0, max: 200, noNaN: true }),
      beds: fc.integer({ min: 0, max: 12 }),
      area: fc.double({ min: 0.5, max: 10, noNaN: true }),
      submerged: fc.double({ min: 20, max: 500, noNaN: true }),
    });
    fc.assert(
      fc.property(farms, ({ bore, length, beds, area, submerged }) => {
        const bed = numberOf('FLOOD.VOLUME', area, 0.25);
        const pipe = numberOf('PIPE.VOLUME', bore, length);
        const sump = numberOf('SUMP.VOLUME', pipe, beds * bed, submerged);
        // Running, the sump stands at the least depth of the pump; the rest is in pipes and beds.
        const running = submerged;
        expect(Math.abs((running + pipe + beds * bed) / sump - 1)).toBeLessThan(0.001);
      }),
      { numRuns: 50, seed: 20261127 },
    );
  });
});

describe('SOLIDS.SETTLED', () => {
  it('is 1/2 where the solids sink as fast as the water rises in the worst basin, and 1 - 1/e at most of an endless row (Hazen 1904, memory)', () => {
    expect(numberOf('SOLIDS.SETTLED', 5000, 1, 5)).toBeCloseTo(0.5, 12);
    expect(numberOf('SOLIDS.SETTLED', 5000, 1, 5, 20)).toBeLessThan(1 - 1 / Math.E);
    expect(numberOf('SOLIDS.SETTLED', 5000, 1, 5, 20)).toBeGreaterThan(0.6);
  });
  it('takes more with more surface and less flow, and never all', () => {
    expect(numberOf('SOLIDS.SETTLED', 7800, 4)).toBeGreaterThan(
      numberOf('SOLIDS.SETTLED', 7800, 2),
    );
    expect(numberOf('SOLIDS.SETTLED', 3900, 2)).toBeGreaterThan(
      numberOf('SOLIDS.SETTLED', 7800, 2),
    );
    expect(numberOf('SOLIDS.SETTLED', 1, 100, 'radial')).toBeLessThan(1);
  });
  it('the swirl separator and the radial-flow settler give 37 and 78 % at 11 m/h (Davidson & Summerfelt 2005, memory)', () => {
    expect(numberOf('SOLIDS.SETTLED', 11000, 1)).toBeCloseTo(0.37, 3);
    expect(numberOf('SOLIDS.SETTLED', 11000, 1, 'radial flow')).toBeCloseTo(0.78, 3);
  });
});
