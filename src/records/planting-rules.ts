/** What cannot be in a row of the Plantings, and what speaks against a cut: as the sheets say it. */
import { isoText } from '../core/serial-date';
import { usual } from '../core/tables/crops';
import { HALF_OF_TEN } from '../core/typing-slips';
import { cropTable } from '../functions/crop-table';
import type { Farm, HarvestEntry, PlantingEntry } from '../plan/farm';
import { placeKey } from '../plan/registers-of-farm';
import { waitsFor } from './days-to-wait';
import { batchName } from './register-row';

type Rows = Pick<Farm, 'plantings' | 'beds' | 'asOf' | 'crops'>;

const counts = ({ planned }: PlantingEntry): boolean =>
  planned === undefined || planned === 'planned';

/** Plants that a batch has room for in its bed, where that is known. */
function roomFor({ crop, bed }: PlantingEntry, farm: Rows): number | undefined {
  const found = farm.beds.find(({ name }) => bed !== undefined && placeKey(name) === placeKey(bed));
  if (!found) return undefined;
  const kind = cropTable.book.find(crop);
  const own = farm.crops?.[kind?.name ?? crop]?.['plants_per_m2'];
  const density = typeof own === 'number' ? own : kind && usual(kind, 'plants_per_m2');
  return density === undefined ? undefined : density * found.length * found.width;
}

/** What a batch takes of its bed by its plants; all of it where they are not counted. */
function needsOf(batch: PlantingEntry, farm: Rows): number {
  const room = batch.plants === undefined ? undefined : roomFor(batch, farm);
  return room === undefined ? 1 : Math.min(1, (batch.plants ?? 0) / room);
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
  const { bed, sown, up, planted, firstCut, cleared } = me;
  const before = (first: number | undefined, then: number | undefined): boolean =>
    first !== undefined && then !== undefined && then < first;
  if (bed !== undefined && !farm.beds.some(({ name }) => placeKey(name) === placeKey(bed)))
    return `Beds has no bed called ${bed.trim()}`;
  if (bed === undefined && planted !== undefined) return 'say in which bed it was planted';
  if (before(sown, up)) return 'up before it was sown';
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

/** More than a hand slips: nearer to ten times than to once. */
const TOO_MANY = Math.exp(HALF_OF_TEN);

export interface PlantingDoubt {
  readonly at: number;
  readonly field: 'plants' | 'bed';
  readonly says: string;
}

/**
 * Plants far beyond the room of their bed; and batches that have no room beside all those that stand there, where the
 * one planted before them alone, which the sheet looks at, leaves it.
 */
export function doubtsOfPlantings(farm: Rows): PlantingDoubt[] {
  const done = farm.plantings.flatMap((row, at) =>
    row.planned === undefined && row.bed !== undefined && row.planted !== undefined
      ? [{ ...row, at, bed: row.bed, planted: row.planted }]
      : [],
  );
  const byBed = new Map<string, typeof done>();
  for (const row of done) {
    const key = placeKey(row.bed);
    byBed.set(key, [...(byBed.get(key) ?? []), row]);
  }
  const doubts: PlantingDoubt[] = [];
  for (const rows of byBed.values()) {
    rows.sort((a, b) => a.planted - b.planted || a.at - b.at);
    let standing: typeof done = [];
    for (const row of rows) {
      const room = roomFor(row, farm);
      const place = row.bed.trim();
      if (row.plants !== undefined && room !== undefined && row.plants > room * TOO_MANY)
        doubts.push({
          at: row.at,
          field: 'plants',
          says: `${row.plants} plants of ${row.crop} in ${place}, which has room for ${Math.round(room)}`,
        });
      standing = standing.filter(({ cleared }) => cleared === undefined || cleared > row.planted);
      const taken = standing.reduce((sum, batch) => sum + needsOf(batch, farm), 0);
      if (
        standing.length > 0 &&
        taken + needsOf(row, farm) > 1 + 1e-6 &&
        faultOfPlanting(row.at, farm) === undefined
      )
        doubts.push({
          at: row.at,
          field: 'bed',
          says: `${place} has no room left on ${isoText(row.planted)}: ${standing.map(batchName).join(' and ')} ${standing.length === 1 ? 'was' : 'were'} not cleared`,
        });
      standing.push(row);
    }
  }
  return doubts.sort((a, b) => a.at - b.at);
}
