/**
 * How rows that the planner wrote are told from those of the grower. The remark of a row says which plan it belongs to
 * and ends with a mark of what the row says: whoever changes the row makes it his own.
 */
import type { FishRow } from '../core/fish-log';
import { BED_REMARK, FISH_REMARK } from '../core/planner-remarks';
import { isoWeekday } from '../core/serial-date';
import type { Farm, FishLogEntry, PlantingEntry } from '../plan/farm';

/** A short mark of a text (FNV-1a, 32 bits). */
function markOf(text: string): string {
  let hash = 0x811c9dc5;
  for (let at = 0; at < text.length; at++) {
    hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193) >>> 0;
  }
  return hash.toString(36).padStart(7, '0');
}

/** Whether a remark is one of the planner's, whatever became of the row since. */
export const isWrittenBy = (plan: string, remark: string | undefined): boolean =>
  remark !== undefined && new RegExp(`^${plan} [0-9a-z]{7}$`).test(remark.trim());

const text = (value: string | number | undefined): string =>
  String(value ?? '')
    .trim()
    .toLowerCase();

const plantingMark = (row: PlantingEntry): string =>
  markOf(
    [
      row.batch,
      row.crop,
      row.seeds,
      row.sown,
      row.up,
      row.bed,
      row.plants,
      row.planted,
      row.firstCut,
      row.cleared,
    ]
      .map(text)
      .join('|'),
  );

/** The row with the planner's remark. */
export const sealedPlanting = (row: PlantingEntry): PlantingEntry => ({
  ...row,
  remark: `${BED_REMARK} ${plantingMark(row)}`,
});

/** Written by the planner, still planned, and not touched since. */
export const isOwnPlanting = (row: PlantingEntry): boolean =>
  row.planned === 'planned' && row.remark?.trim() === sealedPlanting(row).remark;

type Fish = Omit<FishRow, 'planned' | 'remark'>;

/** Weights that went through another unit and back differ in their last digits. */
const fishMark = ({ date, kind, tank, toTank, fish, weight, lot }: Fish, digits = 1): string =>
  markOf(
    [
      date,
      kind,
      tank,
      toTank,
      fish,
      weight === undefined ? '' : (weight * digits).toPrecision(6),
      lot,
    ]
      .map(text)
      .join('|'),
  );

export const sealedFishRow = <R extends Fish>(row: R): R & { readonly remark: string } => ({
  ...row,
  remark: `${FISH_REMARK} ${fishMark(row)}`,
});

/** The same of a row of the Fish log. */
export const isOwnFishRow = (row: FishRow): boolean =>
  row.planned === true &&
  [1, 1 + 1e-9, 1 - 1e-9].some(
    (digits) => row.remark?.trim() === `${FISH_REMARK} ${fishMark(row, digits)}`,
  );

/** A row of the farm's Fish log as the core has it, its remark with it. */
const fishRowOf = ({ what, planned, ...row }: FishLogEntry): FishRow => ({
  ...row,
  kind: what,
  planned: planned === 'planned',
});

/** First day of a plan of the beds: the Monday on or after the day of the plan. */
export const firstMonday = ({ asOf }: Pick<Farm, 'asOf'>): number =>
  asOf + ((8 - isoWeekday(asOf)) % 7);

/** Places of rows in the registers of a farm. */
export interface RowPlaces {
  readonly fishLog: readonly number[];
  readonly plantings: readonly number[];
}

/** A grading was asked for, and stays until it is taken back. */
const isGrading = ({ what, weight }: FishLogEntry, which: 'all' | 'ahead'): boolean =>
  which === 'ahead' && what !== 'stocked' && weight !== undefined;

/**
 * The planner's own rows: all of them, or those alone that a new plan can say anew. What is due today, and seed that is
 * to be sown before the Monday with which a plan of the beds begins, stays as it is.
 */
export function ownRows(farm: Farm, which: 'all' | 'ahead'): RowPlaces {
  const monday = firstMonday(farm);
  const isAhead = (from: number, ...days: (number | undefined)[]): boolean =>
    which === 'all' || days.every((day) => day === undefined || day >= from);
  return {
    fishLog: farm.fishLog.flatMap((row, at) =>
      isOwnFishRow(fishRowOf(row)) && isAhead(farm.asOf + 1, row.date) && !isGrading(row, which)
        ? [at]
        : [],
    ),
    plantings: farm.plantings.flatMap((row, at) =>
      isOwnPlanting(row) && isAhead(monday, row.sown, row.planted) ? [at] : [],
    ),
  };
}

/** The farm without rows of its registers. */
export function withoutRows(farm: Farm, { fishLog, plantings }: RowPlaces): Farm {
  const gone = { fishLog: new Set(fishLog), plantings: new Set(plantings) };
  return {
    ...farm,
    fishLog: farm.fishLog.filter((_, at) => !gone.fishLog.has(at)),
    plantings: farm.plantings.filter((_, at) => !gone.plantings.has(at)),
  };
}
