/** kJ/kg/K. A litre of water is taken as a kilogram: within 1 % from 0 to 45 degC. */
export const WATER_HEAT_CAPACITY = 4.186;

/** W lost through a cover of `area` m2; `u` in W/m2/K; negative where heat comes in. */
export const coverLoss = (area: number, u: number, inside: number, outside: number): number =>
  area * u * (inside - outside);

/** kWh to bring `volume` L of water from one temperature to another; negative for cooling. */
export const waterHeat = (volume: number, from: number, to: number): number =>
  (volume * WATER_HEAT_CAPACITY * (to - from)) / 3600;
