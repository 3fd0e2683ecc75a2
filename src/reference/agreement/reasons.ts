import type { ComparisonRow } from './comparisons';

const UPPER_BOUND =
  'The function counts all ammonia as nitrified in soft water, which is an upper bound even where plants and denitrifying give half back: hard make-up water, lime in the feed and ammonia that is never nitrified save the rest, and a farm’s own log of pH tells how much';
const NO_FEEDBACK = 'The model has no feedback from water to growth, and gives both the same';
const BEDS_ALIKE =
  'Yields of the table are not told apart by kind of bed; the published difference is a fifth, its ends recalled';
const LOOPS_ALIKE =
  'The model has no want of nutrients in a single loop; the record’s tomatoes had no supplements';
const SEASON =
  'The table holds a tunnel season; the record is a heated house, trained and picked without a break';
const TRIAL_FISH =
  'Well-fed trial fish, small ones above all, convert better than the usual figure of a farm, which the function gives';

const BED_RATIO =
  'Full crops were published from 40 to 100 g of feed on a m² of raft and from 15 in troughs: the ratio is a choice between too few nutrients and nitrate that piles up, and the function gives its usual value for that kind of bed';

/** Why an answer lies outside its band, by what is asked; the first that fits is said. */
const reasons: readonly (readonly [asks: RegExp, reason: string])[] = [
  [/^base, g/, UPPER_BOUND],
  [/^bed area|^feed over bed area/, BED_RATIO],
  [/gain ratio/, NO_FEEDBACK],
  [/gravel|raft|film.* over/, BEDS_ALIKE],
  [/one loop/, LOOPS_ALIKE],
  [/per plant and year|kg\/m2\/year|of harvest season/, SEASON],
  [/feed conversion/, TRIAL_FISH],
];

/** The reason of a row outside its band; undefined inside it, or where nobody has found one. */
export const reasonFor = ({ inside, comparison }: ComparisonRow): string | undefined =>
  inside === false ? reasons.find(([asks]) => asks.test(comparison.ask))?.[1] : undefined;
