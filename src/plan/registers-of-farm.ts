/**
 * The registers of a farm: what its file says of tanks and beds in short becomes rows, and from the rows
 * follows what stands in each tank and bed on the day of the plan.
 */
import { type FishEvent, type FishLog, fishLog, type FishRow } from '../core/fish-log';
import { isoText } from '../core/serial-date';
import type { Species } from '../core/tables/species';
import { speciesTable } from '../functions/species-table';
import type { OwnFigures } from './own-figures';
import { withOwnFigures } from './own-species';

type Mark = 'planned' | 'otherwise' | 'not done';

interface FishLogEntry {
  readonly date: number;
  readonly tank: string;
  readonly what: FishEvent;
  readonly fish?: number | undefined;
  /** g */
  readonly weight?: number | undefined;
  readonly toTank?: string | undefined;
  readonly lot?: string | undefined;
  readonly planned?: Mark | undefined;
}

interface PlantingEntry {
  readonly crop: string;
  readonly bed?: string | undefined;
  readonly plants?: number | undefined;
  readonly sown?: number | undefined;
  readonly planted?: number | undefined;
  readonly cleared?: number | undefined;
  readonly planned?: Mark | undefined;
}

interface Tank {
  readonly name: string;
  readonly volume: number;
  readonly species: string;
  readonly fish?: number | undefined;
  readonly weight?: number | undefined;
  readonly stocked?: number | undefined;
}

interface Bed {
  readonly name: string;
  readonly crop?: string | undefined;
  readonly plants?: number | undefined;
  readonly sown?: number | undefined;
  readonly planted?: number | undefined;
}

interface Registered {
  readonly asOf: number;
  readonly months: readonly { readonly water?: number | undefined }[];
  readonly tanks: readonly Tank[];
  readonly beds: readonly Bed[];
  readonly fishLog: readonly FishLogEntry[];
  readonly plantings: readonly PlantingEntry[];
  readonly species?: OwnFigures | undefined;
}

/** Names of tanks and beds are the same whatever their case and the spaces around them. */
export const placeKey = (name: string): string => name.trim().toLowerCase();

/** Rows of the Fish log as the core reads them. A row that was done otherwise or not done counts nowhere. */
export const fishRowsOf = (rows: readonly FishLogEntry[]): FishRow[] =>
  rows.map(({ planned, what, ...row }) =>
    planned === undefined || planned === 'planned'
      ? { ...row, kind: what, planned: planned === 'planned' }
      : {},
  );

/** What rows of the Fish log come to on this farm. */
export const logOf = (
  farm: Pick<Registered, 'tanks' | 'months' | 'asOf' | 'species'>,
  rows: readonly FishLogEntry[],
): FishLog =>
  fishLog(fishRowsOf(rows), {
    tanks: farm.tanks.map(({ name, volume, species }) => ({
      name,
      volume,
      species: withOwnFigures(speciesTable.book.find(species) as Species, farm.species),
    })),
    // What grows in water that nobody knows has no weight.
    water: farm.months.map(({ water }) => water ?? NaN),
    asOf: farm.asOf,
  });

/** What tanks say in short, as rows of the Fish log; nothing where the log comes to the same. */
function countedRows(farm: Registered): FishLogEntry[] {
  const states = logOf(farm, farm.fishLog).stateOn(farm.asOf);
  return farm.tanks.flatMap(({ name, fish, weight, stocked }, i): FishLogEntry[] => {
    const there = states[i]?.fish ?? 0;
    if (fish === undefined || (fish === 0 && there === 0)) return [];
    const isSame =
      fish === there &&
      (fish === 0 ||
        weight === undefined ||
        Math.abs(weight - (states[i]?.weight ?? 0)) <= 1e-9 * weight);
    if (isSame) return [];
    const row = { date: farm.asOf, tank: name, fish, ...(weight !== undefined && { weight }) };
    if (there > 0) return [{ ...row, what: 'counted' }];
    return [
      {
        ...row,
        what: 'stocked',
        ...(stocked !== undefined && { lot: `${isoText(stocked)} ${name}` }),
      },
    ];
  });
}

