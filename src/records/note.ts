/**
 * Noting down: what happened becomes one row of its register, looked through before it is written, and can be taken
 * back. The same rules as the sheets' own hold, so that nothing is written that the check would name.
 */
import { closeName } from '../core/nearest-name';
import { isoText, serialFromIsoText } from '../core/serial-date';
import { cellAddress } from '../plan/addresses';
import type { Cells, CellPlace } from '../plan/book-snapshot';
import { type Farm, FarmFileError, readFarm } from '../plan/farm';
import { toShown } from '../plan/quantities';
import type { BookReading, TypedPlace } from '../plan/read-book';
import { logOf, placeKey } from '../plan/registers-of-farm';
import { soldTooSoon } from './fish-waits';
import { type HappeningId, happeningOf } from './happenings';
import { doubtsOfFeeding } from './feeding-rules';
import { batchOn, doubtOfHarvest, faultOfPlanting } from './planting-rules';
import { registerNames, type RegisterList } from './register-row';

/** A row that is new (`at` undefined) or changed, its fields spelled as in a farm file. */
export interface RowChange {
  readonly list: RegisterList;
  readonly at?: number;
  /** Undefined empties a field. */
  readonly fields: Readonly<Record<string, string | number | undefined>>;
}

export interface CellWrite extends CellPlace {
  readonly value: string | number | undefined;
}

/** What is written, and all that has to be known to take it back. */
export interface Noted {
  /** What was noted, in words. */
  readonly says: string;
  readonly cells: readonly CellWrite[];
  readonly before: readonly CellWrite[];
  /** Every typed cell of the rows as they are once it is written. */
  readonly rows: readonly CellWrite[];
}

export type Proposal =
  | { readonly refused: string }
  | {
      readonly refused?: undefined;
      readonly noted: Noted;
      /** What speaks against it, though it can be. */
      readonly doubts: readonly string[];
    };

type Reading = Pick<BookReading, 'file' | 'places' | 'free' | 'faults' | 'units'> & {
  readonly farm?: Farm;
};
type Json = Readonly<Record<string, unknown>>;
type Line = ReadonlyMap<string, TypedPlace>;

/** Thrown within this file: the sentence is for the one who notes down. */
class Refused extends Error {}

const rowsOf = (file: Json, list: RegisterList): readonly Json[] =>
  Array.isArray(file[list]) ? (file[list] as readonly Json[]) : [];

/** The typed cells of a row that is there. */
function lineOf({ places }: Pick<BookReading, 'places'>, list: RegisterList, at: number): Line {
  const start = `${list}[${at}].`;
  const line = new Map<string, TypedPlace>();
  for (const [path, place] of places)
    if (path.startsWith(start)) line.set(path.slice(start.length), place);
  return line;
}

/** The cells of a column that only prepared lines have: formulas without which a row would not count. */
const preparedBy: Readonly<Record<RegisterList, string>> = {
  fishLog: 'Fishlog_says',
  feedLog: 'Feedlog_says',
  plantings: 'Plantings_says',
  harvests: 'Harvest_says',
  waterTests: 'Water_verdict',
  treatments: 'Treatments_free',
};

function freeLine(reading: Reading, cells: Cells, list: RegisterList): Line {
  const line = reading.free.get(list)?.[0];
  const place = line && [...line.values()][0];
  const column = cells.name(preparedBy[list])?.area.column;
  if (
    !line ||
    !place ||
    column === undefined ||
    cells.at({ ...place, column }).formula === undefined
  )
    throw new Refused(
      `${registerNames[list]} has no prepared line left: copy its last line down, or renew the plan; nothing was written.`,
    );
  return line;
}

const lineText = (line: Line): string => {
  const [first] = line.values();
  return first ? `line ${first.row + 1}` : 'a line';
};

