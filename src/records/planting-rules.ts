/** What cannot be in a row of the Plantings, and what speaks against a cut: as the sheets say it. */
import { isoText } from '../core/serial-date';
import { usual } from '../core/tables/crops';
import { cropTable } from '../functions/crop-table';
import type { Farm, HarvestEntry, PlantingEntry } from '../plan/farm';
import { placeKey } from '../plan/registers-of-farm';
import { waitsFor } from './days-to-wait';

type Rows = Pick<Farm, 'plantings' | 'beds' | 'asOf' | 'crops'>;

const counts = ({ planned }: PlantingEntry): boolean =>
  planned === undefined || planned === 'planned';

/** What a batch takes of its bed by its plants; all of it where they are not counted. */
function needsOf({ crop, plants, bed }: PlantingEntry, farm: Rows): number {
  const found = farm.beds.find(({ name }) => bed !== undefined && placeKey(name) === placeKey(bed));
  if (plants === undefined || !found) return 1;
  const kind = cropTable.book.find(crop);
  const own = farm.crops?.[kind?.name ?? crop]?.['plants_per_m2'];
  const density = typeof own === 'number' ? own : kind && usual(kind, 'plants_per_m2');
  return density === undefined ? 1 : Math.min(1, plants / (density * found.length * found.width));
}

/** The batch that was planted into the same bed before this one, by day and then by row. */
function neighbourOf(at: number, { plantings }: Rows): number | undefined {
  const me = plantings[at];
  if (me?.bed === undefined || me.planted === undefined) return undefined;
  const bed = placeKey(me.bed);
  let best: number | undefined;
  plantings.forEach((row, i) => {
    if (!counts(row) || row.bed === undefined || placeKey(row.bed) !== bed) return;
    if (row.planted === undefined || i === at) return;
    const isBefore = row.planted < (me.planted ?? 0) || (row.planted === me.planted && i < at);
    const last = best === undefined ? undefined : plantings[best];
    if (isBefore && (last?.planted === undefined || row.planted >= last.planted)) best = i;
  });
  return best;
}

/** Why a row that is done cannot be; undefined where nothing speaks against it. `line` numbers rows for people. */
export function faultOfPlanting(
  at: number,
  farm: Rows,
  line: (at: number) => string = (row) => `row ${row + 1}`,
): string | undefined {
  const me = farm.plantings[at];
  if (!me || me.planned !== undefined) return undefined;
  const { bed, sown, planted, firstCut, cleared } = me;
  const before = (first: number | undefined, then: number | undefined): boolean =>
    first !== undefined && then !== undefined && then < first;
  if (bed !== undefined && !farm.beds.some(({ name }) => placeKey(name) === placeKey(bed)))
    return `Beds has no bed called ${bed.trim()}`;
  if (bed === undefined && planted !== undefined) return 'say in which bed it was planted';
  if (before(sown, planted)) return 'planted out before it was sown';
  if (before(planted, firstCut)) return 'cut before it was planted out';
  if (before(planted, cleared)) return 'cleared before it was planted out';
  if (before(firstCut, cleared)) return 'cleared before its first cut';
  if (cleared !== undefined && cleared > farm.asOf) {
    return 'cleared on a day that is still to come: clear the date, or mark the row as planned';
  }
  const earlier = neighbourOf(at, farm);
  const other = earlier === undefined ? undefined : farm.plantings[earlier];
  if (earlier === undefined || !other || planted === undefined || bed === undefined)
    return undefined;
  const isOpen = other.cleared === undefined || other.cleared > planted;
  return isOpen && needsOf(other, farm) + needsOf(me, farm) > 1 + 1e-6
    ? `${bed.trim()} was not cleared of ${line(earlier)} on ${isoText(planted)}`
    : undefined;
}

/** The row of the Plantings that stood in a bed on a day: the last that was planted there, unless it was cleared. */
export function batchOn(
  farm: Pick<Farm, 'plantings'>,
  bed: string,
  day: number,
): number | undefined {
  let best: number | undefined;
  farm.plantings.forEach((row, at) => {
    if (!counts(row) || row.bed === undefined || placeKey(row.bed) !== placeKey(bed)) return;
    if (row.planted === undefined || row.planted > day) return;
    const last = best === undefined ? undefined : farm.plantings[best];
    if (last?.planted === undefined || row.planted >= last.planted) best = at;
  });
  const cleared = best === undefined ? undefined : farm.plantings[best]?.cleared;
  return cleared === undefined || cleared >= day ? best : undefined;
}

/** What speaks against a row of the Harvest log; undefined where nothing does. */
export function doubtOfHarvest(
  { bed, date }: Pick<HarvestEntry, 'bed' | 'date'>,
  farm: Pick<Farm, 'plantings' | 'beds' | 'treatments'>,
): string | undefined {
  if (bed === undefined) return undefined;
  const place = bed.trim();
  if (waitsFor(farm.treatments, place, date).length > 0)
    return `${place} was treated, and the days to wait were not over: see Treatments`;
  const isBed = farm.beds.some(({ name }) => placeKey(name) === placeKey(place));
  return isBed && batchOn(farm, place, date) === undefined
    ? `${place} was empty on ${isoText(date)} by the Plantings`
    : undefined;
}
