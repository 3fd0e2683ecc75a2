/**
 * What the rows of the Plantings keep of the beds and of the nursery, done or planned, by whomever they were typed:
 * facts that the planner of beds goes round.
 */
import { BED_REMARK } from '../core/planner-remarks';
import { isoText } from '../core/serial-date';
import { cutWithin } from '../core/sowing';
import { type Crop, usual } from '../core/tables/crops';
import type { BedEntry, Farm, PlantingEntry } from '../plan/farm';
import { placeKey } from '../plan/registers-of-farm';
import { batchPlantedOn, type MonthMeans } from './crop-season';
import { cropOf } from './own-tables';
import { isWrittenBy } from './planner-rows';
import type { Batch } from './season';

/** A row in a bed. */
export interface StandingPlanting {
  readonly crop: Crop;
  /** As the farm spells it. */
  readonly bed: string;
  readonly plants: number;
  /** Of the bed's area. */
  readonly share: number;
  readonly batch: Batch;
  /** The row says what is meant to be done, not what was. */
  readonly planned: boolean;
}

/** Seedlings that wait for their bed. */
export interface Seedlings {
  readonly plants: number;
  readonly from: number;
  readonly to: number;
}

export interface StandingPlantings {
  readonly inBeds: readonly StandingPlanting[];
  readonly seedlings: readonly Seedlings[];
  /** Beds for which nothing can be planned, since nobody knows how long they are kept. */
  readonly shut: ReadonlySet<string>;
  /** What the reader must know, in sentences. */
  readonly notes: readonly string[];
}

interface Found extends Omit<StandingPlanting, 'share' | 'planned'> {
  readonly row: PlantingEntry;
  /** What its plants take at the density of the table, as a share of the bed; 1 where they are not counted. */
  readonly needs: number;
}

/** Rows that count on the day of the plan: not answered with "otherwise" or "not done", and not cleared yet. */
const counts = ({ planned, cleared }: PlantingEntry, from: number): boolean =>
  (planned === undefined || planned === 'planned') && (cleared === undefined || cleared > from);

/** A bed that is set aside for a crop: nobody wrote that anything was sown or planted, or how much of it stands. */
const isIntention = ({ sown, planted, plants, seeds, firstCut, planned }: PlantingEntry): boolean =>
  [sown, planted, plants, seeds, firstCut, planned].every((one) => one === undefined);

/** Names that a sentence lists one by one. */
const MAX_NAMED = 3;

/** One sentence for all beds that are set aside. */
function setAsideNote(beds: readonly string[]): string[] {
  const [first, ...more] = beds;
  if (first === undefined) return [];
  const named = beds.slice(0, MAX_NAMED).join(', ');
  const rest = beds.length > MAX_NAMED ? ` and ${beds.length - MAX_NAMED} more` : '';
  return more.length === 0
    ? [
        `${first} is set aside for a crop, with neither plants nor a date: it is planned as empty. Type what stands in it`,
      ]
    : [
        `${named}${rest} are set aside for a crop, with neither plants nor a date: they are planned as empty. Type what stands in them`,
      ];
}

/** Days by which two batches in a bed may overlap before they count as sharing it. */
const OVERLAP = 6;

/** Whether a batch shares its bed with another that rows have there: as the Plantings sheet finds it. */
function sharesBed(me: Found, found: readonly Found[], from: number): boolean {
  const inOrder = found
    .filter(({ bed }) => bed === me.bed)
    .sort((a, b) => a.batch.plantedOut - b.batch.plantedOut);
  const at = inOrder.indexOf(me);
  const { plantedOut, cleared } = me.batch;
  const earlier = Math.max(0, ...inOrder.slice(0, at).map(({ batch }) => batch.cleared));
  const next = inOrder[at + 1]?.batch;
  return (
    earlier > Math.max(from, plantedOut + OVERLAP) ||
    (next !== undefined && next.plantedOut < cleared - OVERLAP && next.cleared > from)
  );
}

/** The day on which a batch is cut that is ready on one: today, where it stands uncut within the days that it keeps. */
const cutDay = (crop: Crop, ready: number, today: number): number =>
  Math.max(ready, Math.min(today, ready + cutWithin(crop)));

