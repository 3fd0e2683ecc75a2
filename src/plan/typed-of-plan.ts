import { readFarm } from './farm';
import { atOnce, type Steps } from './in-steps';
import { planInSteps } from './plan';
import type { UnitSystem } from './quantities';
import type { Typed } from './typed-cells';

/** The smallest farm: its plan declares the typed cells of every plan. */
const smallest = (units: UnitSystem): unknown => ({
  name: 'A farm',
  units,
  asOf: '2026-01-01',
  site: { place: 'A place', latitude: 0, altitude: 0 },
  months: Array.from({ length: 12 }, () => ({
    water: '20 degC',
    high: '20 degC',
    low: '10 degC',
    humidity: 0.7,
  })),
  water: { total: 1000, sump: 0 },
  filter: { media: 0, specificSurface: 100 },
  feed: { price: 1 },
  stock: {
    species: 'Nile tilapia',
    wanted: 1,
    startWeight: '10 g',
    harvestWeight: '500 g',
    survival: 0.9,
  },
  tanks: [{ name: 'A tank', volume: 1000, species: 'Nile tilapia' }],
  beds: [{ name: 'A bed', kind: 'raft', length: 1, width: 1 }],
  presets: [
    {
      field: 'name',
      what: 'Name',
      figure: 'A farm',
      why: 'So that the sheet of presets is there.',
    },
  ],
  ownFigures: [{ figure: 'Share of a lot that is sold', batches: 1, mean: 0.9 }],
});

const declared = new Map<UnitSystem, readonly Typed[]>();

/** Every typed cell that a plan in these units has. */
export const typedOfPlan = (units: UnitSystem): readonly Typed[] => atOnce(typedInSteps(units));

/** The same in steps, of which there are some the first time. */
export function* typedInSteps(units: UnitSystem): Steps<readonly Typed[]> {
  const known = declared.get(units);
  if (known) return known;
  const farm = readFarm(smallest(units));
  yield 0;
  const { typed } = yield* planInSteps(farm, { formulas: 'live' });
  declared.set(units, typed);
  return typed;
}
