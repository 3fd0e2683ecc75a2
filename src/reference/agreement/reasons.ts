import type { ComparisonRow } from './comparisons';
import type { WishAnswer, WishFigure } from './wish-of-record';

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

const twoDigits = (value: number): string => String(Number(value.toPrecision(2)));

const ONE_PLANTING =
  ': a single planting in its best weeks, where a steady sale counts the beds in which the next plants grow up, and the rest between two';
const BEST_YEAR = ': the best year that it states, of a house that grows all the year';

/** Why so much tank: how densely the fish stood. */
function tankReason({ wish, figures, proposal, rows }: WishAnswer): string | undefined {
  const { fish } = proposal;
  const area = rows.find(({ what }) => what === 'beds');
  if (wish.fish.kgPerMonth === undefined && area !== undefined)
    return `Only the market is wished for: the tanks hold the fish that feed the proposed beds, which are ${twoDigits(area.ratio)} times those of the record`;
  const [stocked, survival, weight] = ['stocked_per_m3', 'survival_percent', 'end_weight_g'].map(
    (name) => figures.number(name),
  );
  const reckoned =
    stocked === undefined || survival === undefined || weight === undefined
      ? undefined
      : stocked * (survival / 100) * (weight / 1000);
  const density = figures.number('harvest_kg_per_m3') ?? reckoned;
  return fish === undefined || density === undefined
    ? undefined
    : `The record took its fish out at ${twoDigits(density)} kg/m³; the proposal fills its tanks to ${twoDigits(fish.density)} kg/m³, which is usual with air`;
}

/** Why so much bed: what a m2 gave, or the feed that was put on it. */
function bedReason({ wish, figures, proposal }: WishAnswer, row: WishFigure): string | undefined {
  const [sold] = wish.market;
  if (sold === undefined) return BED_RATIO;
  const [was, is] = [row.published, row.model].map((area) => twoDigits(sold.perWeek / area));
  const unit = sold.unit === 'kg' ? 'kg' : 'heads';
  const isBest = figures.number(`${sold.crop}_kg_per_m2_year_best`) !== undefined;
  const isOneCrop = figures.number('fruit_kg') !== undefined;
  const because = isOneCrop ? ONE_PLANTING : isBest ? BEST_YEAR : '';
  return proposal.crops.length === 0
    ? undefined
    : `The record cut ${was} ${unit} a week from a m², a bed of the table gives ${is}${because}`;
}

/** Why so much feed: how the fish converted it, or for how much bed it is. */
function feedReason(
  { wish, figures, proposal, rows }: WishAnswer,
  row: WishFigure,
): string | undefined {
  const { fish, beds } = proposal;
  const conversion = figures.number('fcr');
  if (fish === undefined) return undefined;
  if (wish.fish.kgPerMonth === undefined) {
    const area = rows.find(({ what }) => what === 'beds');
    if (area === undefined) return undefined;
    const gave = row.published / area.published;
    const calls = row.model / beds.reduce((sum, bed) => sum + bed.area, 0);
    return `Only the market is wished for, and feed follows from the beds: ${twoDigits(area.ratio)} times the area, and ${twoDigits(calls)} g on a m² where the record gave ${twoDigits(gave)} g`;
  }
  const gain = 1 - (fish.startWeight * fish.stocked) / (fish.harvestWeight * fish.harvested);
  const model = (fish.meanFeed * 365) / (12 * 1000 * fish.kgPerMonth * gain);
  return conversion !== undefined && conversion < model
    ? `${TRIAL_FISH}; here ${twoDigits(conversion)} g of feed for a g of growth, in the proposal ${twoDigits(model)} g`
    : undefined;
}

/** The reason of a figure outside its band; undefined inside it, or where nobody has found one. */
export function wishReason(answer: WishAnswer, row: WishFigure): string | undefined {
  if (row.inside) return undefined;
  if (row.what === 'tanks') return tankReason(answer);
  return row.what === 'beds' ? bedReason(answer, row) : feedReason(answer, row);
}