/** `from`: first day of the season; earlier days are gone. */
export function standingPlantings(farm: Farm, from: number, means: MonthMeans): StandingPlantings {
  const beds = new Map(farm.beds.map((bed) => [placeKey(bed.name), bed]));
  const notes: string[] = [];
  const shut = new Set<string>();
  const seedlings: Seedlings[] = [];
  const found: Found[] = [];
  const homeless = new Map<string, number>();
  const setAside: string[] = [];

  const read = (row: PlantingEntry, bed: BedEntry): Found | string => {
    const crop = cropOf(farm, row.crop);
    const inPlace = crop.start === 'in place';
    const nursery = inPlace ? 0 : usual(crop, 'transplant_days');
    const { sown, planted } = row;
    const out = planted ?? (sown === undefined ? undefined : Math.max(from, sown + nursery));
    // Seed in place is in its bed from the day of sowing on.
    const plantedOut = inPlace && planted === undefined ? sown : out;
    if (plantedOut === undefined) {
      return `${bed.name} holds ${crop.name} without a date of sowing or planting: nothing is planned for it until one is typed`;
    }
    const expected = batchPlantedOn(crop, plantedOut, means);
    if ('why' in expected) return `${bed.name}: ${expected.why}`;
    const firstCut =
      row.firstCut ??
      (row.cleared === undefined ? cutDay(crop, expected.firstCut, farm.asOf) : expected.firstCut);
    const batch = {
      sown: sown ?? expected.sown,
      plantedOut,
      firstCut,
      cleared:
        row.cleared ?? Math.max(plantedOut + 1, firstCut + expected.cleared - expected.firstCut),
    };
    const area = bed.length * bed.width;
    const density = usual(crop, 'plants_per_m2');
    const plants = row.plants ?? Math.floor(area * density);
    const needs = row.plants === undefined ? 1 : Math.min(1, row.plants / (density * area));
    if (!inPlace && planted === undefined && sown !== undefined) {
      seedlings.push({ plants, from: sown, to: plantedOut });
    } else if (row.planned === 'planned' && plantedOut > from) {
      seedlings.push({ plants, from: batch.sown, to: plantedOut });
    }
    return { crop, bed: bed.name, plants, batch, row, needs };
  };

  for (const row of farm.plantings) {
    if (!counts(row, from)) continue;
    const bed = row.bed === undefined ? undefined : beds.get(placeKey(row.bed));
    if (bed === undefined) {
      if (row.bed !== undefined) {
        notes.push(
          `there is no bed "${row.bed.trim()}", which a row of the Plantings names: it keeps no place`,
        );
        continue;
      }
      const crop = cropOf(farm, row.crop);
      if (row.planted !== undefined || row.sown === undefined || crop.start === 'in place')
        continue;
      const plants = row.plants ?? row.seeds ?? 0;
      seedlings.push({
        plants,
        from: row.sown,
        to: Math.max(from, row.sown + usual(crop, 'transplant_days')),
      });
      homeless.set(crop.name, (homeless.get(crop.name) ?? 0) + plants);
      continue;
    }
    if (isIntention(row)) {
      setAside.push(bed.name);
      continue;
    }
    const planting = read(row, bed);
    if (typeof planting === 'string') {
      notes.push(planting);
      shut.add(bed.name);
      continue;
    }
    if (planting.batch.cleared < from) {
      notes.push(
        `${bed.name}: ${planting.crop.name} was to be cleared by ${isoText(planting.batch.cleared)}; it is planned as empty`,
      );
    }
    found.push(planting);
  }
  notes.push(...setAsideNote(setAside));
  for (const [crop, plants] of homeless) {
    notes.push(
      `${plants} ${crop} are sown or planned without a bed: they count in the nursery alone until a bed is typed into their row`,
    );
  }

  // A batch alone in its bed has all of it, however widely it stands, unless the planner gave it a part.
  const inBeds = found.map((me): StandingPlanting => {
    const { crop, bed, plants, batch, row, needs } = me;
    const isPart = isWrittenBy(BED_REMARK, row.remark) || sharesBed(me, found, from);
    const planned = row.planned === 'planned';
    return { crop, bed, plants, batch, planned, share: isPart ? needs : 1 };
  });
  for (const bed of new Set(inBeds.map((planting) => planting.bed))) {
    const own = inBeds.filter((planting) => planting.bed === bed);
    const crowded = own.find((planting) => {
      const day = Math.max(from, planting.batch.plantedOut);
      const there = own.filter(
        ({ batch }) => batch.plantedOut <= day && day < batch.cleared && batch.cleared > from,
      );
      return there.length > 1 && there.reduce((sum, { share }) => sum + share, 0) > 1 + 1e-6;
    });
    if (crowded) {
      notes.push(
        `${bed} has no room on ${isoText(Math.max(from, crowded.batch.plantedOut))} for all that rows of the Plantings have there (${own.map(({ crop }) => crop.name).join(', ')}): nothing else is planned into it then`,
      );
    }
  }
  return { inBeds, seedlings, shut, notes };
}
