/**
 * Stages of rearing by weight, and how survival in each makes that of a whole life.
 *
 * Fry weigh up to 1 g: FAO AFFRIS has Atlantic salmon as fry from 0.3 to 1 g and as fingerlings from 1 g on (table 1 of the
 * species profile), and tilapia are sold as fingerlings of 1 g (manual on reproduction ponds). Fingerlings reach 50 g and
 * growers 500 g: FAO AFFRIS, common carp, growth, has 25 to 50 g for fingerlings and 250 to 500 g for growers (after Antalfi &
 * Toelg 1971; Tasnadi 1997). Species differ: tilapia go to grow-out from 30 to 40 g on, salmon are parr from 5 g. Of deaths
 * SRAC Publication 282 (Rakocy 1989) says some 20 % in the fry stage and at most 2 % in final grow-out. Fish die evenly along
 * the cube root of the weight within a stage, which rises evenly with warmth (growth.ts).
 */
import { MIN_GROWING_WEIGHT } from './growth';

/** Stages in the order of a life. */
export const rearingStages = ['fry', 'fingerlings', 'grow-out'] as const;
export type RearingStage = (typeof rearingStages)[number];

/** g from which and to which a stage is reckoned. What is lighter than fry or heavier than grow-out goes on at their rate. */
export const stageWeights: Readonly<Record<RearingStage, readonly [from: number, to: number]>> = {
  fry: [MIN_GROWING_WEIGHT, 1],
  fingerlings: [1, 50],
  'grow-out': [50, 500],
};

const root = Math.cbrt;

/** Way of a stage between its limits, roots of g. */
export const lengthOf = (stage: RearingStage): number => {
  const [from, to] = stageWeights[stage];
  return root(to) - root(from);
};

/** The stage in which a fish of `weight` g is. */
export const stageOf = (weight: number): RearingStage =>
  weight < stageWeights.fry[1]
    ? 'fry'
    : weight < stageWeights.fingerlings[1]
      ? 'fingerlings'
      : 'grow-out';

/** Ends of a stage for whoever goes through it: open where a life begins and ends. */
export function openEnds(stage: RearingStage): readonly [from: number, to: number] {
  const [from, to] = stageWeights[stage];
  return [stage === 'fry' ? 0 : from, stage === 'grow-out' ? Infinity : to];
}

/** How often over the way from `from` to `to` g goes through a stage: 1 from limit to limit, 0 beside it. */
export function timesThrough(stage: RearingStage, from: number, to: number): number {
  const [low, high] = openEnds(stage);
  const way = root(Math.min(to, high)) - root(Math.max(from, low));
  return Math.max(0, way) / lengthOf(stage);
}

/** Share that lives through a stage where a `survival` from `from` to `to` g is spread evenly over the way. */
export const evenSurvival = (
  stage: RearingStage,
  survival: number,
  from: number,
  to: number,
): number => survival ** (lengthOf(stage) / (root(to) - root(from)));
