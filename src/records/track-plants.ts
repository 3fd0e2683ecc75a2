/** Batches of plants through the Plantings: seed, nursery, beds, and what was cut and sold of them. */
import { isoText } from '../core/serial-date';
import { cropTable } from '../functions/crop-table';
import type { Farm, PlantingEntry } from '../plan/farm';
import { placeKey } from '../plan/registers-of-farm';
import { batchName, isDone } from './register-row';
import {
  careOf,
  lotKey,
  remarkOf,
  saleInWords,
  type Stay,
  tooSoon,
  type Track,
  type TracedRow,
} from './track';

interface Part {
  readonly row: PlantingEntry;
  readonly at: number;
}

interface OpenTrack {
  readonly name: string;
  readonly parts: Part[];
  readonly wentTo: TracedRow[];
}

/** The day from which on a batch stands in its bed. */
export const inBedFrom = ({ crop, planted, sown }: PlantingEntry): number | undefined =>
  planted ?? (cropTable.book.find(crop)?.start === 'in place' ? sown : undefined);

const stands = ({ row }: Part, day: number): boolean => {
  const from = inBedFrom(row);
  return from !== undefined && from <= day && (row.cleared === undefined || row.cleared >= day);
};

function staysOf({ row }: Part): Stay[] {
  const { bed, sown, cleared } = row;
  const from = inBedFrom(row);
  return [
    ...(sown !== undefined && (from === undefined || from > sown)
      ? [{ place: 'Nursery', from: sown, to: from }]
      : []),
    ...(bed !== undefined && from !== undefined ? [{ place: bed.trim(), from, to: cleared }] : []),
  ];
}

const plantsWord = (count: number | undefined): string =>
  count === undefined ? '' : `${count.toLocaleString('en-GB')} plants `;

function cameFrom({ row, at }: Part): TracedRow {
  const { crop, seeds, sown, up, bed, plants, remark } = row;
  const from = inBedFrom(row);
  const steps = [
    sown === undefined
      ? ''
      : `${isoText(sown)}: ${seeds === undefined ? '' : `${seeds.toLocaleString('en-GB')} seeds of `}${crop} sown`,
    up === undefined ? '' : `up ${isoText(up)}`,
    from !== undefined && bed !== undefined && from !== sown
      ? `${isoText(from)}: ${plantsWord(plants)}planted out into ${bed.trim()}`
      : '',
  ].filter(Boolean);
  return {
    list: 'plantings',
    at,
    dates: [sown, from].filter((day) => day !== undefined),
    says: `${steps.join(', ') || `${crop}, without a date`}${remarkOf(remark)}`,
  };
}

const clearing = ({ row: { bed, cleared }, at }: Part): TracedRow[] =>
  cleared === undefined
    ? []
    : [
        {
          list: 'plantings',
          at,
          dates: [cleared],
          says: `${isoText(cleared)}: ${bed?.trim() ?? 'what was left'} cleared`,
        },
      ];

/** Every batch of the farm's plants, in the order of the rows. Rows that share a name are one batch. */
export function tracksOfPlants(farm: Farm): Track[] {
  const tracks = new Map<string, OpenTrack>();
  const byBed = new Map<string, { track: OpenTrack; part: Part }[]>();
  const byCrop = new Map<string, { track: OpenTrack; part: Part }[]>();
  const into = <T>(map: Map<string, T[]>, key: string, item: T): void => {
    const list = map.get(key);
    if (list) list.push(item);
    else map.set(key, [item]);
  };
  farm.plantings.forEach((row, at) => {
    if (!isDone(row)) return;
    const name = batchName(row);
    // One name for two crops is two batches.
    const key = `${lotKey(name)}|${row.crop}`;
    const track = tracks.get(key) ?? { name, parts: [], wentTo: [] };
    tracks.set(key, track);
    const part = { row, at };
    track.parts.push(part);
    if (row.bed !== undefined) into(byBed, placeKey(row.bed), { track, part });
    into(byCrop, row.crop, { track, part });
  });
  farm.harvests.forEach((sale, at) => {
    const { bed, crop, date } = sale;
    const near =
      bed === undefined
        ? byCrop.get(crop)
        : byBed.get(placeKey(bed))?.filter((standing) => standing.part.row.crop === crop);
    const found = (near ?? []).filter(({ part }) => stands(part, date));
    const sources = [...new Set(found.map(({ track }) => track))];
    const doubt =
      sources.length < 2
        ? ''
        : bed === undefined
          ? `; no bed is named: from one or more of ${sources.length} batches`
          : `; ${sources.length} batches stood there`;
    for (const { track, part } of found.filter(
      (standing, i) => found.findIndex(({ track }) => track === standing.track) === i,
    )) {
      const place = bed ?? part.row.bed;
      track.wentTo.push({
        list: 'harvests',
        at,
        dates: [date],
        says: `${saleInWords(sale, farm)}${doubt}`,
        ...(place !== undefined &&
          (bed !== undefined || found.length === 1) &&
          tooSoon(farm, place, date)),
      });
    }
  });
  return [...tracks.values()].map(({ name, parts, wentTo }): Track => {
    const stays = parts.flatMap(staysOf);
    const unique = stays.filter(
      (stay, i) =>
        stays.findIndex(
          ({ place, from, to }) => place === stay.place && from === stay.from && to === stay.to,
        ) === i,
    );
    const standing = unique.flatMap(({ place, to }) => (to === undefined ? [place] : []));
    return {
      kind: 'plants',
      name,
      of: parts[0]?.row.crop ?? '',
      began: unique.length > 0 ? Math.min(...unique.map(({ from }) => from)) : undefined,
      cameFrom: parts.map(cameFrom),
      stays: unique,
      ...careOf(unique, farm),
      cleared: parts.flatMap(clearing),
      wentTo: [...wentTo].sort((a, b) => (a.dates[0] ?? 0) - (b.dates[0] ?? 0)),
      left:
        standing.length === 0
          ? 'None of it stands any more.'
          : `It still stands in ${standing.join(' and ')}.`,
    };
  });
}
