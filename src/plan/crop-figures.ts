import { bedPlants } from '../functions/bed-cards';
import { sowOffsetCard } from '../functions/sowing-cards';
import { cardStep } from './card-step';
import { type Formula, when } from './formula-parts';
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

/** From planting, or sowing in place, to the end of the harvest: as GILL.BED.PLANTS has it. */
export const weeksInBed = (line: Formula): Formula => cardStep(bedPlants, 'weeks', facts(line));
