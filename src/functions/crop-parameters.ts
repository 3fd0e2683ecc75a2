import { type Crop } from '../core/tables/crops';
import type { Stage } from '../core/sowing';
import { cropTable } from './crop-table';
import { choice, nameOrNumber, number } from './parameter';

/** Parameters that the crop cards share, so that one range and one wording serve them all. */
export const MAX_DAYS = 3650;
export const MAX_PLANTS = 1e8;

/** Trade words for the stages. */
export const stageWords: Readonly<Record<Stage, readonly string[]>> = {
  emerge: ['emergence', 'emerged', 'up', 'come up', 'germinate', 'germination'],
  transplant: ['transplanting', 'transplanted', 'plant out', 'planting out', 'planting', 'set out'],
  'first cut': [
    'cut',
    'cutting',
    'first harvest',
    'harvest',
    'first pick',
    'first picking',
    'pick',
    'picking',
  ],
  clear: ['cleared', 'clearing', 'clear out', 'bed free', 'last cut', 'last harvest', 'pull'],
};

const stageMeaning =
  'where the batch then stands: emerge, transplant (set into the bed), first cut, or clear (the whole batch is gone)';
export const stage = choice('stage', stageMeaning, stageWords);
export const stageOrFirstCut = choice('stage', stageMeaning, stageWords, { default: 'first cut' });

export const cropOrDays = nameOrNumber(
  'crop',
  'crop, or the days from sowing to the stage',
  cropTable.book,
  { unit: 'day', min: 1, max: MAX_DAYS, whole: true, of: (crop): Crop => crop },
);

export const cropOrWeeks = nameOrNumber(
  'crop',
  'crop, or the weeks that a plant keeps its place in the bed, turnaround included',
  cropTable.book,
  { unit: 'week', above: 0, max: Math.floor(MAX_DAYS / 7), of: (crop): Crop => crop },
);

export const perWeek = number('per_week', 'plants taken from the beds each week', {
  unit: 'plants',
  min: 0,
  max: MAX_PLANTS,
});
