/** Lots of fish through the Fish log: where they came from, which tanks they were in, where they went. */
import type { TankState } from '../core/fish-log';
import type { LotShares } from '../core/groups';
import { isoText } from '../core/serial-date';
import { speciesTable } from '../functions/species-table';
import type { Farm } from '../plan/farm';
import { figureText } from '../plan/shown-figure';
import { logOf, placeKey } from '../plan/registers-of-farm';
import { soldTooSoon } from './fish-waits';
import { isDone } from './register-row';
import {
  careOf,
  feedOf,
  remarkOf,
  saleInWords,
  type Stay,
  tooSoon,
  type Track,
  type TracedRow,
} from './track';

interface OpenTrack {
  readonly name: string;
  readonly cameFrom: TracedRow[];
  readonly stays: { place: string; from: number; to: number | undefined }[];
  readonly cleared: TracedRow[];
  readonly wentTo: TracedRow[];
}

/** The lots of a tank from a row on. */
interface Held {
  readonly day: number;
  readonly lots: LotShares;
}

const heads = (count: number): string => `${count.toLocaleString('en-GB')} fish`;

const shareInWords = (share: number | undefined): string =>
  share === undefined || share > 0.9995
    ? ''
    : `, about ${Math.max(1, Math.round(share * 100))} % of them of this lot`;

