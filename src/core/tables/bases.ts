import { GRAMS_PER_EQUIVALENT_CACO3, molarMass } from '../molar-mass';

interface Base {
  readonly formula: string;
  /** Equivalents of acid that one mole takes up. */
  readonly equivalents: number;
  /** Other names, as growers and suppliers use them. */
  readonly spellings: readonly string[];
  /** Burns skin and eyes: needs the caution for caustic bases. */
  readonly caustic: boolean;
}

/** Bases that growers add to hold alkalinity and pH, as pure substances. */
export const bases = {
  'potassium bicarbonate': {
    formula: 'KHCO3',
    equivalents: 1,
    spellings: ['KHCO3', 'potassium hydrogen carbonate'],
    caustic: false,
  },
  'potassium carbonate': {
    formula: 'K2CO3',
    equivalents: 2,
    spellings: ['K2CO3'],
    caustic: false,
  },
  'potassium hydroxide': {
    formula: 'KOH',
    equivalents: 1,
    spellings: ['KOH', 'caustic potash'],
    caustic: true,
  },
  'calcium hydroxide': {
    formula: 'Ca(OH)2',
    equivalents: 2,
    spellings: ['Ca(OH)2', 'CaOH2', 'hydrated lime', 'slaked lime'],
    caustic: true,
  },
  'calcium carbonate': {
    formula: 'CaCO3',
    equivalents: 2,
    spellings: ['CaCO3', 'limestone'],
    caustic: false,
  },
  'sodium bicarbonate': {
    formula: 'NaHCO3',
    equivalents: 1,
    spellings: ['NaHCO3', 'baking soda', 'sodium hydrogen carbonate'],
    caustic: false,
  },
} as const satisfies Record<string, Base>;

export type BaseName = keyof typeof bases;

const basesWith = (metal: RegExp): BaseName[] =>
  (Object.keys(bases) as BaseName[]).filter((name) => metal.test(name));

/** Bases that bring potassium along, and those that bring calcium. */
export const potassiumBases = basesWith(/^potassium/);
export const calciumBases = basesWith(/^calcium/);

/** Grams of a pure base in one equivalent. */
export const gramsPerEquivalent = (formula: string, equivalents: number): number =>
  molarMass(formula) / equivalents;

/** Grams of a pure base that add one gram of alkalinity as CaCO3: KHCO3 2.000, Ca(OH)2 0.740. */
export const gramsPerAlkalinity = (base: BaseName): number =>
  gramsPerEquivalent(bases[base].formula, bases[base].equivalents) / GRAMS_PER_EQUIVALENT_CACO3;
