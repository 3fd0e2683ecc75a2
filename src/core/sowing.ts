import { noAnswer } from './errors';
import { isoWeekText, MAX_SERIAL, MIN_SERIAL } from './serial-date';
import { type Crop, usual } from './tables/crops';

/** What a batch passes through, in this order, counted in days from sowing. */
export const stages = ['emerge', 'transplant', 'first cut', 'clear'] as const;
export type Stage = (typeof stages)[number];

/**
 * Days from the first cut to the last, in which a crop keeps its place. A crop that is cut once gives it back with
 * the cut: its harvest days are those within which a batch must be cut, not days of standing.
 */
export const pickingDays = (crop: Crop): number =>
  crop.cut === 'again' ? usual(crop, 'harvest_days') : 0;

/** Days from the first cut within which a batch must be cut that is cut once; what stands then is past its best. */
export const cutWithin = (crop: Crop): number =>
  crop.cut === 'once' ? usual(crop, 'harvest_days') : 0;

/**
 * Days from sowing to a stage. Undefined where the crop has no such stage: one sown in place is never
 * transplanted, one from plugs or cuttings does not emerge (day 0 is then potting up).
 *
 * `clear` is the day from which the place is free: the last cut, which for a crop that is cut once is the first.
 */
export function dayOfStage(crop: Crop, stage: Stage): number | undefined {
  const transplant = usual(crop, 'transplant_days');
  switch (stage) {
    case 'emerge':
      return crop.start === 'plugs' || crop.start === 'cuttings'
        ? undefined
        : usual(crop, 'emerge_days');
    case 'transplant':
      return crop.start === 'in place' ? undefined : transplant;
    case 'first cut':
      return transplant + usual(crop, 'bed_days');
    case 'clear':
      return transplant + usual(crop, 'bed_days') + pickingDays(crop);
  }
}

/** Days from sowing to a stage; a number in place of the crop is those days. */
export function sowingOffset(crop: Crop | number, stage: Stage): number {
  if (typeof crop === 'number') return crop;
  const day = dayOfStage(crop, stage);
  if (day !== undefined) return day;
  const known = stages.filter((stage) => dayOfStage(crop, stage) !== undefined).join(', ');
  throw noAnswer(
    crop.start === 'in place'
      ? `${crop.name}: sown in place, so there is no transplant; the stages are ${known}`
      : `${crop.name}: started from ${crop.start}, so nothing emerges; the stages are ${known}`,
  );
}

function checkedDate(serial: number, what: string): number {
  if (serial >= MIN_SERIAL && serial <= MAX_SERIAL) return serial;
  throw noAnswer(`${what} falls outside the dates from 1900-03-01 to 9999-12-31`);
}

/** Serial of the sowing that brings a stage to `date`. */
export const sowingDate = (date: number, crop: Crop | number, stage: Stage): number =>
  checkedDate(date - sowingOffset(crop, stage), 'the sowing');

/** Serial of the day on which what was sown on `sown` reaches a stage. */
export const stageDate = (sown: number, crop: Crop | number, stage: Stage): number =>
  checkedDate(sown + sowingOffset(crop, stage), `the stage "${stage}"`);

export interface Batch {
  readonly batch: number;
  readonly sown: number;
  /** Undefined where the crop has no such stage, or where only the days to the first cut are known. */
  readonly transplant: number | undefined;
  readonly firstCut: number;
  readonly clear: number | undefined;
  /** ISO 8601 week of sowing, "2026-W53". */
  readonly week: string;
}

/**
 * Batches sown `every` days from the serial `first` on. A number in place of the crop is the days from
 * sowing to the first cut.
 */
export function sowingSeries(
  first: number,
  every: number,
  batches: number,
  crop: Crop | number,
): readonly Batch[] {
  const at = (sown: number, stage: Stage): number | undefined => {
    const day = typeof crop === 'number' ? undefined : dayOfStage(crop, stage);
    return day === undefined ? undefined : sown + day;
  };
  const sownLast = first + every * (batches - 1);
  checkedDate(at(sownLast, 'clear') ?? stageDate(sownLast, crop, 'first cut'), 'the last batch');
  return Array.from({ length: batches }, (_, i) => {
    const sown = first + every * i;
    return {
      batch: i + 1,
      sown,
      transplant: at(sown, 'transplant'),
      firstCut: sown + sowingOffset(crop, 'first cut'),
      clear: at(sown, 'clear'),
      week: isoWeekText(sown),
    };
  });
}
