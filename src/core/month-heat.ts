/** Heat that a house takes in a month, the fuel behind it, and what evaporation and the cover do to it. */
import { wrongValue } from './errors';

/** W for each m3 of house, air change an hour and degree: density times heat of air. */
export const AIR_HEAT = 0.335;
/** W for each metre of outer wall and degree, through the ground: 0.8 Btu/h/ft/degF, not insulated. */
export const EDGE_HEAT = 1.38;
/** m2 K/W between the air and the inner side of a cover: ISO 6946, heat going sideways. */
export const INNER_RESISTANCE = 0.13;
/** MJ that evaporate a litre of water of about 20 degC (FAO-56, section on ETo: latent heat 2.45 MJ/kg). */
export const EVAPORATION_HEAT = 2.45;

/**
 * Degree-hours of a day below `inside`, its temperature a sine between `low` and `high`: the single sine of
 * Baskerville & Emin 1969, from below.
 */
export function degreeHours(inside: number, high: number, low: number): number {
  if (high < low) {
    throw wrongValue(`high must not be below low; got a high of ${high} and a low of ${low} °C`);
  }
  const mean = (high + low) / 2;
  if (inside <= low) return 0;
  if (inside >= high) return 24 * (inside - mean);
  const half = (high - low) / 2;
  const angle = Math.asin((inside - mean) / half);
  return (
    (24 * ((inside - mean) * (Math.PI + 2 * angle) + 2 * half * Math.cos(angle))) / (2 * Math.PI)
  );
}

export interface House {
  /** m2 of cover, W/m2/K */
  readonly area: number;
  readonly u: number;
  /** m3, and changes of it an hour */
  readonly volume: number;
  readonly changes: number;
  /** m of outer wall along the ground */
  readonly edge: number;
}

/** W for each degree. */
export const houseLoss = ({ area, u, volume, changes, edge }: House): number =>
  area * u + AIR_HEAT * volume * changes + EDGE_HEAT * edge;

/** kWh over `days` of the same high and low. */
export const monthHeat = (
  house: House,
  inside: number,
  high: number,
  low: number,
  days: number,
): number => (houseLoss(house) * degreeHours(inside, high, low) * days) / 1000;

/** kWh in a unit of fuel: Bartok 2013 (University of Connecticut), from Btu. */
export const fuels = [
  { name: 'propane', spellings: ['LPG', 'bottled gas'], unit: 'L', content: 7.161 },
  {
    name: 'heating oil',
    spellings: ['oil', 'fuel oil', 'heating oil no 2', 'diesel'],
    unit: 'L',
    content: 10.723,
  },
  { name: 'kerosene', spellings: ['paraffin'], unit: 'L', content: 10.452 },
  { name: 'natural gas', spellings: ['gas', 'mains gas'], unit: 'm³', content: 10.66 },
  { name: 'wood pellets', spellings: ['pellets'], unit: 'kg', content: 5.169 },
  { name: 'electricity', spellings: ['electric', 'power', 'mains'], unit: 'kWh', content: 1 },
] as const;

export type Fuel = (typeof fuels)[number];

/** Units of fuel for `heat` kWh. */
export const fuelFor = (heat: number, content: number, efficiency: number): number =>
  heat / content / efficiency;

/** kWh that so many litres take with them as vapour. */
export const evaporationHeat = (litres: number): number => (litres * EVAPORATION_HEAT) / 3.6;

/** degC of the inner side of a cover. */
export const innerSide = (inside: number, outside: number, u: number): number =>
  inside - (inside - outside) * Math.min(1, u * INNER_RESISTANCE);
