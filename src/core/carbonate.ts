import { noAnswer } from './errors';

/**
 * Carbonic acid in fresh water at infinite dilution: Plummer & Busenberg 1982, 0 to 90 degC, with the
 * coefficients that PHREEQC carries. Water with 200 to 500 mg/L of dissolved solids has a first pK some
 * 0.03 to 0.05 lower, so that the carbon dioxide computed here is about a tenth too high there.
 */

/** First pK of carbonic acid; `water` in degC. */
export function pK1(water: number): number {
  const t = water + 273.15;
  return 356.3094 + 0.06091964 * t - 21834.37 / t - 126.8339 * Math.log10(t) + 1684915 / t ** 2;
}

/** Second pK of carbonic acid; `water` in degC. */
export function pK2(water: number): number {
  const t = water + 273.15;
  return 107.8871 + 0.03252849 * t - 5151.79 / t - 38.92561 * Math.log10(t) + 563713.9 / t ** 2;
}

const MG_CO2_PER_MOL = 44010;
const MG_CACO3_PER_EQUIVALENT = 50043;

/**
 * mg/L of carbon dioxide dissolved in water of this pH (4.5 to 10), alkalinity (mg/L as CaCO3) and
 * temperature (degC). Throws #NUM! where so little alkalinity cannot stand at so high a pH.
 * The ion product of water is taken as 1e-14 throughout; it matters only above pH 9.
 */
export function carbonDioxide(ph: number, alkalinity: number, water: number): number {
  const acid = 10 ** -ph;
  const bicarbonate =
    (alkalinity / MG_CACO3_PER_EQUIVALENT + acid - 10 ** (ph - 14)) /
    (1 + 2 * 10 ** (ph - pK2(water)));
  if (bicarbonate <= 0) {
    throw noAnswer(
      `water of pH ${ph} holds more alkalinity than ${alkalinity} mg/L as CaCO3; measure both again`,
    );
  }
  return MG_CO2_PER_MOL * bicarbonate * 10 ** (pK1(water) - ph);
}
