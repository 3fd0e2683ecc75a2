/**
 * IUPAC abridged standard atomic weights (conventional values), g/mol, of the elements that occur in
 * what growers dose.
 */
const atomicWeights: Readonly<Record<string, number>> = {
  H: 1.008,
  C: 12.011,
  N: 14.007,
  O: 15.999,
  Na: 22.99,
  Mg: 24.305,
  P: 30.974,
  S: 32.06,
  Cl: 35.45,
  K: 39.098,
  Ca: 40.078,
  Fe: 55.845,
};

const massOf = (elements: string): number =>
  [...elements.matchAll(/([A-Z][a-z]?)(\d*)/g)].reduce((sum, [, element, count]) => {
    const weight = atomicWeights[element as string];
    if (weight === undefined) throw new Error(`no atomic weight for ${element} in ${elements}`);
    return sum + weight * Number(count || 1);
  }, 0);

/**
 * Molar mass in g/mol of a formula such as "Ca(OH)2" or "Na2S2O3.5H2O".
 * One level of brackets; a part after a dot may begin with its count.
 */
export function molarMass(formula: string): number {
  return formula.split('.').reduce((total, part) => {
    const count = parseInt(part) || 1;
    const grouped = [...part.matchAll(/\(([^)]+)\)(\d*)/g)].reduce(
      (sum, [, inside, times]) => sum + massOf(inside as string) * Number(times || 1),
      0,
    );
    return total + count * (grouped + massOf(part.replace(/\([^)]+\)\d*/g, '')));
  }, 0);
}

/** mg of a nitrogen compound for each mg of its nitrogen: NH3 1.216, NH4 1.288, NO2 3.284, NO3 4.427. */
export const massPerNitrogen = (formula: string): number => molarMass(formula) / molarMass('N');

/** Grams in one equivalent of calcium carbonate, the unit in which alkalinity is written: 50.04. */
export const GRAMS_PER_EQUIVALENT_CACO3 = molarMass('CaCO3') / 2;
