/**
 * Groups of fish: how many, their mean weight, and the lots that they came from. Lots mix by number and
 * leave in proportion, since nobody can tell mixed fish apart.
 */

/** Share of a group by lot; shares add up to 1. */
export type LotShares = ReadonlyMap<string, number>;

export interface Group {
  /** Whole fish. */
  readonly fish: number;
  /** Mean weight, g; 0 where there are no fish. */
  readonly weight: number;
  readonly lots: LotShares;
}

export const noFish: Group = { fish: 0, weight: 0, lots: new Map() };

/** kg of a group. */
export const biomassOf = ({ fish, weight }: Pick<Group, 'fish' | 'weight'>): number =>
  (fish * weight) / 1000;

/** Two groups in one tank: weights and lots by number. */
export function mergeGroups(a: Group, b: Group): Group {
  if (a.fish === 0) return b;
  if (b.fish === 0) return a;
  const fish = a.fish + b.fish;
  const lots = new Map<string, number>();
  for (const group of [a, b]) {
    for (const [lot, share] of group.lots) {
      lots.set(lot, (lots.get(lot) ?? 0) + (share * group.fish) / fish);
    }
  }
  return { fish, weight: (a.fish * a.weight + b.fish * b.weight) / fish, lots };
}

/** Length from which on the lots of a tank are no longer named one by one. */
const MAX_LOT_TEXT = 200;
export const SEVERAL_LOTS = 'several lots';

/** The lots of a tank in the order in which they came, as one line of text; a lot is named once. */
export function lotsInWords(before: string, came: string): string {
  if (before === '' || came === '') return before + came;
  if (`, ${before}, `.includes(`, ${came}, `)) return before;
  const both = `${before}, ${came}`;
  const isTooLong = both.length > MAX_LOT_TEXT || [before, came].includes(SEVERAL_LOTS);
  return isTooLong ? SEVERAL_LOTS : both;
}

/** The same fish in another number, as after a count or deaths. */
export const withCount = (group: Group, fish: number): Group =>
  fish === 0 ? noFish : { ...group, fish };

/**
 * Mean weight in g of those that stay when `out` of `fish` leave at `outWeight`: (N w - n w_out)/(N - n).
 * What comes out at 0 or less is no possible weight: so many of so heavy fish were not there.
 */
export const weightLeft = (fish: number, weight: number, out: number, outWeight: number): number =>
  (fish * weight - out * outWeight) / (fish - out);

/** A group in two: `out` fish that weigh `outWeight` (left out: as all of them), and those that stay. */
export function splitGroup(
  group: Group,
  out: number,
  outWeight = group.weight,
): { readonly left: Group; readonly out: Group } {
  const leaving = out === 0 ? noFish : { ...group, fish: out, weight: outWeight };
  if (out >= group.fish) return { left: noFish, out: leaving };
  const weight =
    outWeight === group.weight
      ? group.weight
      : weightLeft(group.fish, group.weight, out, outWeight);
  return { left: { ...group, fish: group.fish - out, weight }, out: leaving };
}
