/**
 * Dissolved oxygen at saturation: Benson & Krause 1984, as adopted by USGS (memorandum 2011.03) and APHA
 * 4500-O, under moist air. Valid for 0 to 40 degC, 0 to 40 g/kg and 0.5 to 1.1 atm.
 */

/**
 * Mean air pressure in atm at an altitude in m: US Standard Atmosphere 1976, lowest layer (to 11 000 m).
 * Weather moves the true pressure by about 2 %.
 */
export const pressureAtAltitude = (altitude: number): number =>
  altitude === 0 ? 1 : (1 - 2.25577e-5 * altitude) ** 5.25588;

/** mg/L at 1 atm. */
function saturationAtSeaLevel(kelvin: number, salinity: number): number {
  const x = 1 / kelvin;
  return Math.exp(
    -139.34411 +
      x * (1.575701e5 + x * (-6.642308e7 + x * (1.2438e10 - x * 8.621949e11))) -
      salinity * (0.017674 + x * (-10.754 + x * 2140.7)),
  );
}

/** Pressure of water vapour over the water, atm: Green & Carritt 1967. */
export function vapourPressure(kelvin: number, salinity: number): number {
  const ratio = 373.16 / kelvin;
  return (
    (1 - 0.000537 * salinity) *
    Math.exp(
      18.1973 * (1 - ratio) +
        3.1813e-7 * (1 - Math.exp(26.1205 * (1 - 1 / ratio))) -
        0.018726 * (1 - Math.exp(8.03945 * (1 - ratio))) +
        5.02802 * Math.log(ratio),
    )
  );
}

/** mg/L at saturation; `water` degC, `salinity` g/kg, `pressure` atm. */
export function oxygenAtPressure(water: number, salinity: number, pressure: number): number {
  const kelvin = water + 273.15;
  const full = saturationAtSeaLevel(kelvin, salinity);
  if (pressure === 1) return full;
  const vapour = vapourPressure(kelvin, salinity);
  const theta = 0.000975 - 1.426e-5 * water + 6.436e-8 * water ** 2;
  return (full * (pressure - vapour) * (1 - theta * pressure)) / ((1 - vapour) * (1 - theta));
}

/** mg/L at saturation; `altitude` in m stands for the mean air pressure there. */
export const oxygenSaturation = (water: number, salinity: number, altitude: number): number =>
  oxygenAtPressure(water, salinity, pressureAtAltitude(altitude));
