import { molarMass } from '../molar-mass';

/** Nutrients that a farm balances, by the signs of their elements. */
export const nutrients = {
  N: { spellings: ['nitrogen'] },
  P: { spellings: ['phosphorus'] },
  K: { spellings: ['potassium'] },
  Ca: { spellings: ['calcium'] },
  Mg: { spellings: ['magnesium'] },
  Fe: { spellings: ['iron'] },
} as const;

export type Nutrient = keyof typeof nutrients;

interface NutrientSalt {
  readonly formula: string;
  /** Atoms of each nutrient in one unit of the formula. */
  readonly atoms: Readonly<Partial<Record<Nutrient, number>>>;
  readonly spellings: readonly string[];
}

/** Salts that bring nutrients, as pure substances. */
const salts = {
  'potassium sulphate': {
    formula: 'K2SO4',
    atoms: { K: 2 },
    spellings: ['K2SO4', 'potassium sulfate', 'sulphate of potash'],
  },
  'potassium bicarbonate': { formula: 'KHCO3', atoms: { K: 1 }, spellings: ['KHCO3'] },
  'potassium hydroxide': { formula: 'KOH', atoms: { K: 1 }, spellings: ['KOH', 'caustic potash'] },
  'potassium nitrate': { formula: 'KNO3', atoms: { K: 1, N: 1 }, spellings: ['KNO3'] },
  'monopotassium phosphate': {
    formula: 'KH2PO4',
    atoms: { P: 1, K: 1 },
    spellings: ['KH2PO4', 'MKP', 'potassium dihydrogen phosphate'],
  },
  'calcium chloride dihydrate': {
    formula: 'CaCl2.2H2O',
    atoms: { Ca: 1 },
    spellings: ['CaCl2.2H2O', 'calcium chloride flakes'],
  },
  'calcium sulphate': {
    formula: 'CaSO4.2H2O',
    atoms: { Ca: 1 },
    spellings: ['CaSO4.2H2O', 'gypsum', 'calcium sulfate'],
  },
  'calcium hydroxide': {
    formula: 'Ca(OH)2',
    atoms: { Ca: 1 },
    spellings: ['Ca(OH)2', 'CaOH2', 'hydrated lime', 'slaked lime'],
  },
  'calcium nitrate': {
    formula: 'Ca(NO3)2.4H2O',
    atoms: { Ca: 1, N: 2 },
    spellings: ['Ca(NO3)2.4H2O', 'calcium nitrate tetrahydrate'],
  },
  'magnesium sulphate': {
    formula: 'MgSO4.7H2O',
    atoms: { Mg: 1 },
    spellings: ['MgSO4.7H2O', 'magnesium sulfate', 'Epsom salt', 'Epsom salts', 'bitter salt'],
  },
  dolomite: {
    formula: 'CaMg(CO3)2',
    atoms: { Ca: 1, Mg: 1 },
    spellings: ['CaMg(CO3)2', 'dolomitic lime'],
  },
} as const satisfies Record<string, NutrientSalt>;

/** Share of iron in the usual chelate for water below pH 7.5 (DTPA): usual practice, on the packet. */
export const IRON_SHARE = 0.1;

type PureSalt = keyof typeof salts;
export type NutrientSaltName = PureSalt | 'iron chelate';

export const nutrientSalts: Readonly<
  Record<NutrientSaltName, { readonly spellings: readonly string[] }>
> = { ...salts, 'iron chelate': { spellings: ['Fe-DTPA', 'DTPA', 'iron DTPA', 'chelated iron'] } };

/** The salt that is taken for a nutrient where none is named. */
export const usualSalts: Readonly<Record<Nutrient, NutrientSaltName>> = {
  N: 'calcium nitrate',
  P: 'monopotassium phosphate',
  K: 'potassium sulphate',
  Ca: 'calcium chloride dihydrate',
  Mg: 'magnesium sulphate',
  Fe: 'iron chelate',
};

/** Share of a nutrient in a salt; 0 where it has none: K in K2SO4 0.449, Ca in Ca(OH)2 0.541. */
export function nutrientShare(salt: NutrientSaltName, nutrient: Nutrient): number {
  if (salt === 'iron chelate') return nutrient === 'Fe' ? IRON_SHARE : 0;
  const { formula, atoms }: NutrientSalt = salts[salt];
  return ((atoms[nutrient] ?? 0) * molarMass(nutrient)) / molarMass(formula);
}
