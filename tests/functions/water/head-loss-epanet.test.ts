import { LinkProperty, NodeProperty, Project, Workspace } from 'epanet-js';
import { beforeAll, describe, expect, it } from 'vitest';
import { kinematicViscosity } from '../../../src/core/water-properties';
import { numberOf } from '../../tools/card-value';

/** degC; the viscosity that EPANET is given is the one of the card, so that only the friction is compared. */
const WATER = 20;
/** m2/s that EPANET takes for a relative viscosity of 1 (1.1e-5 ft2/s; EPANET 2.2 manual, options). */
const EPANET_VISCOSITY = 1.1e-5 * 0.3048 ** 2;
/** m; high enough that no pressure turns negative. */
const RESERVOIR = 3000;

interface Pipe {
  readonly flow: number;
  readonly bore: number;
  readonly length: number;
  readonly roughness: number;
}

/** One pipe between a reservoir and a tap, as EPANET's input file has it. */
const network = ({ flow, bore, length, roughness }: Pipe): string => `[JUNCTIONS]
T 0 ${flow / 3600}
[RESERVOIRS]
R ${RESERVOIR}
[PIPES]
P R T ${length} ${bore} ${roughness} 0 Open
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

let workspace: Workspace;

beforeAll(async () => {
  workspace = new Workspace();
  await workspace.loadModule();
});

/** Head lost on the way, in m, as EPANET finds it. */
function epanetLoss(pipe: Pipe): number {
  const project = new Project(workspace);
  workspace.writeFile('pipe.inp', network(pipe));
  project.open('pipe.inp', 'pipe.rpt', 'pipe.out');
  project.solveH();
  const head = project.getNodeValue(project.getNodeIndex('T'), NodeProperty.Head);
  const flow = project.getLinkValue(project.getLinkIndex('P'), LinkProperty.Flow);
  project.close();
  expect(Math.abs(flow * 3600 - pipe.flow)).toBeLessThan(1e-3 * pipe.flow);
  return RESERVOIR - head;
}

const grid = [1000, 4000, 12000].flatMap((flow) =>
  [25, 50, 75].flatMap((bore) =>
    [10, 60].flatMap((length) =>
      [0.0015, 0.15].map((roughness): Pipe => ({ flow, bore, length, roughness })),
    ),
  ),
);

describe('GILL.FLOW.HEADLOSS against EPANET 2.2 (Rossman et al. 2020), Darcy-Weisbach', () => {
  it('over 36 turbulent pipes: largest difference 0.08 %', () => {
    const differences = grid.map((pipe) => {
      const ours = numberOf(
        'FLOW.HEADLOSS',
        pipe.flow,
        pipe.bore,
        pipe.length,
        WATER,
        pipe.roughness,
      );
      const theirs = epanetLoss(pipe);
      return Math.abs(ours / theirs - 1);
    });
    expect(differences).toHaveLength(36);
    expect(Math.max(...differences)).toBeLessThan(0.0009);
  });

  it('differs by at most 0.5 % in laminar flow, where both are Hagen-Poiseuille', () => {
    // So little is lost that EPANET is asked for a hundred times the length.
    const pipe = { flow: 60, bore: 25, length: 20, roughness: 0.0015 };
    const ours = numberOf(
      'FLOW.HEADLOSS',
      pipe.flow,
      pipe.bore,
      pipe.length,
      WATER,
      pipe.roughness,
    );
    expect(Math.abs(ours / epanetLoss({ ...pipe, length: 2000 }) / 0.01 - 1)).toBeLessThan(0.005);
  });
});
