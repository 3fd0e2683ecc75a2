/** Oxygen that aerators bring: from a rating in clean water of 20 degC to a tank, and the air and power behind it. */
import { noAnswer } from './errors';
import { GRAVITY } from './flow';
import { oxygenSaturation } from './oxygen';

/** mg/L at saturation in the conditions that aerators are rated in: clean water of 20 degC at sea level. */
export const RATED_SATURATION = 9.092;
/** Rise of the transfer for each degree. */
export const TRANSFER_THETA = 1.024;
/** Transfer in tank water over that in clean water, and saturation likewise. */
export const USUAL_ALPHA = 0.85;
export const USUAL_BETA = 0.98;

/** kg O2 in a m3 of air at 20 degC and 1 atm: 1.204 kg of air of which 23.15 % is oxygen. */
export const OXYGEN_IN_AIR = 1.204 * 0.2315;
/** Share of the oxygen in the air that coarse stones bring into the water for each m of depth. */
export const USUAL_TAKEN_PER_METRE = 0.03;

export interface AeratedWater {
  /** degC */
  readonly water: number;
  /** mg/L that the tank holds */
  readonly oxygen: number;
  readonly alpha: number;
  readonly beta: number;
  readonly theta: number;
  /** g/kg */
  readonly salinity: number;
  /** m */
  readonly altitude: number;
}

/** Transfer in a tank over the rated one; below 0 where the water holds more than the air gives it. */
export const transferFactor = (at: AeratedWater): number =>
  ((at.alpha * (at.beta * oxygenSaturation(at.water, at.salinity, at.altitude) - at.oxygen)) /
    RATED_SATURATION) *
  at.theta ** (at.water - 20);

/** m3/h of free air that brings `use` g/h at `depth` m. Throws #NUM! where air brings no oxygen. */
export function diffusedAir(
  use: number,
  depth: number,
  perMetre: number,
  at: AeratedWater,
): number {
  const factor = transferFactor(at);
  if (factor <= 0) {
    throw noAnswer(
      `water of ${at.water} °C with ${at.oxygen} mg/L takes no oxygen from air; it must hold less`,
    );
  }
  return use / 1000 / (Math.min(1, perMetre * depth) * OXYGEN_IN_AIR * factor);
}

/** W that a blower draws for `air` m3/h at `depth` m of water and `loss` kPa in pipes and stones. */
export const blowerWatts = (air: number, depth: number, loss: number, efficiency: number): number =>
  ((air / 3.6) * (GRAVITY * depth + loss)) / efficiency;
