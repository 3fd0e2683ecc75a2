/**
 * How rows that the planner wrote are told from those of the grower. The remark of a row says which plan it belongs to
 * and ends with a mark of what the row says: whoever changes the row makes it his own.
 */
import type { FishRow } from '../core/fish-log';
import type { FishLogEntry, PlantingEntry } from '../plan/farm';

export const FISH_REMARK = 'fish plan';
export const BED_REMARK = 'bed plan';

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
export const fishRowOf = ({ what, planned, ...row }: FishLogEntry): FishRow => ({
  ...row,
  kind: what,
  planned: planned === 'planned',
});
