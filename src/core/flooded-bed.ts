/** Beds of stones that are flooded and drained: plain volume balance. */

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