/** Which cells get which values, once the farm with the changed rows was read. */
function cellsOf(
  change: RowChange,
  line: Line,
  farm: Farm,
  at: number,
  dayShift: number,
): CellWrite[] {
  const entry = farm[change.list][at] as Json;
  return Object.entries(change.fields).flatMap(([field, given]): CellWrite[] => {
    const place = line.get(field);
    if (!place) {
      if (given === undefined) return [];
      throw new Refused(
        `${registerNames[change.list]} has no column for "${field}" in this workbook: renew the plan, or leave it out.`,
      );
    }
    if (place.formula !== undefined)
      throw new Refused(
        `${place.sheet}!${cellAddress(place.row, place.column)} holds a formula of its own; it is not overwritten.`,
      );
    const { sheet, row, column } = place;
    const read = given === undefined ? undefined : entry[field];
    const value =
      typeof read !== 'number'
        ? (read as string | undefined)
        : place.holds === 'date'
          ? read - dayShift
          : place.quantity === undefined
            ? read
            : toShown(read, place.quantity, farm.units);
    return [{ sheet, row, column, value }];
  });
}

const sentenceOf = (problem: FarmFileError, line: (list: string, at: number) => string): string =>
  problem.fields
    .map(({ path, says }) => {
      const [list, at, field] = path;
      return typeof at === 'number'
        ? `${line(String(list), at)}, ${String(field)} ${says}.`
        : `${path.join('.')} ${says}.`;
    })
    .join(' ');

/** The later of the day of the plan and the day of a row: what is noted down has happened. */
const onDay = (farm: Farm, day: number): Farm => ({ ...farm, asOf: Math.max(farm.asOf, day) });

/** What speaks against the farm with the changed rows and did not before. */
function judged(
  changes: readonly (RowChange & { readonly row: number })[],
  before: Farm,
  after: Farm,
  line: (list: RegisterList, at: number) => string,
): string[] {
  const doubts: string[] = [];
  const daysOf = (farm: Farm): number[] =>
    changes.flatMap(({ list, row }) => {
      const { date } = farm[list][row] as { date?: number };
      return date === undefined ? [] : [date];
    });
  const day = Math.max(after.asOf, ...daysOf(after));
  if (changes.some(({ list }) => list === 'fishLog')) {
    const was = logOf(onDay(before, day), before.fishLog).rows;
    const now = logOf(onDay(after, day), after.fishLog).rows;
    const own = new Set(changes.flatMap(({ list, row }) => (list === 'fishLog' ? [row] : [])));
    now.forEach(({ status, problem, doubt }, at) => {
      const isOwn = own.has(at);
      if (status === 'impossible' && (isOwn || was[at]?.status !== 'impossible')) {
        throw new Refused(
          isOwn
            ? `${problem ?? 'This cannot be'}.`
            : `Then ${line('fishLog', at)} of the Fish log cannot be: ${problem ?? ''}.`,
        );
      }
      if (isOwn && doubt !== undefined) doubts.push(`${doubt}.`);
    });
    for (const { at, says } of soldTooSoon(onDay(after, day)))
      if (own.has(at) && after.fishLog[at]?.planned === undefined) doubts.push(`${says}.`);
  }
  if (changes.some(({ list }) => list === 'plantings')) {
    const name = (at: number): string => line('plantings', at);
    const dates = changes.flatMap(({ list, row }) => {
      if (list !== 'plantings') return [];
      const { sown, planted, cleared, firstCut } = after.plantings[row] ?? {};
      return [sown, planted, cleared, firstCut].filter((date) => date !== undefined);
    });
    const later = onDay(after, Math.max(day, ...dates));
    const bedsOf = new Set(
      changes.flatMap(({ list, row }) =>
        list === 'plantings' ? [placeKey(after.plantings[row]?.bed ?? '')] : [],
      ),
    );
    after.plantings.forEach((row, at) => {
      const isOwn = changes.some((change) => change.list === 'plantings' && change.row === at);
      if (!isOwn && (row.bed === undefined || !bedsOf.has(placeKey(row.bed)))) return;
      const fault = faultOfPlanting(at, later, name);
      if (fault === undefined) return;
      if (isOwn) throw new Refused(`${fault[0]?.toUpperCase() ?? ''}${fault.slice(1)}.`);
      if (
        at < before.plantings.length &&
        faultOfPlanting(at, onDay(before, later.asOf), name) === undefined
      )
        throw new Refused(`Then ${name(at)} of the Plantings cannot be: ${fault}.`);
    });
  }
  if (changes.some(({ list }) => list === 'feedLog')) {
    const own = new Set(changes.flatMap(({ list, row }) => (list === 'feedLog' ? [row] : [])));
    for (const { at, says, cannotBe } of doubtsOfFeeding(onDay(after, day))) {
      if (!own.has(at)) continue;
      if (cannotBe) throw new Refused(`${says[0]?.toUpperCase() ?? ''}${says.slice(1)}.`);
      doubts.push(`${says}.`);
    }
  }
  for (const { list, row, at } of changes) {
    if (list === 'harvests') {
      const entry = after.harvests[row];
      const doubt = entry && doubtOfHarvest(entry, after);
      if (doubt !== undefined) doubts.push(`${doubt}.`);
    }
    if (list === 'treatments') {
      const where = after.treatments[row]?.where ?? '';
      const places = [...after.tanks, ...after.beds].map(({ name }) => name);
      if (placeKey(where) !== 'all' && !places.some((name) => placeKey(name) === placeKey(where))) {
        const near = closeName(where, places);
        throw new Refused(
          `There is no tank or bed called "${where}"${near === undefined ? '' : `; the nearest name is "${near}"`}.`,
        );
      }
    }
    if (at === undefined) {
      const text = JSON.stringify(after[list][row]);
      const twin = after[list].findIndex((other, i) => i !== row && JSON.stringify(other) === text);
      if (twin >= 0) doubts.push(`The same stands in ${line(list, twin)} already.`);
    }
  }
  return doubts;
}

