import * as v from 'valibot';
import { FEED_CONVERSIONS } from '../core/feeding';
import { GROWTH_COEFFICIENTS } from '../core/growth';
import { cropTable } from '../functions/crop-table';
import { speciesTable } from '../functions/species-table';
import { bedKinds, marketUnits } from '../plan/farm';
import { day, known, measured, oneOf, rowsOf, text } from '../plan/farm-fields';
import type { UnitSystem } from '../plan/quantities';
import { MAX_OWN, type OwnGroup, readGroup } from './group-text';
import { type WrongField, wrongField, WrongFieldsError } from '../plan/wrong-field';

/** What somebody wants who has no farm yet. Every answer may be missing. */

/** Which wish yields where fish and market do not fit each other: the one that is too large, or none. */
export const excessWays = ['gives way', 'stays'] as const;

function wishSchema(system: UnitSystem) {
  const figure = (id: Parameters<typeof measured>[0], range: Parameters<typeof measured>[1]) =>
    v.optional(measured(id, range, system));
  const money = () => figure('number', { min: 0, max: 1e9 });
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
    /** January to December, of who knows them; then nobody asks for the two extremes. */
    months: v.optional(
      rowsOf(
        v.strictObject({
          high: measured('temperature', { min: -60, max: 60 }, system),
          low: measured('temperature', { min: -60, max: 60 }, system),
          humidity: figure('share', { min: 0, max: 1 }),
          /** Left out, as warm as the mean air or as it is heated. */
          water: figure('temperature', { min: 0, max: 40 }),
        }),
        12,
        12,
      ),
    ),
    heated: v.optional(v.boolean((issue) => `must be true or false; got ${String(issue.input)}`)),
    /** Of the feed; left out, what the species is usually fed. */
    protein: figure('share', { min: 0.1, max: 0.7 }),
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
          /** Left out, the kind that is chosen for all, or the one it is usually grown in. */
          bed: v.optional(oneOf(bedKinds)),
          /** Units that one plant gives in its whole life; left out, by the Crops sheet. */
          perPlant: figure('number', { positive: true, max: 1e5 }),
          price: money(),
        }),
        0,
        30,
      ),
    ),
    /** Of a unit of each; a year's costs hang on them. */
    prices: v.optional(
      v.strictObject({
        feed: figure('pricePerMass', { min: 0, max: 1e6 }),
        fish: figure('pricePerMass', { min: 0, max: 1e6 }),
        fingerling: money(),
        /** Of a kWh of power, and of a kWh of heat as it reaches the water. */
        power: money(),
        heat: money(),
        /** Of an hour of work. */
        work: money(),
        /** To build, of what holds a litre, or of a square metre. */
        tanks: figure('pricePerVolume', { min: 0, max: 1e6 }),
        media: figure('pricePerVolume', { min: 0, max: 1e6 }),
        sump: figure('pricePerVolume', { min: 0, max: 1e6 }),
        raft: figure('pricePerArea', { min: 0, max: 1e6 }),
        gravel: figure('pricePerArea', { min: 0, max: 1e6 }),
        film: figure('pricePerArea', { min: 0, max: 1e6 }),
        /** Of all else that is built. */
        rest: money(),
      }),
      {},
    ),
    /** Hours a week for each tank, and for a square metre of bed. */
    work: v.optional(
      v.strictObject({
        tank: figure('hours', { min: 0, max: 168 }),
        bed: figure('hoursPerArea', { min: 0, max: 168 }),
      }),
      {},
    ),
    /** Years that what is built lasts. */
    years: figure('number', { positive: true, max: 100 }),
    /** Other costs of a month. */
    otherCosts: money(),
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
        /** Share that lives to be sold, growth coefficient, feed for a kg of growth; left out, the usual ones. */
        survival: figure('share', { min: 0.05, max: 1 }),
        coefficient: figure('number', { min: GROWTH_COEFFICIENTS[0], max: GROWTH_COEFFICIENTS[1] }),
        conversion: figure('number', { min: FEED_CONVERSIONS[0], max: FEED_CONVERSIONS[1] }),
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
    const count = have.reduce((all, group) => all + (group.what === what ? group.count : 0), 0);
    if (count > MAX_OWN[what])
      wrong.push({
        path: ['have'],
        missing: false,
        says: `must have at most ${MAX_OWN[what]} ${what} together; got ${count}`,
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
