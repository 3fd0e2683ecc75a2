/**
 * Stages of rearing by weight, and how survival in each makes that of a whole life.
 *
 * Limits after the rearing table of SRAC Publication 282 (Rakocy 1989, Tank culture of tilapia): fry to about 1 g,
 * fingerlings to 50 g, grow-out from there. What it says of deaths was read, some 20 % in the fry stage and at most 2 % in
 * final grow-out; the limits of 50 g and of 500 g are recalled. Fish die evenly along the cube root of the weight within a
 * stage, which rises evenly with warmth (growth.ts).
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
