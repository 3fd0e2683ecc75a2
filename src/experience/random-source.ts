/** Chance that repeats: the same seed gives the same numbers. */
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

export interface RandomSource {
  /** From 0 to below 1. */
  share(): number;
  /** Normal, mean 0 and standard deviation 1. */
  normal(): number;
}

export function randomSource(seed: number): RandomSource {
  const generator = xoroshiro128plus(seed);
  const share = (): number => uniformFloat64(generator);
  let kept: number | undefined;
  return {
    share,
    // Box & Muller 1958, Ann. Math. Stat. 29:610: two at a time.
    normal: () => {
      if (kept !== undefined) {
        const last = kept;
        kept = undefined;
        return last;
      }
      const far = Math.sqrt(-2 * Math.log(1 - share()));
      const turn = 2 * Math.PI * share();
      kept = far * Math.sin(turn);
      return far * Math.cos(turn);
    },
  };
}
