import * as v from 'valibot';
import { cropTable } from '../functions/crop-table';
import { known, measured } from '../plan/farm-fields';
import type { UnitSystem } from '../plan/quantities';
import type { BedEntry } from '../plan/farm';

/** Tanks and beds as one says them: "4 tanks of 7.8 m3", "24 rafts of 7.2 x 1.2 m with lettuce". */

export interface TankGroup {
  readonly what: 'tanks';
  readonly count: number;
  /** L of each. */
  readonly volume: number;
}
export interface OwnBeds {
  readonly what: 'beds';
  readonly count: number;
  readonly kind: BedEntry['kind'];
  /** m */
  readonly length: number;
  readonly width: number;
  readonly crop?: string;
}
export type OwnGroup = TankGroup | OwnBeds;

/** What a farm file holds of each. */
export const MAX_OWN = { tanks: 200, beds: 1000 } as const;

const EXAMPLES = '"4 tanks of 7.8 m3" or "24 rafts of 7.2 x 1.2 m with lettuce"';
const LINE = /^(\d+)\s+(.+?)\s+of\s+(.+?)(?:\s+with\s+(.+))?$/i;
const SIDES = /^([\d.,]+)\s*([a-z]*)\s*(?:x|×|by)\s*([\d.,]+)\s*([a-z]*)$/i;

const kinds: readonly (readonly [RegExp, OwnBeds['kind'] | 'tanks'])[] = [
  [/^(?:fish )?tanks?$/i, 'tanks'],
  [/^(?:rafts?|raft beds?)$/i, 'raft'],
  [/^(?:gravel|media) beds?$/i, 'gravel'],
  [/^(?:film )?channels?$|^film beds?$/i, 'film'],
];

/** A group, or a sentence that says what is wrong with it. */
export function readGroup(line: string, units: UnitSystem): OwnGroup | string {
  const [, number = '', what = '', size = '', crop] = LINE.exec(line.trim()) ?? [];
  const kind = kinds.find(([word]) => word.test(what))?.[1];
  const count = Number(number);
  if (kind === undefined || count < 1)
    return `must be tanks, rafts, gravel beds or film channels with their number and size, such as ${EXAMPLES}; got ${JSON.stringify(line)}`;
  const read = <T>(schema: v.GenericSchema<unknown, T>, given: unknown): T | string => {
    const result = v.safeParse(schema, given);
    return result.success
      ? result.output
      : `${result.issues[0].message} (in ${JSON.stringify(line)})`;
  };
  if (kind === 'tanks') {
    if (count > MAX_OWN.tanks) return `must be at most ${MAX_OWN.tanks} tanks; got ${count}`;
    const volume = read(measured('volume', { positive: true, max: 1e7 }, units), size);
    if (typeof volume === 'string') return volume;
    return { what: 'tanks', count, volume };
  }
  if (count > MAX_OWN.beds) return `must be at most ${MAX_OWN.beds} beds; got ${count}`;
  const [, long, unitLong, wide, unitWide] = SIDES.exec(size) ?? [];
  if (long === undefined || wide === undefined)
    return `must give length and width of a bed, such as ${EXAMPLES}; got ${JSON.stringify(line)}`;
  const side = (figure: string, unit: string | undefined) =>
    read(
      measured('length', { positive: true, max: 1000 }, units),
      unit ? `${figure} ${unit}` : figure,
    );
  const length = side(long, unitLong === '' ? unitWide : unitLong);
  const width = side(wide, unitWide);
  if (typeof length === 'string') return length;
  if (typeof width === 'string') return width;
  if (crop === undefined) return { what: 'beds', count, kind, length, width };
  const name = read(known(cropTable.book, cropTable.nameOf), crop);
  if (!cropTable.book.find(name)) return name;
  return { what: 'beds', count, kind, length, width, crop: name };
}
