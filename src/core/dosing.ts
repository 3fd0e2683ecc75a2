import { unionisedShare } from './ammonia';
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

/** pH above which base is not given: about 7.0 suits fish, plants and bacteria together (UVI nutrient page). */
export const MAX_PH_FOR_BASE = 7.6;
/** Days after which a test says little of the water of today: common practice, no source. */
export const OLD_TEST = 14;
/** mg/L of un-ionised ammonia nitrogen at which gill damage begins in warm-water fish (UF/IFAS FA16). */
export const HARMFUL_UNIONISED = 0.05;
/** pH that alkalinity in contact with air does not pass. */
export const MAX_PH = 8.3;

/** pH after a rise of alkalinity, with as much carbon dioxide in the water as before. */
export const phAfter = (ph: number, from: number, to: number): number =>
  from > 0 ? Math.min(MAX_PH, ph + Math.log10(to / from)) : MAX_PH;

/** What tests say of the water that is to be dosed; undefined where nothing is said. */
export interface TestedWater {
  readonly ph: number | undefined;
  /** mg/L */
  readonly tan: number | undefined;
  /** degC */
  readonly water: number;
  /** Days since the test. */
  readonly age: number | undefined;
  /** mg/L of un-ionised ammonia nitrogen from which these fish are harmed. */
  readonly harmful: number;
}

/** Throws #NUM! where the water should not be given base. */
export function checkBeforeBase(
  { ph, tan, water, age, harmful }: TestedWater,
  from: number,
  to: number,
): void {
  if (age !== undefined && age > OLD_TEST) {
    throw noAnswer(
      `the test is ${age} days old; test again before you dose (at most ${OLD_TEST} days)`,
    );
  }
  if (ph === undefined) return;
  if (ph > MAX_PH_FOR_BASE) {
    throw noAnswer(`pH ${ph} is above ${MAX_PH_FOR_BASE}; this water needs no base`);
  }
  if (tan === undefined) return;
  const after = phAfter(ph, from, to);
  const unionised = tan * unionisedShare(after, water, 0);
  if (unionised >= harmful) {
    throw noAnswer(
      `at the pH of up to ${after.toFixed(1)} that follows, ${Number(unionised.toPrecision(2))} mg/L of the ammonia would be un-ionised, ${harmful} and more harms; bring ammonia down first, or aim lower`,
    );
  }
}

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

/** Grams of chelate that lift iron. Throws #NUM! where `to` is below `from`. */
export const ironDose = (volume: number, from: number, to: number, ironShare: number): number =>
  (rise('iron', from, to) * volume) / 1000 / ironShare;

/**
 * Grams of sodium thiosulphate pentahydrate for each gram of chlorine (Cl2), by
 * 2 Na2S2O3 + Cl2 -> Na2S4O6 + 2 NaCl: 7.0, the most that any of its reactions with chlorine needs.
 */
export const THIOSULPHATE_PER_CHLORINE = (2 * molarMass('Na2S2O3.5H2O')) / molarMass('Cl2');

/** mg of ammonia nitrogen that are set free with each mg of chlorine (as Cl2) taken from monochloramine: 0.198. */
export const AMMONIA_PER_CHLORAMINE = molarMass('N') / molarMass('Cl2');

/** Grams of sodium thiosulphate pentahydrate that remove `chlorine` mg/L as Cl2. */
export const dechlorDose = (volume: number, chlorine: number): number =>
  (volume * chlorine * THIOSULPHATE_PER_CHLORINE) / 1000;
