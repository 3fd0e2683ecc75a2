/** The way of the water: pump against pipe, fittings, gravity returns, the sump that holds what comes back. */
import { noAnswer } from './errors';

/** How the curve of a pump falls from its greatest lift to its greatest flow. */
export type PumpCurve = 'curved' | 'straight';

export interface PumpRating {
  /** m of water that it holds without flow */
  readonly shutoff: number;
  /** L/h that it gives without lift */
  readonly most: number;
  readonly curve: PumpCurve;
}

/**
 * L/h where the curve of the pump meets lift and friction. Friction goes with the square of the flow, through
 * `loss` m at `at` L/h. Throws #NUM! where the pump does not reach the lift.
 */
export function operatingFlow(
  { shutoff, most, curve }: PumpRating,
  lift: number,
  loss: number,
  at: number,
): number {
  const left = shutoff - lift;
  if (left <= 0) {
    throw noAnswer(
      `a pump that holds ${shutoff} m at most gives nothing at a lift of ${lift} m; it must hold more`,
    );
  }
  const friction = loss / at ** 2;
  if (curve === 'curved') return Math.sqrt(left / (shutoff / most ** 2 + friction));
  const fall = shutoff / most;
  return (2 * left) / (fall + Math.sqrt(fall ** 2 + 4 * friction * left));
}

/** Loss coefficients of fittings, textbook tables; of a range the greater. Plastic elbows, glued. */
export const fittingLosses = {
  elbows: 0.9,
  bends: 0.4,
  tees_through: 0.9,
  tees_branch: 2,
  valves: 0.05,
  check_valves: 2.5,
  inlets: 0.5,
  outlets: 1,
} as const;

/** Angle at the middle of a round pipe over which water stands, `filled` of its bore deep; radians. */
const wetAngle = (filled: number): number => 2 * Math.acos(1 - 2 * filled);

/** m2 of water in a round pipe of `bore` mm. */
export function wetSection(bore: number, filled: number): number {
  const angle = wetAngle(filled);
  return ((bore / 1000) ** 2 * (angle - Math.sin(angle))) / 8;
}

/** Manning's roughness of a clean plastic pipe. */
export const PLASTIC_MANNING = 0.011;

/** L/h that a round pipe carries by gravity: Manning. `slope` m/m. */
export function drainFlow(bore: number, slope: number, filled: number, manning: number): number {
  const section = wetSection(bore, filled);
  const radius = section / (((bore / 1000) * wetAngle(filled)) / 2);
  return (3.6e6 * section * radius ** (2 / 3) * Math.sqrt(slope)) / manning;
}

/**
 * m/s: nothing on a farm drives water faster through a pipe (20 m of head for each bend and valve). 1 to 1.5 m/s is
 * usual, 3 m/s the end of what is built; the bound is common practice, no source.
 */
export const MAX_PIPE_SPEED = 20;

/** A speed that a pipe can have; throws #NUM! with the sentence where it cannot. */
function speedInPipe(speed: number, flow: number, bore: number): number {
  if (speed <= MAX_PIPE_SPEED) return speed;
  throw noAnswer(
    `${flow} L/h through ${bore} mm would run at ${Number(speed.toPrecision(3))} m/s; 1 to 1.5 is usual and more than ${MAX_PIPE_SPEED} cannot be: take a wider bore, in mm, or less flow, in L/h`,
  );
}

/** m/s of `flow` L/h. Throws #NUM! where no pipe has it. */
export const pipeSpeed = (flow: number, bore: number, filled: number): number =>
  speedInPipe(flow / 3.6e6 / wetSection(bore, filled), flow, bore);

/** L in a full pipe; bore in mm, length in m. */
export const pipeVolume = (bore: number, length: number): number =>
  (Math.PI / 4) * (bore / 1000) ** 2 * length * 1000;

/** L that a sump must hold; all in L, `spare` a share. */
export const sumpVolume = (
  drainBack: number,
  flooded: number,
  submerged: number,
  evaporation: number,
  spare: number,
): number => (drainBack + flooded + submerged + evaporation) * (1 + spare);

/**
 * Share of the solids that settles: Hazen 1904 for so many mixed tanks in a row, 1 the worst basin.
 * `settling` m/h of the solids, `flow` L/h, `area` m2.
 */
export const settledShare = (flow: number, area: number, settling: number, tanks: number): number =>
  1 - (1 + (settling * area * 1000) / flow / tanks) ** -tanks;

/**
 * Settlers by name, as the settling speed (m/h) that gives the share of the solids which was taken out at a
 * surface load of 11 m/h: 78 % and 37 % (Davidson & Summerfelt 2005, recalled).
 */
export const settlers = [
  { name: 'radial-flow settler', spellings: ['radial flow', 'radial'], settling: 39 },
  {
    name: 'swirl separator',
    spellings: ['swirl', 'swirl filter', 'vortex', 'hydrocyclone'],
    settling: 6.46,
  },
] as const;

export type Settler = (typeof settlers)[number];
