import { molarMass } from '../molar-mass';

interface Salt {
  readonly formula: string;
  /** Chloride ions in one unit of the formula. */
  readonly chlorides: number;
  readonly spellings: readonly string[];
}

/** Salts that bring chloride into the water, as pure substances. */
export const salts = {
  'calcium chloride': { formula: 'CaCl2', chlorides: 2, spellings: ['CaCl2'] },
  'calcium chloride dihydrate': {
    formula: 'CaCl2.2H2O',
    chlorides: 2,
    spellings: ['CaCl2.2H2O', 'calcium chloride flakes'],
  },
  'potassium chloride': {
    formula: 'KCl',
    chlorides: 1,
    spellings: ['KCl', 'muriate of potash'],
  },
  'sodium chloride': { formula: 'NaCl', chlorides: 1, spellings: ['NaCl', 'salt', 'table salt'] },
} as const satisfies Record<string, Salt>;

export type SaltName = keyof typeof salts;

/** Grams of a pure salt that bring one gram of chloride: NaCl 1.649, CaCl2 1.565, KCl 2.103. */
export const gramsPerChloride = (salt: SaltName): number =>
  molarMass(salts[salt].formula) / (salts[salt].chlorides * molarMass('Cl'));
