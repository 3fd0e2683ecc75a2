import { isoText } from '../../core/serial-date';
import { type FishFact, species } from '../../core/tables/species';
import type { Farm, FarmSoFar } from '../../plan/farm';
import type { UnitSystem } from '../../plan/quantities';
import { figureText } from '../../plan/shown-figure';
import { gill } from './gill-number';

/** Something that is possible but unwise, beside the field that would put it right. */
export interface Advice {
  readonly path: string;
  readonly sentence: string;
}

type Adviser = (farm: Farm, system: UnitSystem) => readonly Advice[];
/** Advice that needs no more than what is filled in so far. */
type EarlyAdviser = (farm: FarmSoFar) => readonly Advice[];

const fishFact = (name: string, fact: FishFact): number | undefined =>
  species.find((row) => row.name === name)?.facts[fact][0];

const crowdedTanks: EarlyAdviser = ({ tanks, units }) =>
  tanks.flatMap((tank, i) => {
    if (!tank) return [];
    const most = tank.density ?? fishFact(tank.species, 'density_aerated');
    const density =
      tank.fish > 0 && tank.weight !== undefined
        ? gill('STOCK.DENSITY', tank.fish, tank.weight, tank.volume)
        : undefined;
    if (density === undefined || most === undefined || density <= most) return [];
    const fits = gill('STOCK.LIMIT', tank.volume, tank.weight, most);
    return [
      {
        path: `tanks[${i}].fish`,
        sentence: `That is ${figureText(density, 'density', units)}; this tank may hold ${figureText(most, 'density', units)}${fits === undefined ? '' : `, ${fits} fish of this weight`}.`,
      },
    ];
  });

const tanksWithoutWeight: EarlyAdviser = ({ tanks }) =>
  tanks.flatMap((tank, i) =>
    tank && tank.fish > 0 && tank.weight === undefined
      ? [
          {
            path: `tanks[${i}].weight`,
            sentence: 'Without a weight these fish count neither for feed nor for density.',
          },
        ]
      : [],
  );

/** What a month's water does to one species; undefined where it feeds. */
function harmOf(name: string, water: number, units: UnitSystem): string | undefined {
  const low = fishFact(name, 'feed_low');
  const high = fishFact(name, 'feed_high');
  const coldest = fishFact(name, 'vital_low');
  const warmest = fishFact(name, 'vital_high');
  const limit = (value: number): string => figureText(value, 'temperature', units);
  if (coldest !== undefined && water < coldest) {
    return `${name} does not survive below ${limit(coldest)}.`;
  }
  if (warmest !== undefined && water > warmest) {
    return `${name} does not survive above ${limit(warmest)}.`;
  }
  if (low !== undefined && water <= low) {
    return `${name} does not feed at ${limit(low)} or below.`;
  }
  if (high !== undefined && water >= high) {
    return `${name} does not feed at ${limit(high)} or above.`;
  }
  return undefined;
}

/** By the main species and every other that a tank holds. */
const waterOutOfRange: EarlyAdviser = ({ species: main, tanks, water: months, units }) => {
  const held = tanks.flatMap((tank) => (tank && tank.fish > 0 ? [tank.species] : []));
  const names = [...new Set([...(main === undefined ? [] : [main]), ...held])];
  return months.flatMap((water, i) =>
    names.flatMap((name) => {
      const sentence = water === undefined ? undefined : harmOf(name, water, units);
      return sentence === undefined ? [] : [{ path: `months[${i}].water`, sentence }];
    }),
  );
};

const airUpsideDown: Adviser = (farm) =>
  farm.months.flatMap(({ high, low }, i) =>
    high !== undefined && low !== undefined && high < low
      ? [{ path: `months[${i}].high`, sentence: 'The high is below the low.' }]
      : [],
  );

const harvestWeight: Adviser = (farm) =>
  farm.stock.harvestWeight !== undefined &&
  farm.stock.harvestWeight <= (farm.stock.startWeight ?? 0)
    ? [{ path: 'stock.harvestWeight', sentence: 'A fingerling weighs as much already.' }]
    : [];

const tooLittleWater: Adviser = (farm, system) => {
  const held = (farm.water.sump ?? 0) + farm.tanks.reduce((sum, tank) => sum + tank.volume, 0);
  return farm.water.total !== undefined && farm.water.total < held
    ? [
        {
          path: 'water.total',
          sentence: `Tanks and sump alone hold ${figureText(held, 'volume', system)}.`,
        },
      ]
    : [];
};

const sumpTooSmall: Adviser = (farm, system) => {
  const flood = farm.beds
    .filter((bed) => bed.kind === 'gravel' && bed.depth !== undefined)
    .reduce((sum, bed) => sum + (gill('FLOOD.VOLUME', bed.length * bed.width, bed.depth) ?? 0), 0);
  return farm.water.sump !== undefined && flood > farm.water.sump
    ? [
        {
          path: 'water.sump',
          sentence: `The gravel beds take up to ${figureText(flood, 'volume', system)} when all of them flood at once.`,
        },
      ]
    : [];
};

const tooLateToSow: Adviser = (farm) =>
  farm.markets.flatMap((market, i) => {
    if (farm.beds.some((bed) => bed.crop === market.crop)) return [];
    const sow = gill('SOW.DATE', market.firstHarvest, market.crop);
    return sow !== undefined && sow < farm.asOf
      ? [
          {
            path: `markets[${i}].firstHarvest`,
            sentence: `For this harvest the crop had to be sown on ${isoText(sow)}, before the plan's day.`,
          },
        ]
      : [];
  });

const cropWithoutBed: Adviser = (farm) =>
  farm.markets.flatMap((market, i) =>
    farm.beds.some((bed) => bed.crop === market.crop)
      ? []
      : [{ path: `markets[${i}].crop`, sentence: 'No bed grows this crop yet.' }],
  );

const noMedia: Adviser = (farm) =>
  farm.filter.media === 0 && farm.beds.every((bed) => bed.kind !== 'gravel')
    ? [
        {
          path: 'filter.media',
          sentence: 'Without media and gravel beds, only rafts and walls carry bacteria.',
        },
      ]
    : [];

const earlyAdvisers: readonly EarlyAdviser[] = [crowdedTanks, tanksWithoutWeight, waterOutOfRange];
const advisers: readonly Adviser[] = [
  airUpsideDown,
  harvestWeight,
  tooLittleWater,
  sumpTooSmall,
  tooLateToSow,
  cropWithoutBed,
  noMedia,
];

/** What is unwise: in what is filled in so far, and in the whole farm once its fields are all right. */
export const adviceOn = (soFar: FarmSoFar, farm: Farm | undefined): readonly Advice[] => [
  ...earlyAdvisers.flatMap((adviser) => adviser(soFar)),
  ...(farm ? advisers.flatMap((adviser) => adviser(farm, farm.units)) : []),
];
