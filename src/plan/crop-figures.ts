/**
 * Formulas for figures of the Crops sheet by the crop's line in it. Ordinary formulas, in live plans too,
 * so that a grower's own figures on that sheet count at once.
 */

export const cropFigure = (fact: string, line: string): string => `INDEX(Crop_${fact},${line})`;

/** Sowing to transplanting; 0 for a crop that is sown in its place. */
export const daysToPlanting = (line: string): string =>
  `IF(${cropFigure('start', line)}="in place",0,${cropFigure('transplant_days', line)})`;

export const daysToFirstCut = (line: string): string =>
  `(${cropFigure('transplant_days', line)}+${cropFigure('bed_days', line)})`;

/** From planting, or sowing in place, to clearing. */
export const weeksInBed = (line: string): string =>
  `(${daysToFirstCut(line)}+${cropFigure('harvest_days', line)}-${daysToPlanting(line)})/7`;