const wordsOf = (place: TypedPlace, value: string | number | undefined): string =>
  typeof value === 'number' && place.holds === 'date' ? isoText(value) : String(value ?? '');

/** Looks rows through before they are written: refused with a sentence, or what to write with what speaks against it. */
export function propose(
  reading: Reading,
  cells: Cells,
  changes: readonly RowChange[],
  says?: string,
): Proposal {
  try {
    const { file, farm: before } = reading;
    if (!before)
      throw new Refused(
        `First put right what the workbook does not say rightly: ${reading.faults[0]?.says ?? ''}`,
      );
    const dayShift = cells.dayShift ?? 0;
    const next: Record<string, unknown> = { ...file };
    const fresh = new Set<RegisterList>();
    const placed = changes.map((change) => {
      const { list, at, fields } = change;
      const rows = [...rowsOf(next, list)];
      if (at === undefined) {
        if (fresh.has(list)) throw new Error('one new row of a register at a time');
        fresh.add(list);
      }
      const row = at ?? rows.length;
      const entry = { ...rows[row], ...fields };
      rows[row] = Object.fromEntries(
        Object.entries(entry).filter(([, value]) => value !== undefined),
      );
      next[list] = rows;
      const line = at === undefined ? freeLine(reading, cells, list) : lineOf(reading, list, at);
      return { ...change, row, line };
    });
    const lineName = (list: string, at: number): string => {
      const own = placed.find((change) => change.list === list && change.row === at);
      return lineText(own?.line ?? lineOf(reading, list as RegisterList, at));
    };
    let after: Farm;
    try {
      after = readFarm(next);
    } catch (problem) {
      if (!(problem instanceof FarmFileError)) throw problem;
      throw new Refused(
        sentenceOf(
          problem,
          (list, at) =>
            `${(registerNames as Readonly<Record<string, string | undefined>>)[list] ?? list} ${lineName(list, at)}`,
        ),
      );
    }
    const doubts = judged(placed, before, after, lineName);
    const writes = placed.map((change) =>
      cellsOf(change, change.line, after, change.row, dayShift),
    );
    const all = writes.flat();
    const key = ({ sheet, row, column }: CellPlace): string => `${sheet}!${row},${column}`;
    const typed = new Map(all.map((cell) => [key(cell), cell.value]));
    const rows = placed.flatMap(({ line }) =>
      [...line.values()].map(({ sheet, row, column, value }): CellWrite => {
        const place = { sheet, row, column };
        return {
          ...place,
          value: typed.has(key(place)) ? typed.get(key(place)) : asValue(value),
        };
      }),
    );
    const places = placed.flatMap(({ line }) => [...line.values()]);
    const first = placed[0];
    return {
      doubts,
      noted: {
        says:
          says ??
          (first
            ? `${registerNames[first.list]}, ${lineText(first.line)}: ${(writes[0] ?? [])
                .flatMap((cell) => {
                  const place = places.find((other) => key(other) === key(cell));
                  return place && cell.value !== undefined ? [wordsOf(place, cell.value)] : [];
                })
                .join(', ')}`
            : ''),
        cells: all,
        before: all.map(({ sheet, row, column }) => ({
          sheet,
          row,
          column,
          value: asValue(cells.at({ sheet, row, column }).value),
        })),
        rows,
      },
    };
  } catch (problem) {
    if (problem instanceof Refused) return { refused: problem.message };
    throw problem;
  }
}