/** Every lot of the farm's fish, in the order in which they came. */
export function tracksOfFish(farm: Farm): Track[] {
  const { fishLog: rows, units } = farm;
  const last = rows.reduce((day, row) => (isDone(row) ? Math.max(day, row.date) : day), farm.asOf);
  // What is written down as done is traced, also where the day of the plan was not moved on yet.
  const log = logOf({ ...farm, asOf: last }, rows);
  const tracks = new Map<string, OpenTrack>();
  const trackOf = (name: string): OpenTrack => {
    const known = tracks.get(name);
    if (known) return known;
    const fresh = { name, cameFrom: [], stays: [], cleared: [], wentTo: [] };
    tracks.set(name, fresh);
    return fresh;
  };
  const history = new Map<string, Held[]>();
  const heldBefore = (tank: string): LotShares =>
    history.get(placeKey(tank))?.at(-1)?.lots ?? new Map<string, number>();
  const holds = (state: TankState | undefined, day: number): void => {
    if (state === undefined) return;
    const before = heldBefore(state.tank);
    for (const lot of before.keys()) {
      if (state.lots.has(lot)) continue;
      // A lot is never twice in one tank at a time.
      for (const stay of trackOf(lot).stays)
        if (stay.place === state.tank && stay.to === undefined) stay.to = day;
    }
    for (const lot of state.lots.keys())
      if (!before.has(lot))
        trackOf(lot).stays.push({ place: state.tank, from: day, to: undefined });
    const key = placeKey(state.tank);
    const marks = history.get(key) ?? [];
    history.set(key, marks);
    marks.push({ day, lots: state.lots });
  };

  const early = new Map(soldTooSoon(farm).map(({ at, says }) => [at, says]));
  const order = rows
    .flatMap((_, at) => (log.rows[at]?.status === 'done' ? [at] : []))
    .sort((a, b) => (rows[a]?.date ?? 0) - (rows[b]?.date ?? 0) || a - b);
  for (const at of order) {
    const row = rows[at];
    const outcome = log.rows[at];
    if (!row || !outcome?.tank) continue;
    const { date, what, remark } = row;
    const { tank } = outcome.tank;
    const before = heldBefore(tank);
    const fish = outcome.fish ?? 0;
    const each =
      outcome.weight === undefined ? '' : ` of ${figureText(outcome.weight, 'fishWeight', units)}`;
    const traced = (says: string): TracedRow => ({
      list: 'fishLog',
      at,
      dates: [date],
      says: `${isoText(date)}: ${says}${remarkOf(remark)}`,
    });
    holds(outcome.toTank, date);
    holds(outcome.tank, date);
    if (what === 'stocked') {
      const lot = row.lot?.trim() || `${isoText(date)} ${tank}`;
      trackOf(lot).cameFrom.push(traced(`${heads(fish)}${each} stocked into ${tank}`));
      continue;
    }
    for (const [lot, share] of before) {
      const of = trackOf(lot);
      const part = shareInWords(share);
      if (what === 'sold') {
        of.wentTo.push({
          ...traced(`${heads(fish)}${each} sold from ${tank}${part}`),
          ...(early.has(at) && { warns: early.get(at) as string }),
        });
      } else if (what === 'moved') {
        of.cleared.push(
          traced(
            `${heads(fish)}${each} moved from ${tank} to ${outcome.toTank?.tank ?? ''}${part}`,
          ),
        );
      } else if (what === 'died') of.cleared.push(traced(`${heads(fish)} died in ${tank}${part}`));
      else if (what === 'counted')
        of.cleared.push(traced(`${tank} counted: ${heads(fish)}${part}`));
    }
  }

  /** The lots that were in a tank when a day began; of a tank that filled on that day, those that came. */
  const lotsOn = (tank: string, day: number): LotShares => {
    const marks = history.get(placeKey(tank)) ?? [];
    const before = marks.filter((mark) => mark.day < day).at(-1)?.lots;
    if (before && before.size > 0) return before;
    return marks.filter((mark) => mark.day <= day).at(-1)?.lots ?? new Map<string, number>();
  };
  const soldOn = new Map<number, Set<string>>();
  for (const at of order) {
    const row = rows[at];
    if (row?.what === 'sold')
      soldOn.set(row.date, (soldOn.get(row.date) ?? new Set()).add(row.tank));
  }
  farm.harvests.forEach((sale, at) => {
    const species = speciesTable.book.find(sale.crop);
    if (!species) return;
    const likely = soldOn.get(sale.date);
    const from =
      sale.bed !== undefined
        ? [sale.bed]
        : likely !== undefined
          ? [...likely]
          : farm.tanks.flatMap((tank) =>
              speciesTable.book.find(tank.species) === species ? [tank.name] : [],
            );
    const found = from.flatMap((tank) => [...lotsOn(tank, sale.date).keys()]);
    const lots = [...new Set(found)];
    const doubt =
      sale.bed === undefined && lots.length > 1
        ? `; no tank is named: from one or more of ${lots.length} lots`
        : '';
    const warns = from
      .map((tank) => {
        const at = rows.findIndex(
          (row, i) =>
            early.has(i) && row.date === sale.date && placeKey(row.tank) === placeKey(tank),
        );
        const says = early.get(at);
        return says === undefined ? tooSoon(farm, tank, sale.date) : { warns: says };
      })
      .find((notice) => notice.warns);
    for (const lot of lots) {
      trackOf(lot).wentTo.push({
        list: 'harvests',
        at,
        dates: [sale.date],
        says: `${saleInWords(sale, farm)}${doubt}`,
        ...(sale.bed !== undefined && warns),
      });
    }
  });

  const now = new Map<string, string[]>();
  const alive = new Map(log.lots.map((lot) => [lot.lot, lot.alive]));
  for (const { name, stays } of tracks.values())
    now.set(
      name,
      stays.flatMap(({ place, to }) => (to === undefined ? [place] : [])),
    );
  const kinds = new Map(farm.tanks.map((tank) => [tank.name, tank.species]));
  return [...tracks.values()].map(({ name, cameFrom, stays, cleared, wentTo }): Track => {
    const left = Math.round(alive.get(name) ?? 0);
    const places = now.get(name) ?? [];
    const species = kinds.get(stays[0]?.place ?? '') ?? '';
    return {
      kind: 'fish',
      name,
      of: speciesTable.book.find(species)?.name ?? species,
      began: stays[0]?.from,
      cameFrom,
      stays: stays as Stay[],
      cleared,
      ...careOf(stays, farm),
      feed: feedOf(stays, farm),
      wentTo: [...wentTo].sort((a, b) => (a.dates[0] ?? 0) - (b.dates[0] ?? 0)),
      left:
        left === 0 || places.length === 0
          ? 'None of it is left in a tank.'
          : `About ${heads(left)} of it are still in ${places.join(' and ')}.`,
    };
  });
}