/** What stands in a bed on a day, or else what is sown or planned for it next. */
function batchIn(
  rows: readonly PlantingEntry[],
  bed: string,
  asOf: number,
): PlantingEntry | undefined {
  const open = rows.filter(
    (row) =>
      row.bed !== undefined &&
      placeKey(row.bed) === placeKey(bed) &&
      (row.planned === undefined || row.planned === 'planned') &&
      (row.cleared === undefined || row.cleared > asOf),
  );
  const begins = ({ planted, sown }: PlantingEntry): number => planted ?? sown ?? Infinity;
  const standing = open.filter(
    ({ planned, planted }) => planned === undefined && planted !== undefined && planted <= asOf,
  );
  if (standing.length > 0)
    return standing.reduce((last, row) => (begins(row) >= begins(last) ? row : last));
  return open.reduce<PlantingEntry | undefined>(
    (first, row) => (first === undefined || begins(row) < begins(first) ? row : first),
    undefined,
  );
}

/**
 * The Plantings with what beds say in short: it speaks of the batch that stands in the bed or is next there,
 * and of a new one where there is none.
 */
function withPlanted<P extends PlantingEntry>(
  { beds, asOf }: Registered,
  plantings: readonly P[],
): (P | PlantingEntry)[] {
  const rows: (P | PlantingEntry)[] = [...plantings];
  for (const { name, crop, plants, sown, planted } of beds) {
    if (crop === undefined) continue;
    const says = {
      crop,
      bed: name,
      ...(sown !== undefined && { sown }),
      ...(plants !== undefined && { plants }),
      ...(planted !== undefined && { planted }),
    };
    const there = batchIn(rows, name, asOf);
    // What is planned for later is another batch than the one that stands there.
    const isOther =
      there?.planned === 'planned' &&
      (there.crop !== crop ||
        (there.planted ?? planted) !== planted ||
        (there.sown ?? sown) !== sown);
    if (there === undefined || isOther) rows.push(says);
    else rows[rows.indexOf(there)] = { ...there, ...says };
  }
  return rows;
}

const ofBatch: ReadonlySet<string> = new Set(['crop', 'plants', 'sown', 'planted']);
const ofFish: ReadonlySet<string> = new Set(['fish', 'weight', 'stocked']);

/** What of a tank stays when its fish go, of a bed when its batch goes. */
const lastingOf = <P extends Bed | Tank>(place: P, passing: ReadonlySet<string>): P =>
  Object.fromEntries(Object.entries(place).filter(([field]) => !passing.has(field))) as P;

/** The farm with all that it says of fish and plants in its registers. */
export function withRegisters<F extends Registered>(
  farm: F,
): Omit<F, 'tanks' | 'fishLog' | 'plantings'> & {
  readonly tanks: (F['tanks'][number] & { readonly fish: number })[];
  readonly fishLog: (F['fishLog'][number] | FishLogEntry)[];
  readonly plantings: (F['plantings'][number] | PlantingEntry)[];
} {
  const rows = [...farm.fishLog, ...countedRows(farm)];
  const plantings = withPlanted(farm, farm.plantings);
  const log = logOf(farm, rows);
  const states = log.stateOn(farm.asOf);
  return {
    ...farm,
    fishLog: rows,
    plantings,
    tanks: farm.tanks.map((tank, i) => {
      const { fish = 0, weight, since } = states[i] ?? {};
      const lasting = lastingOf(tank, ofFish);
      if (fish > 0)
        return {
          ...lasting,
          fish,
          ...(Number.isFinite(weight) && { weight }),
          ...(since !== undefined && { stocked: since }),
        };
      // Fish that were never weighed stand in the log as they came; whoever asks is to hear of them.
      const unweighed = rows.filter(
        ({ tank: where, what, weight }, place) =>
          log.rows[place]?.status === 'impossible' &&
          what === 'stocked' &&
          weight === undefined &&
          placeKey(where) === placeKey(tank.name),
      );
      return { ...lasting, fish: unweighed.at(-1)?.fish ?? 0 };
    }),
    beds: farm.beds.map((bed) => {
      const batch = batchIn(plantings, bed.name, farm.asOf);
      const lasting = lastingOf(bed, ofBatch);
      if (batch === undefined) return lasting;
      const { crop, plants, sown, planted } = batch;
      return {
        ...lasting,
        crop,
        ...(plants !== undefined && { plants }),
        ...(sown !== undefined && { sown }),
        ...(planted !== undefined && { planted }),
      };
    }),
  };
}
