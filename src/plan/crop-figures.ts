import { type Formula, when } from './formula-parts';
import { type CropColumn, nth } from './names';

/**
 * Formulas for figures of the Crops sheet by the crop's line in it. Ordinary formulas, in live plans too,
 * so that a grower's own figures on that sheet count at once.
 */

export const cropFigure = (fact: CropColumn, line: Formula): Formula => nth(`Crop_${fact}`, line);

/** Sowing to transplanting; 0 for a crop that is sown in its place. */
export const daysToPlanting = (line: Formula): Formula =>
  when(cropFigure('start', line).is('in place'), 0, cropFigure('transplant_days', line));

export const daysToFirstCut = (line: Formula): Formula =>
  cropFigure('transplant_days', line).plus(cropFigure('bed_days', line));

/**
 * From planting, or sowing in place, to the cut of what is cut once, to the end of the harvest of what is
 * cut again.
 */
export const weeksInBed = (line: Formula): Formula =>
  daysToFirstCut(line)
    .plus(when(cropFigure('cut', line).is('again'), cropFigure('harvest_days', line), 0))
    .minus(daysToPlanting(line))
    .over(7);
