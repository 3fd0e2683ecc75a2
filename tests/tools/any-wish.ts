import fc from 'fast-check';
import { crops } from '../../src/core/tables/crops';
import { species } from '../../src/core/tables/species';
import { bedKinds, marketUnits } from '../../src/plan/farm';

/** Wishes that nobody would think of: any answer may be missing, amounts run from a balcony to a village. */

/** Evenly spread over the orders of magnitude. */
const amount = (low: number, high: number) =>
  fc
    .integer({ min: 0, max: 10_000 })
    .map((step) => Number((low * (high / low) ** (step / 10_000)).toPrecision(3)));

const market = fc.record({
  crop: fc.constantFrom(...crops.map(({ name }) => name)),
  unit: fc.constantFrom(...marketUnits),
  perWeek: amount(0.2, 20_000),
});

const side = amount(0.5, 60);
const group = fc.oneof(
  fc
    .tuple(fc.integer({ min: 1, max: 20 }), amount(0.2, 60))
    .map(([count, volume]) => `${count} tanks of ${volume} m3`),
  fc
    .tuple(
      fc.integer({ min: 1, max: 40 }),
      fc.constantFrom('rafts', 'gravel beds', 'film channels'),
      side,
      side,
    )
    .map(([count, kind, length, width]) => `${count} ${kind} of ${length} x ${width} m`),
  fc
    .tuple(fc.integer({ min: 1, max: 40 }), side, fc.constantFrom(...crops.map(({ name }) => name)))
    .map(([count, length, crop]) => `${count} rafts of ${length} x 1.2 m with ${crop}`),
);

const climate = fc
  .tuple(fc.integer({ min: -100, max: 300 }), fc.integer({ min: 0, max: 300 }))
  .map(([coldest, rise]) => ({
    coldest: coldest / 10,
    warmest: Math.min(450, coldest + rise) / 10,
  }));

const some = <T extends object>(fields: { [K in keyof T]: fc.Arbitrary<T[K]> }) =>
  fc.record(fields, { requiredKeys: [] });

const choices = some({
  tanks: fc.integer({ min: 1, max: 52 }),
  beds: fc.constantFrom(...bedKinds),
  excess: fc.constantFrom('gives way', 'stays'),
});

const fish = some({
  species: fc.constantFrom(...species.map(({ name }) => name)),
  kgPerMonth: amount(0.5, 50_000),
});

/** With every answer. */
export const wholeWish = fc
  .record({
    latitude: fc.integer({ min: -64, max: 64 }),
    climate,
    heated: fc.boolean(),
    species: fc.constantFrom(...species.map(({ name }) => name)),
    kgPerMonth: amount(0.5, 50_000),
    market: fc.array(market, { minLength: 1, maxLength: 6 }),
  })
  .map(({ climate: air, species: kind, kgPerMonth, ...rest }) => ({
    units: 'metric',
    currency: 'EUR',
    ...rest,
    ...air,
    fish: { species: kind, kgPerMonth },
  }));

/** With some of them, and what is there already. */
export const anyWish = fc
  .tuple(
    some({
      latitude: fc.integer({ min: -64, max: 64 }),
      altitude: fc.integer({ min: -400, max: 5000 }),
      heated: fc.boolean(),
      currency: fc.constant('USD'),
      fish,
      market: fc.array(market, { maxLength: 5 }),
      have: fc.array(group, { maxLength: 4 }),
      choices,
    }),
    some({ climate }),
    fc.constantFrom('metric', 'US'),
  )
  .map(([rest, { climate: air }, units]) => ({
    ...rest,
    units,
    ...(air &&
      (units === 'US' ? { coldest: `${air.coldest} degC`, warmest: `${air.warmest} degC` } : air)),
  }));
