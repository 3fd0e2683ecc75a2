import { noAnswer } from './errors';
import { kinematicViscosity } from './water-properties';

/** Standard acceleration of gravity, m/s2. */
export const GRAVITY = 9.80665;

/** Below this Reynolds number flow in a pipe is laminar. */
export const LAMINAR_TO = 2300;
/** From this one on it is turbulent. */
export const TURBULENT_FROM = 4000;

/** L/h that turn a volume over `perHour` times an hour. */
export const turnover = (volume: number, perHour: number): number => volume * perHour;

/**
 * L/h of water that brings `oxygenDay` g a day when it enters with `inlet` and leaves with `outlet` mg/L.
 * Throws #NUM! where it does not lose oxygen on the way.
 */
export function flowForOxygen(oxygenDay: number, inlet: number, outlet: number): number {
  if (inlet <= outlet) {
    throw noAnswer(
      `the inlet's ${inlet} mg/L must be above the outlet's ${outlet} mg/L; otherwise the water brings no oxygen`,
    );
  }
  return (oxygenDay * 1000) / 24 / (inlet - outlet);
}

/** Swamee & Jain 1976, an explicit form of Colebrook's equation; `relative` is roughness over bore. */
const turbulentFriction = (reynolds: number, relative: number): number =>
  0.25 / Math.log10(relative / 3.7 + 5.74 / reynolds ** 0.9) ** 2;

/**
 * Darcy friction factor. Laminar up to Re 2300 (64/Re), Swamee-Jain from 4000, and between them a straight
 * line in Re, so that there is no jump. Nobody can say what flow does in between: the line is a convention.
 */
export function frictionFactor(reynolds: number, relative: number): number {
  const laminar = 64 / Math.min(reynolds, LAMINAR_TO);
  if (reynolds <= LAMINAR_TO) return laminar;
  const turbulent = turbulentFriction(Math.max(reynolds, TURBULENT_FROM), relative);
  const part = Math.min(1, (reynolds - LAMINAR_TO) / (TURBULENT_FROM - LAMINAR_TO));
  return laminar + (turbulent - laminar) * part;
}

/** Largest roughness over bore for which the friction equation holds. */
export const MAX_RELATIVE_ROUGHNESS = 0.05;

/**
 * m of water column lost in a full pipe: Darcy-Weisbach with the fittings' summed loss coefficient.
 * `flow` L/h, `bore` and `roughness` mm, `length` m, `water` degC 0 to 50.
 * Throws #NUM! where the wall is too rough for the bore.
 */
export function headLoss(
  flow: number,
  bore: number,
  length: number,
  water: number,
  roughness: number,
  fittings: number,
): number {
  const relative = roughness / bore;
  if (relative > MAX_RELATIVE_ROUGHNESS) {
    throw noAnswer(
      `a roughness of ${roughness} mm is more than a twentieth of the bore of ${bore} mm; no friction equation holds there`,
    );
  }
  if (flow === 0) return 0;
  const metres = bore / 1000;
  const speed = flow / 3.6e6 / ((Math.PI / 4) * metres ** 2);
  const friction = frictionFactor((speed * metres) / kinematicViscosity(water), relative);
  return ((friction * length) / metres + fittings) * (speed ** 2 / (2 * GRAVITY));
}

/** kg/m3: pumps are rated with water taken at this density. */
const RATED_DENSITY = 1000;

/** W drawn from the wall; `flow` L/h, `head` m, `efficiency` from wall to water as a fraction. */
export const pumpWatts = (flow: number, head: number, efficiency: number): number =>
  (RATED_DENSITY * GRAVITY * (flow / 3.6e6) * head) / efficiency;
