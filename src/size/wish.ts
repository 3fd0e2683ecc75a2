import * as v from 'valibot';
import { cropTable } from '../functions/crop-table';
import { speciesTable } from '../functions/species-table';
import { bedKinds, marketUnits } from '../plan/farm';
import { day, known, measured, oneOf, rowsOf, text } from '../plan/farm-fields';
import type { UnitSystem } from '../plan/quantities';
import { MOST_OWN, type OwnGroup, readGroup } from './group-text';
import { type WrongField, wrongField, WrongFieldsError } from '../plan/wrong-field';

/** What somebody wants who has no farm yet. Every answer may be missing. */

const POUND = 0.45359237;

/** Which wish yields where fish and market do not fit each other: the one that is too large, or none. */
export const excessWays = ['gives way', 'stays'] as const;

function wishSchema(system: UnitSystem) {
  const figure = (id: Parameters<typeof measured>[0], range: Parameters<typeof measured>[1]) =>
    v.optional(measured(id, range, system));
  return v.strictObject({
    name: v.optional(text(80)),
    place: v.optional(text(80)),
    units: v.optional(oneOf(['metric', 'US']), 'metric'),
    currency: v.optional(text(8)),
    /** The day the plan speaks of. */
    asOf: v.optional(day()),
    latitude: figure('degrees', { min: -90, max: 90 }),
    altitude: figure('altitude', { min: -430, max: 5000 }),
    /** Mean air of the coldest and of the warmest month where crops and tanks stand, under cover. */
    coldest: figure('temperature', { min: -30, max: 45 }),
    warmest: figure('temperature', { min: -30, max: 45 }),
    heated: v.optional(v.boolean((issue) => `must be true or false; got ${String(issue.input)}`)),
    fish: v.optional(
      v.strictObject({
        species: v.optional(known(speciesTable.book, speciesTable.nameOf)),
        kgPerMonth: v.optional(measured('massMonth', { positive: true, max: 1e5 }, 'metric')),
        lbPerMonth: v.optional(measured('massMonth', { positive: true, max: 1e5 }, 'US')),
      }),
    ),
    market: v.optional(
      rowsOf(
        v.strictObject({
          crop: known(cropTable.book, cropTable.nameOf),
          unit: oneOf(marketUnits),
          perWeek: measured('number', { positive: true, max: 1e5 }, system),
        }),
        0,
        30,
      ),
    ),
    /** What is there already, group by group: "4 tanks of 7.8 m3". Then it is asked what that can sell. */
    have: v.optional(
      rowsOf(
        v.pipe(
          v.string((issue) => `must be text; got ${JSON.stringify(issue.input)}`),
          v.rawTransform(({ dataset, addIssue, NEVER }): OwnGroup => {
            const group = readGroup(dataset.value, system);
            if (typeof group !== 'string') return group;
            addIssue({ message: group });
            return NEVER;
          }),
        ),
        0,
        60,
      ),
    ),
    /** What of the proposal is chosen otherwise than it proposes by itself. */
    choices: v.optional(
      v.strictObject({
        tanks: v.optional(measured('number', { min: 1, max: 52, whole: true }, system)),
        beds: v.optional(oneOf(bedKinds)),
        excess: v.optional(oneOf(excessWays)),
        startWeight: figure('fishWeight', { min: 0.5, max: 20000 }),
        harvestWeight: figure('fishWeight', { positive: true, max: 50000 }),
      }),
    ),
  });
}

type Contents = v.InferOutput<ReturnType<typeof wishSchema>>;

/** A wish that was read: every figure metric, the day as a sheet serial. */
export interface Wish extends Omit<Contents, 'fish' | 'market' | 'choices' | 'have' | 'asOf'> {
  /** Day that the plan speaks of, as a sheet serial. */
  readonly asOf: number;
  readonly have: readonly OwnGroup[];
  readonly fish: { readonly species?: string; readonly kgPerMonth?: number };
  readonly market: NonNullable<Contents['market']>;
  readonly choices: Readonly<NonNullable<Contents['choices']>>;
}
export type WishedCrop = Wish['market'][number];
export type Choices = Wish['choices'];

/** The wish is not right; the message lists every wrong field. */
export class WishFileError extends WrongFieldsError {
  constructor(fields: readonly WrongField[]) {
    super(fields, 'wish');
    this.name = 'WishFileError';
  }
}

/** What one answer makes of another that cannot go with it. */
function contradictions({ coldest, warmest, fish, choices, have = [] }: Contents): WrongField[] {
  const wrong: WrongField[] = [];
  if (coldest !== undefined && warmest !== undefined && coldest > warmest)
    wrong.push({
      path: ['coldest'],
      missing: false,
      says: 'must not be above warmest: the coldest month is colder than the warmest',
    });
  if (fish?.kgPerMonth !== undefined && fish.lbPerMonth !== undefined)
    wrong.push({
      path: ['fish', 'lbPerMonth'],
      missing: false,
      says: 'says the same as fish.kgPerMonth; keep one of the two',
    });
  for (const what of ['tanks', 'beds'] as const) {
    const count = have.reduce((all, one) => all + (one.what === what ? one.count : 0), 0);
    if (count > MOST_OWN[what])
      wrong.push({
        path: ['have'],
        missing: false,
        says: `must have at most ${MOST_OWN[what]} ${what} together; got ${count}`,
      });
  }
  const { startWeight, harvestWeight } = choices ?? {};
  if (startWeight !== undefined && harvestWeight !== undefined && startWeight >= harvestWeight)
    wrong.push({
      path: ['choices', 'harvestWeight'],
      missing: false,
      says: 'must be above choices.startWeight: fish are sold heavier than they are stocked',
    });
  return wrong;
}

const unitsOf = (json: unknown): UnitSystem =>
  typeof json === 'object' && json !== null && 'units' in json && json.units === 'US'
    ? 'US'
    : 'metric';

/**
 * Reads a wish. Bare numbers are in the units that it names, text may carry any fitting unit. Throws a
 * WishFileError that lists every wrong field with what would be right. `today` is the day of the plan where
 * the wish names none.
 */
export function readWish(json: unknown, today: number): Wish {
  const result = v.safeParse(wishSchema(unitsOf(json)), json);
  if (!result.success)
    throw new WishFileError(result.issues.map((issue) => wrongField(issue, 'wish')));
  const wrong = contradictions(result.output);
  if (wrong.length > 0) throw new WishFileError(wrong);
  const { fish = {}, market = [], choices = {}, have = [], asOf = today, ...rest } = result.output;
  const { species, kgPerMonth = fish.lbPerMonth } = fish;
  return {
    ...rest,
    asOf,
    have,
    market,
    choices,
    fish: {
      ...(species !== undefined && { species }),
      ...(kgPerMonth !== undefined && { kgPerMonth }),
    },
  };
}

export const poundsOf = (kg: number): number => kg / POUND;
