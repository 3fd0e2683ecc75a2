/** What speaks against rows of the registers, one with another, that each can be by itself. */
import { closeName } from '../core/nearest-name';
import { isoText } from '../core/serial-date';
import { cropTable } from '../functions/crop-table';
import { speciesTable } from '../functions/species-table';
import type { Farm } from '../plan/farm';
import { logOf, placeKey } from '../plan/registers-of-farm';
import { doubtsOfPlantings } from './planting-rules';
import type { RegisterList } from './register-row';

export interface RowDoubt {
  readonly list: RegisterList;
  /** Place in that list of the farm. */
  readonly at: number;
  readonly field: string;
  readonly says: string;
  /** It may well be so: only a hint. */
  readonly hint?: true;
}

/** Rows of the Fish log to come that cannot be, and what is odd in those that can. */
function oddFish(farm: Farm): RowDoubt[] {
  const log = logOf(farm, farm.fishLog);
  return log.rows.flatMap(({ status, problem, doubt }, at): RowDoubt[] => {
    const says = status === 'impossible' ? problem : doubt;
    return says === undefined ? [] : [{ list: 'fishLog', at, field: 'tank', says }];
  });
}

const nearTo = (name: string, known: readonly string[]): string => {
  const near = closeName(name, known);
  return near === undefined ? '' : `; the nearest name is "${near}"`;
};

function oddPlaces({ tanks, beds, treatments }: Farm): RowDoubt[] {
  const names = [...tanks, ...beds].map(({ name }) => name);
  const known = new Set([...names.map(placeKey), 'all']);
  return treatments.flatMap(({ where }, at): RowDoubt[] =>
    known.has(placeKey(where))
      ? []
      : [
          {
            list: 'treatments',
            at,
            field: 'where',
            says: `there is no tank or bed called "${where.trim()}"${nearTo(where, names)}: nothing waits for this treatment`,
          },
        ],
  );
}

/** Whether a plant of a crop gives one piece. */
function isCutOnce(crop: string, { crops }: Pick<Farm, 'crops'>): boolean {
  const kind = cropTable.book.find(crop);
  return (crops?.[kind?.name ?? crop]?.['cut'] ?? kind?.cut) === 'once';
}

/** Sales of what was not where it is said to come from, or of a day to come. */
function oddSales(farm: Farm): RowDoubt[] {
  const { tanks, beds, plantings, harvests, asOf } = farm;
  const names = [...beds, ...tanks].map(({ name }) => name);
  const tankOf = new Map(tanks.map((tank) => [placeKey(tank.name), tank]));
  const bedKeys = new Set(beds.map(({ name }) => placeKey(name)));
  const batches = new Map<string, Farm['plantings'][number][]>();
  for (const batch of plantings) {
    if (batch.bed === undefined || (batch.planned !== undefined && batch.planned !== 'planned'))
      continue;
    const key = placeKey(batch.bed);
    batches.set(key, [...(batches.get(key) ?? []), batch]);
  }
  const pieces = new Map<Farm['plantings'][number], number>();
  return harvests.flatMap(({ date, crop, bed, quantity, unit }, at): RowDoubt[] => {
    const odd = (field: string, says: string): RowDoubt[] => [
      { list: 'harvests', at, field, says },
    ];
    if (date > asOf)
      return odd('date', `sold on ${isoText(date)}, a day still to come by the day of the plan`);
    if (bed === undefined) return [];
    const place = bed.trim();
    const key = placeKey(place);
    const fish = speciesTable.book.find(crop);
    const tank = tankOf.get(key);
    if (tank)
      return speciesTable.book.find(tank.species) === fish
        ? []
        : odd('crop', `${place} is a tank of ${tank.species}, and ${crop} was sold from it`);
    if (!bedKeys.has(key))
      return odd('bed', `there is no bed or tank called "${place}"${nearTo(place, names)}`);
    if (fish) return odd('bed', `${place} is a bed, and ${crop} is a fish`);
    const stood = (batches.get(key) ?? []).filter(
      ({ planted, cleared }) =>
        planted !== undefined && planted <= date && (cleared === undefined || cleared >= date),
    );
    // An empty bed is named on the sheet itself.
    if (stood.length === 0) return [];
    const [batch, ...others] = stood.filter((planting) => planting.crop === crop);
    if (batch === undefined) {
      const held = [...new Set(stood.map((planting) => planting.crop))].join(' and ');
      return odd('crop', `${place} held ${held} on ${isoText(date)}, not ${crop}`);
    }
    const { plants } = batch;
    if (others.length > 0 || unit !== 'piece' || plants === undefined || !isCutOnce(crop, farm))
      return [];
    const before = pieces.get(batch) ?? 0;
    pieces.set(batch, before + quantity);
    return before + quantity > plants && before <= plants
      ? odd(
          'quantity',
          `${before + quantity} pieces were sold of ${plants} plants of ${crop} in ${place}, which give one each`,
        )
      : [];
  });
}

/** Tests of a day to come. */
const earlyTests = ({ waterTests, asOf }: Farm): RowDoubt[] =>
  waterTests.flatMap(({ date }, at): RowDoubt[] => {
    const says = `tested on ${isoText(date)}, a day still to come by the day of the plan`;
    return date > asOf ? [{ list: 'waterTests', at, field: 'date', says }] : [];
  });

/** Rows that stand there twice, but for their remarks: one thing written down again, or two that are alike. */
function rowsTwice(farm: Farm): RowDoubt[] {
  const twice = <R extends { readonly date: number }>(
    list: RegisterList,
    field: string,
    rows: readonly R[],
    counts: (row: R) => boolean = () => true,
  ): RowDoubt[] => {
    const first = new Set<string>();
    return rows.flatMap((row, at): RowDoubt[] => {
      if (!counts(row)) return [];
      const text = JSON.stringify({ ...row, remark: undefined });
      if (!first.has(text)) {
        first.add(text);
        return [];
      }
      const says = `the same of ${isoText(row.date)} stands in a line above, and both count`;
      return [{ list, at, field, says, hint: true }];
    });
  };
  return [
    ...twice('fishLog', 'date', farm.fishLog, ({ what }) => /^(stocked|moved|sold)$/.test(what)),
    ...twice('harvests', 'date', farm.harvests),
    ...twice('feedLog', 'date', farm.feedLog, ({ given }) => given > 0),
  ];
}

/** Every row that fits ill to the others, register by register. */
export const doubtsOfRows = (farm: Farm): RowDoubt[] => [
  ...oddFish(farm),
  ...doubtsOfPlantings(farm).map((doubt): RowDoubt => ({ list: 'plantings', ...doubt })),
  ...oddSales(farm),
  ...oddPlaces(farm),
  ...earlyTests(farm),
  ...rowsTwice(farm),
];
