import { noAnswer } from './errors';
import { molarMass } from './molar-mass';
import { type BaseName, gramsPerAlkalinity } from './tables/bases';
import { gramsPerChloride, type SaltName } from './tables/salts';

/**
 * Grams of pure substance for a volume of water in L; concentrations in mg/L.
 * A product of lower purity needs the result divided by its purity.
 */

function rise(what: string, from: number, to: number): number {
  if (to < from) {
    throw noAnswer(
      `${what} already stands at ${from}, above the ${to} wanted; dosing cannot lower it, fresh water can`,
    );
  }
  return to - from;
}

/** Grams of base that lift alkalinity (mg/L as CaCO3). Throws #NUM! where `to` is below `from`. */
export const baseDose = (volume: number, from: number, to: number, base: BaseName): number =>
  (rise('alkalinity', from, to) * volume * gramsPerAlkalinity(base)) / 1000;

/**
 * Chloride wanted for each mg of nitrite nitrogen, mg: the usual 10:1 on the nitrite ion
 * (10 x 3.2845), rounded up.
 */
export const CHLORIDE_PER_NITRITE_N = 33;

/** Grams of salt that lift chloride to `ratio` x nitrite (as N); 0 where there is enough already. */
export const saltDose = (
  volume: number,
  nitrite: number,
  chloride: number,
  ratio: number,
  salt: SaltName,
): number => (Math.max(0, ratio * nitrite - chloride) * volume * gramsPerChloride(salt)) / 1000;

/** Share of iron in the usual chelate for water below pH 7.5 (DTPA): usual practice, on the packet. */
export const IRON_SHARE = 0.1;

/** Grams of chelate that lift iron. Throws #NUM! where `to` is below `from`. */
export const ironDose = (volume: number, from: number, to: number, ironShare: number): number =>
  (rise('iron', from, to) * volume) / 1000 / ironShare;

/**
 * Grams of sodium thiosulphate pentahydrate for each gram of chlorine (Cl2), by
 * 2 Na2S2O3 + Cl2 -> Na2S4O6 + 2 NaCl: 7.0, the most that any of its reactions with chlorine needs.
 */
export const THIOSULPHATE_PER_CHLORINE = (2 * molarMass('Na2S2O3.5H2O')) / molarMass('Cl2');

/** Grams of sodium thiosulphate pentahydrate that remove `chlorine` mg/L as Cl2. */
export const dechlorDose = (volume: number, chlorine: number): number =>
  (volume * chlorine * THIOSULPHATE_PER_CHLORINE) / 1000;