const asValue = (value: string | number | boolean): string | number | undefined =>
  value === '' ? undefined : typeof value === 'boolean' ? String(value).toUpperCase() : value;

const sameValue = (a: string | number | undefined, b: string | number | undefined): boolean =>
  typeof a === 'number' && typeof b === 'number'
    ? Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a))
    : (a ?? '') === (b ?? '');

/** The cells as they were before a note; or why they are left alone, where somebody changed the row since. */
export function takeBack(
  { before, rows }: Pick<Noted, 'before' | 'rows'>,
  cells: Pick<Cells, 'at'>,
): { readonly refused: string } | { readonly cells: readonly CellWrite[] } {
  const changed = rows.find(({ value, ...place }) => {
    const now = cells.at(place);
    return now.formula !== undefined || !sameValue(value, asValue(now.value));
  });
  if (changed)
    return {
      refused: `${changed.sheet}!${cellAddress(changed.row, changed.column)} was changed since, so that nothing is taken back: look at line ${changed.row + 1} of ${changed.sheet} and clear there what is wrong.`,
    };
  return { cells: before };
}

const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)$/;

/** As the farm file has what was typed: a bare number, or text as it stands ("1.1 lb"); undefined for nothing. */
const spelled = (text: string | undefined, isFigure: boolean): string | number | undefined => {
  const typed = text?.trim() ?? '';
  if (typed === '') return undefined;
  return isFigure && NUMBER.test(typed) ? Number(typed) : typed;
};

/** What was typed on the form of a happening. */
export type Entries = Readonly<Record<string, string | undefined>>;

/** Marks a batch in the nursery among the names that are offered. */
export const rowMark = (at: number): string => `row ${at}`;

