/** Beds of stones that are flooded and drained: plain volume balance, and an outlet that empties under its own head. */
import { noAnswer } from './errors';
import { GRAVITY } from './flow';

/**
 * Drainable space between the stones as a share of the bed: 0.40 for clean, even stone of 20 to 50 mm.
 * Roots and sludge take a tenth to a third of it.
 */
export const USUAL_VOIDS = 0.4;

/** L between the stones of `area` m2 flooded `depth` m deep. */
export const floodVolume = (area: number, depth: number, voids: number): number =>
  area * depth * voids * 1000;

/** min to fill `volume` L at a net `flow` of L/h (what goes in less what drains meanwhile). */
export const fillMinutes = (volume: number, flow: number): number => (volume / flow) * 60;

/**
 * Share of the ideal flow that an outlet lets through: 0.6 is the sharp-edged hole of the textbooks, and near what
 * is left in a short standpipe with its entry and bend.
 */
export const OUTLET_COEFFICIENT = 0.6;

/** L/h that leave by an outlet of `bore` mm under `head` m of water: Torricelli. */
export const outletFlow = (bore: number, head: number, coefficient: number): number =>
  3.6e6 * coefficient * (Math.PI / 4) * (bore / 1000) ** 2 * Math.sqrt(2 * GRAVITY * head);

export interface DrainingBed {
  /** m2, m, and the share between the stones */
  readonly area: number;
  readonly depth: number;
  readonly voids: number;
  /** mm */
  readonly bore: number;
  /** m from the floor of the bed down to where the outlet lets go */
  readonly drop: number;
  /** L/h that still run in */
  readonly inflow: number;
  readonly coefficient: number;
}

/**
 * min until a flooded bed is empty: area x voids x dh/dt = inflow - k x root of the head, solved exactly.
 * Throws #NUM! where the outlet passes no more than runs in before the bed is empty.
 */
export function drainMinutes(bed: DrainingBed): number {
  const { area, depth, voids, bore, drop, inflow, coefficient } = bed;
  const surface = area * voids;
  // L/h at a head of 1 m, so that the flow is k times the root of the head.
  const k = outletFlow(bore, 1, coefficient);
  const [from, to] = [Math.sqrt(depth + drop), Math.sqrt(drop)];
  const hours = (2000 * surface) / k;
  if (inflow === 0) return 60 * hours * (from - to);
  if (k * to <= inflow) {
    throw noAnswer(
      `the outlet passes ${Math.round(k * to)} L/h when the bed is nearly empty and ${Math.round(inflow)} L/h still run in; it needs a wider bore, a longer drop or less inflow`,
    );
  }
  const lag = (inflow / k) * Math.log((k * from - inflow) / (k * to - inflow));
  return 60 * hours * (from - to + lag);
}
