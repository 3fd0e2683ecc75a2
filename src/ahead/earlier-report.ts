/** An earlier plan of the beds, out of its report, as it is to be seen from a later day. */
import { wrongValue } from '../core/errors';
import type { FishRow } from '../core/fish-log';
import { isoText, serialFromIsoText } from '../core/serial-date';
import { usual } from '../core/tables/crops';
import type { Farm, PlantingEntry } from '../plan/farm';
import { shownIn, toMetric } from '../plan/quantities';
import { placeKey } from '../plan/registers-of-farm';
import { batchPlantedOn } from './crop-season';
import { cropOf } from './own-tables';
import type { PlannedBatch, Season } from './season';
import { airMeans } from './needed';

type Fields = Readonly<Record<string, unknown>>;
const fieldsOf = (json: unknown): Fields =>
  typeof json === 'object' && json !== null ? (json as Fields) : {};

/** The plantings of a report (what `ahead --json` wrote). Throws a sentence where it is none. */
export function plantingsOfReport(json: unknown, farm: Farm): PlannedBatch[] {
  const report = fieldsOf(fieldsOf(json)['beds']);
  const rows = report['plantings'];
  if (!Array.isArray(rows)) {
    throw wrongValue('the earlier report has no plan of beds: give what ahead --json wrote');
  }
  const { unit } = shownIn('area', farm.units);
  if (fieldsOf(report['units'])['area'] !== unit) {
    throw wrongValue(`the earlier report counts areas otherwise than the farm, in ${unit}`);
  }
  return rows.map((row: unknown, at) => {
    const fields = fieldsOf(row);
    const wrong = (name: string): Error =>
      wrongValue(`the earlier report's planting ${at + 1} has no right ${name}`);
    const text = (name: string): string => {
      const value = fields[name];
      if (typeof value === 'string' && value !== '') return value;
      throw wrong(name);
    };
    const figure = (name: string): number => {
      const value = fields[name];
      if (typeof value === 'number' && value > 0) return value;
      throw wrong(name);
    };
    const day = (name: string): number => {
      const serial = serialFromIsoText(text(name));
      if (serial !== undefined) return serial;
      throw wrong(name);
    };
    return {
      crop: text('crop'),
      bed: text('bed'),
      plants: figure('plants'),
      area: toMetric(figure('area'), 'area', farm.units),
      sown: day('sown'),
      plantedOut: day('plantedOut'),
      firstCut: day('firstCut'),
      cleared: day('cleared'),
    };
  });
}

/** Rows of the Plantings that the planner wrote, as its plan. */
export function batchesOfRows(farm: Farm, rows: readonly PlantingEntry[]): PlannedBatch[] {
  const means = airMeans(farm);
  return rows.flatMap(({ crop: name, bed: where, plants, planted }): PlannedBatch[] => {
    const bed = farm.beds.find((place) => placeKey(place.name) === placeKey(where ?? ''));
    if (bed === undefined || planted === undefined || plants === undefined) return [];
    const crop = cropOf(farm, name);
    const batch = batchPlantedOn(crop, planted, means);
    if ('why' in batch) return [];
    const area = Math.min(bed.length * bed.width, plants / usual(crop, 'plants_per_m2'));
    return [{ ...batch, crop: crop.name, bed: bed.name, plants, area }];
  });
}

/** The moves, sales and stockings of a report (what `ahead --json` wrote) as rows of the Fish log. */
export function fishRowsOfReport(json: unknown): FishRow[] {
  const report = fieldsOf(fieldsOf(json)['fish']);
  const listed = (name: string): Fields[] => {
    const rows = report[name];
    if (Array.isArray(rows)) return rows.map(fieldsOf);
    throw wrongValue('the earlier report has no plan of fish: give what ahead --json wrote');
  };
  const row = (kind: string, { date, fish }: Fields, tank: unknown, toTank?: unknown): FishRow => {
    const day = typeof date === 'string' ? serialFromIsoText(date) : undefined;
    if (day === undefined || typeof fish !== 'number' || typeof tank !== 'string') {
      throw wrongValue(`the earlier report has a row without a right date, tank or number of fish`);
    }
    return { date: day, kind, tank, fish, ...(typeof toTank === 'string' && { toTank }) };
  };
  return [
    ...listed('sales').map((sale) => row('sold', sale, sale['tank'])),
    ...listed('moves').map((move) => row('moved', move, move['from'], move['to'])),
    ...listed('groups')
      .filter(({ from }) => from === 'stocked')
      .map((group) => row('stocked', group, group['tank'])),
  ];
}

export interface EarlierPlan {
  /** Not planted out yet, its dates by the months as they are now. */
  readonly ahead: readonly PlannedBatch[];
  /** What should stand in a bed by now and does not by the farm, in sentences. */
  readonly notes: readonly string[];
}

export function seenFrom(
  farm: Farm,
  season: Season,
  plantings: readonly PlannedBatch[],
): EarlierPlan {
  const means = airMeans(farm);
  const notes: string[] = [];
  const ahead = plantings.flatMap((planting): PlannedBatch[] => {
    const { crop, bed, plantedOut, cleared, sown } = planting;
    if (plantedOut < season.from) {
      const there = farm.plantings.some(
        (row) =>
          row.planned === undefined &&
          row.crop === crop &&
          placeKey(row.bed ?? '') === placeKey(bed) &&
          (row.cleared === undefined || row.cleared > plantedOut),
      );
      if (cleared > season.from && !there) {
        notes.push(
          `${bed}: ${crop} was to be planted out on ${isoText(plantedOut)} and is not among what the beds hold: it is taken for not done`,
        );
      }
      return [];
    }
    const batch = batchPlantedOn(cropOf(farm, crop), plantedOut, means);
    return 'why' in batch ? [] : [{ ...planting, ...batch, sown }];
  });
  return { ahead, notes };
}