/** Rows that a happening on a day makes or changes. Throws a sentence where they cannot be made. */
function changesFor(id: HappeningId, date: string, entries: Entries, farm: Farm): RowChange[] {
  const { list, fields, title } = happeningOf(id);
  const day = serialFromIsoText(date);
  if (day === undefined) throw new Refused(`Type the day as 2026-04-03; got "${date}".`);
  const values: Record<string, string | number | undefined> = {};
  for (const { id: name, label, takes, optional } of fields) {
    const value = spelled(entries[name], 'figure' in takes);
    if (value === undefined && !optional)
      throw new Refused(
        `${title}: ${'names' in takes ? 'choose' : 'type'} ${label.toLowerCase()}.`,
      );
    if (value !== undefined) values[name] = value;
  }
  const bed = String(values['bed'] ?? '');
  switch (id) {
    case 'tested':
      if (Object.keys(values).length === 0)
        throw new Refused('Type at least one figure of the test.');
      return [{ list, fields: { date, ...values } }];
    case 'added':
      if (values['added'] === undefined && values['baseGiven'] === undefined)
        throw new Refused('Type how much water or base was added.');
      if (values['baseGiven'] !== undefined && values['base'] === undefined)
        throw new Refused('Choose which base was given.');
      return [
        {
          list,
          // A base without an amount was only offered.
          fields: {
            date,
            ...values,
            ...(values['baseGiven'] === undefined && { base: undefined }),
          },
        },
      ];
    case 'fed':
    case 'treated':
      return [{ list, fields: { date, ...values } }];
    case 'sown':
      return [{ list, fields: { ...values, sown: date } }];
    case 'planted': {
      const { batch: chosen, ...rest } = values;
      const at = farm.plantings.findIndex((_, row) => rowMark(row) === chosen);
      if (at < 0) throw new Refused('Choose what was planted out.');
      return [{ list, at, fields: { ...rest, planted: date, planned: undefined } }];
    }
    case 'cleared': {
      const at = batchOn(farm, bed, day);
      if (at === undefined)
        throw new Refused(
          `${bed} was empty on ${date} by the Plantings: there is nothing to clear.`,
        );
      const known = farm.plantings[at]?.cleared;
      if (known !== undefined)
        throw new Refused(`${bed} was cleared on ${isoText(known)} already.`);
      return [{ list, at, fields: { cleared: date } }];
    }
    case 'cut': {
      const tank = farm.tanks.find(({ name }) => placeKey(name) === placeKey(bed));
      if (tank) return [{ list, fields: { date, crop: tank.species, ...values } }];
      const at = batchOn(farm, bed, day);
      const batch = at === undefined ? undefined : farm.plantings[at];
      if (at === undefined || !batch)
        throw new Refused(
          `${bed} was empty on ${date} by the Plantings: note down first what was planted out there.`,
        );
      return [
        { list, fields: { date, crop: batch.crop, ...values } },
        // The first cut of a batch is the day of its first harvest.
        ...(batch.firstCut === undefined && batch.planned === undefined
          ? [{ list: 'plantings' as const, at, fields: { firstCut: date } }]
          : []),
      ];
    }
    default:
      return [{ list, fields: { date, what: id, ...values } }];
  }
}

/** What is noted as otherwise done: the planned row gets its mark with the same tap. */
export interface Answered {
  readonly list: 'fishLog' | 'plantings';
  readonly at: number;
}

/** Looks a happening through before it is written down. `today` is the last day on which something can have happened. */
export function proposeNote(
  reading: Reading,
  cells: Cells,
  id: HappeningId,
  {
    date,
    entries,
    today,
    instead,
  }: {
    readonly date: string;
    readonly entries: Entries;
    readonly today: string;
    readonly instead?: Answered | undefined;
  },
): Proposal {
  const { farm } = reading;
  try {
    if (!farm)
      return {
        refused: `First put right what the workbook does not say rightly: ${reading.faults[0]?.says ?? ''}`,
      };
    if (date > today)
      throw new Refused(`${date} is still to come: what happened has a day that has been.`);
    const changes = changesFor(id, date, entries, farm);
    const mark: RowChange[] =
      instead === undefined ||
      changes.some(({ list, at }) => list === instead.list && at === instead.at)
        ? []
        : [{ list: instead.list, at: instead.at, fields: { planned: 'otherwise' } }];
    return propose(reading, cells, [...changes, ...mark]);
  } catch (problem) {
    if (problem instanceof Refused) return { refused: problem.message };
    throw problem;
  }
}
