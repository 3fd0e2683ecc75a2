/** What fish that share one water bear: of each limit the strictest. */
import type { FishFact, Species } from './tables/species';

/** Limits of the species table that the water is judged by, and whether the least or the most of them is strictest. */
export const strictestOf = {
  tan_most: 'MIN',
  unionised_most: 'MIN',
  nitrite_most: 'MIN',
  carbon_dioxide_most: 'MIN',
  oxygen_least: 'MAX',
  oxygen_critical: 'MAX',
} as const satisfies Partial<Record<FishFact, 'MIN' | 'MAX'>>;

export type Limited = keyof typeof strictestOf;

export type WaterLimits = Readonly<Record<Limited, number>>;

const limited = Object.keys(strictestOf) as Limited[];

/** mg/L, by the strictest of the species; undefined where none is named. */
export function limitsOf(kinds: readonly Species[]): WaterLimits | undefined {
  if (kinds.length === 0) return undefined;
  return Object.fromEntries(
    limited.map((fact) => {
      const figures = kinds.map(({ facts }) => facts[fact][0]);
      return [fact, Math[strictestOf[fact] === 'MIN' ? 'min' : 'max'](...figures)];
    }),
  ) as unknown as WaterLimits;
}

/**
 * Where no species is named: those of warm-water farm fish. Nitrifiers want about 5 mg/L of oxygen, and below 3 fish
 * gasp: common practice, no source.
 */
export const usualLimits: WaterLimits = {
  tan_most: 2,
  unionised_most: 0.05,
  nitrite_most: 1,
  carbon_dioxide_most: 20,
  oxygen_least: 5,
  oxygen_critical: 3,
};
