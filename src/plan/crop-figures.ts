import { ABOVE_BASE } from '../core/season-limits';
import { bedPlants } from '../functions/bed-cards';
import { sowOffsetCard } from '../functions/sowing-cards';
import { cardStep } from './card-step';
import { call, type Formula, when } from './formula-parts';
import { type CropColumn, nth } from './names';

/**
 * Formulas for figures of the Crops sheet by the crop's line in it. Ordinary formulas, in live plans too,
 * so that a grower's own figures on that sheet count at once.
 */

export const cropFigure = (fact: CropColumn, line: Formula): Formula => nth(`Crop_${fact}`, line);

/** The facts of a card's crop, by the crop's line. */
const facts = (line: Formula) => ({ fact: (fact: string) => cropFigure(fact as CropColumn, line) });

/** Sowing to transplanting; 0 for a crop that is sown in its place. */
export const daysToPlanting = (line: Formula): Formula =>
  when(cropFigure('start', line).is('in place'), 0, cropFigure('transplant_days', line));

export const daysToFirstCut = (line: Formula): Formula =>
  cardStep(sowOffsetCard, 'to_first_cut', facts(line));

/** Days from the first cut to the last, in which the crop keeps its place; none where it is cut once. */
export const pickingDays = (line: Formula): Formula =>
  cardStep(sowOffsetCard, 'picking', facts(line));

/** Days from the first cut within which a batch must be cut that is cut once. */
export const cutWithin = (line: Formula): Formula =>
  when(cropFigure('cut', line).is('once'), cropFigure('harvest_days', line), 0);

/** Beyond any air: the limit of a crop whose own is blank. */
const NO_LIMIT = 99;

/** Mean air in which a crop is grown at all, as Season and the planner of the beds have it. */
export const coldestAir = (line: Formula): Formula => {
  const base = cropFigure('base_temp', line);
  return when(base.isNumber, base.plus(ABOVE_BASE), -NO_LIMIT);
};
export const warmestAir = (line: Formula): Formula => {
  const limit = cropFigure('heat_limit', line);
  return when(limit.isNumber, limit, NO_LIMIT);
};

/** Months in which a crop grows, by the mean air of twelve cells. */
export const monthsGrown = (line: Formula, means: Formula): Formula =>
  call('SUMPRODUCT', means.atLeast(coldestAir(line)).times(means.atMost(warmestAir(line))));

/** From planting, or sowing in place, to the end of the harvest: as GILL.BED.PLANTS has it. */
export const weeksInBed = (line: Formula): Formula => cardStep(bedPlants, 'weeks', facts(line));
