/**
 * The farm that the project plays in: an invented commercial tunnel, Quillwater, with warm-water fish in
 * five tanks and four dozen beds of salad, herbs and fruiting crops. Nothing in it is anybody's record.
 */

import { FISH_REMARK } from '../core/planner-remarks';
import { isoText, isoWeek, serialFromIsoText, serialOf } from '../core/serial-date';

interface Planting {
  readonly crop: string;
  readonly plants: number;
  readonly sown: string;
  readonly planted?: string;
}

const raft = (number: number, planting?: Planting) => ({
  name: `R${String(number).padStart(2, '0')}`,
  kind: 'raft',
  length: 7.2,
  width: 1.2,
  depth: 0.3,
  ...planting,
});

const gravel = (number: number, planting?: Planting) => ({
  name: `G${String(number).padStart(2, '0')}`,
  kind: 'gravel',
  length: 6,
  width: 1,
  depth: 0.3,
  ...planting,
});

/** Lettuce on six pairs of rafts, a pair planted each week. */
const lettuce = [
  ['2026-02-09', '2026-03-02'],
  ['2026-02-16', '2026-03-09'],
  ['2026-02-23', '2026-03-16'],
  ['2026-03-02', '2026-03-23'],
  ['2026-03-09', '2026-03-30'],
  ['2026-03-16', '2026-04-06'],
].flatMap(([sown, planted], i) =>
  [0, 1].map((k) =>
    raft(2 * i + 1 + k, {
      crop: 'lettuce',
      plants: 170,
      sown: sown as string,
      planted: planted as string,
    }),
  ),
);

const herbs = [
  raft(13, { crop: 'basil', plants: 170, sown: '2026-01-19', planted: '2026-02-09' }),
  raft(14, { crop: 'basil', plants: 170, sown: '2026-02-09', planted: '2026-03-02' }),
  raft(15, { crop: 'basil', plants: 170, sown: '2026-03-02', planted: '2026-03-23' }),
  raft(16, { crop: 'basil', plants: 170, sown: '2026-03-23' }),
  raft(17, { crop: 'Swiss chard', plants: 138, sown: '2026-01-26', planted: '2026-02-16' }),
  raft(18, { crop: 'Swiss chard', plants: 138, sown: '2026-03-09', planted: '2026-03-30' }),
  raft(19, { crop: 'pak choi', plants: 95, sown: '2026-02-23', planted: '2026-03-19' }),
  raft(20, { crop: 'pak choi', plants: 95, sown: '2026-03-09', planted: '2026-04-02' }),
  raft(21, { crop: 'kale', plants: 69, sown: '2026-01-12', planted: '2026-02-16' }),
  raft(22, { crop: 'parsley', plants: 103, sown: '2025-12-15', planted: '2026-01-26' }),
  raft(23, { crop: 'parsley', plants: 103, sown: '2026-03-02' }),
  raft(24),
];

const fruiting = [
  ...[1, 2, 3, 4, 5, 6].map((n) =>
    gravel(n, { crop: 'tomato', plants: 18, sown: '2026-01-12', planted: '2026-02-23' }),
  ),
  ...[7, 8, 9].map((n) =>
    gravel(n, { crop: 'cherry tomato', plants: 18, sown: '2026-02-02', planted: '2026-03-16' }),
  ),
  ...[10, 11, 12, 13].map((n) =>
    gravel(n, { crop: 'cucumber', plants: 18, sown: '2026-03-02', planted: '2026-03-16' }),
  ),
  ...[14, 15].map((n) => gravel(n, { crop: 'cucumber', plants: 18, sown: '2026-03-30' })),
  ...[16, 17, 18].map((n) =>
    gravel(n, { crop: 'sweet pepper', plants: 24, sown: '2026-01-05', planted: '2026-03-02' }),
  ),
  ...[19, 20].map((n) =>
    gravel(n, { crop: 'aubergine', plants: 18, sown: '2026-01-19', planted: '2026-03-16' }),
  ),
  gravel(21, { crop: 'okra', plants: 24, sown: '2026-03-16' }),
  gravel(22, { crop: 'courgette', plants: 9, sown: '2026-03-23' }),
  gravel(23),
  gravel(24),
];

const tank = (number: number, fish: number, weight: number | undefined, stocked?: string) => ({
  name: `Tank ${number}`,
  volume: 7800,
  species: 'Nile tilapia',
  fish,
  ...(weight !== undefined && { weight }),
  ...(stocked !== undefined && { stocked }),
  bore: 63,
  pipe: 18,
  lift: 1.6,
  air: 60,
});

const months = [
  [25.5, 17, 7, 0.82],
  [25.5, 19, 8, 0.8],
  [26, 22, 10, 0.76],
  [26.5, 24, 12, 0.73],
  [27, 27, 15, 0.72],
  [28, 30, 18, 0.68],
  [28.5, 33, 20, 0.64],
  [28.5, 33, 20, 0.66],
  [27.5, 29, 17, 0.72],
  [26.5, 24, 14, 0.79],
  [26, 20, 10, 0.83],
  [25.5, 17, 8, 0.84],
].map(([water, high, low, humidity]) => ({ water, high, low, humidity }));

const waterTests = [
  ['2026-02-16', 25.4, 7.1, 0.9, 0.2, 62, 6.1, 78, 1.9],
  ['2026-02-23', 25.6, 7.0, 0.8, 0.2, 66, 6.3, 70, 1.7],
  ['2026-03-02', 25.9, 6.9, 1.1, 0.3, 71, 6.0, 62, 1.4],
  ['2026-03-09', 26.0, 7.2, 1.0, 0.3, 74, 5.9, 84, 2.0],
  ['2026-03-16', 26.1, 7.1, 1.3, 0.4, 79, 5.8, 76, 1.8],
  ['2026-03-23', 26.3, 7.0, 1.2, 0.3, 83, 5.7, 66, 1.5],
  ['2026-03-30', 26.2, 6.9, 1.2, 0.4, 88, 5.6, 57, 1.2],
  ['2026-04-06', 26.5, 7.3, 1.6, 0.6, 91, 5.2, 88, 1.0],
].map(([date, temperature, ph, tan, nitrite, nitrate, oxygen, alkalinity, iron], week) => ({
  date,
  temperature,
  ph,
  tan,
  nitrite,
  nitrate,
  oxygen,
  alkalinity,
  iron,
  added: [6300, 6100, 6600, 6400, 6900, 6800, 7200, 7100][week],
  // Potassium and calcium by turns, once a fortnight; the next is due.
  ...(week % 2 === 0 && {
    baseGiven: week % 4 === 0 ? 5200 : 2900,
    base: week % 4 === 0 ? 'potassium bicarbonate' : 'calcium hydroxide',
  }),
}));

/** What was sold on each Friday from a day on; 0 on a Friday without. */
const fridays = (
  [year, month, day]: readonly [number, number, number],
  crop: string,
  unit: string,
  price: number,
  quantities: readonly number[],
) =>
  quantities.flatMap((quantity, week) => {
    const date = isoText(serialOf({ year, month, day }) + 7 * week);
    return quantity === 0 ? [] : [{ date, crop, unit, quantity, price }];
  });

const harvests = [
  ...fridays([2026, 2, 6], 'lettuce', 'piece', 1.1, [310, 318, 305, 322, 315, 308, 325, 320]),
  ...fridays([2026, 4, 3], 'lettuce', 'piece', 1.2, [330, 325]),
  ...fridays([2026, 2, 13], 'Nile tilapia', 'kg', 7.5, [165, 175, 0, 0, 0, 0, 160, 175]),
  ...fridays([2026, 2, 6], 'parsley', 'bunch', 1.3, [85, 90, 80, 95, 90, 85, 90, 95, 90, 85]),
  ...fridays([2026, 2, 27], 'kale', 'bunch', 1.6, [24, 26, 25, 28, 26, 27, 24]),
  ...fridays([2026, 3, 6], 'Swiss chard', 'bunch', 1.5, [63, 66, 69, 72, 66, 78]),
  ...fridays([2026, 3, 20], 'basil', 'bunch', 1.6, [140, 150, 155, 150]),
].sort((a, b) => a.date.localeCompare(b.date));

/** Fish and mean weights of the tanks are those of the rows below on the day of the plan. */
const fishLog = [
  ['2025-07-28', 'Tank 4', 'stocked', 495, 50],
  ['2025-08-06', 'Tank 4', 'died', 14],
  ['2025-09-08', 'Tank 5', 'stocked', 470, 50],
  ['2025-09-17', 'Tank 5', 'died', 12],
  ['2025-10-15', 'Tank 4', 'died', 11],
  ['2025-10-20', 'Tank 1', 'stocked', 650, 50],
  ['2025-11-03', 'Tank 4', 'weighed', 30, 285],
  ['2025-11-05', 'Tank 1', 'died', 12],
  ['2025-11-24', 'Tank 5', 'died', 8],
  ['2025-12-01', 'Tank 2', 'stocked', 650, 50],
  ['2025-12-08', 'Tank 5', 'weighed', 30, 248],
  ['2025-12-09', 'Tank 2', 'died', 9],
  ['2025-12-20', 'Tank 1', 'died', 8],
  ['2026-01-12', 'Tank 3', 'stocked', 655, 50],
  ['2026-01-19', 'Tank 1', 'weighed', 30, 244],
  ['2026-01-20', 'Tank 3', 'died', 8],
  ['2026-02-03', 'Tank 2', 'died', 11],
  ['2026-02-09', 'Tank 2', 'weighed', 30, 184],
  ['2026-02-09', 'Tank 4', 'weighed', 30, 700],
  ['2026-02-11', 'Tank 1', 'died', 10],
  ['2026-02-13', 'Tank 4', 'sold', 220, 750],
  ['2026-02-20', 'Tank 4', 'sold', 250, 700],
  ['2026-02-23', 'Tank 4', 'stocked', 660, 35],
  ['2026-03-02', 'Tank 3', 'died', 7],
  ['2026-03-04', 'Tank 4', 'died', 5],
  ['2026-03-16', 'Tank 1', 'weighed', 30, 478],
  ['2026-03-16', 'Tank 2', 'weighed', 30, 302],
  ['2026-03-16', 'Tank 3', 'weighed', 30, 158],
  ['2026-03-23', 'Tank 5', 'weighed', 30, 710],
  ['2026-03-27', 'Tank 5', 'sold', 200, 800],
  ['2026-04-03', 'Tank 5', 'sold', 250, 700],
  ['2026-04-13', 'Tank 1', 'weighed', 30, 640],
  ['2026-04-13', 'Tank 2', 'weighed', 30, 430],
  ['2026-04-13', 'Tank 3', 'weighed', 30, 235],
  ['2026-04-13', 'Tank 4', 'weighed', 40, 95],
  ['2026-04-20', 'Tank 5', 'stocked', 650, 50, 'planned'],
  ['2026-05-04', 'Tank 1', 'sold', 300, 720, 'planned'],
].map(([date, tank, what, fish, weight, planned]) => ({
  date,
  tank,
  what,
  fish,
  ...(weight !== undefined && { weight }),
  ...(planned !== undefined && { planned }),
}));

/** The rest of the year as `ahead --demo --fish` planned it, each row with the mark of the planner. */
const fishAhead = (
  [
    ['2026-05-05', 'Tank 1', 'sold', 316, '', '10igwfw'],
    ['2026-06-02', 'Tank 2', 'sold', 621, '', '0pa9hip'],
    ['2026-06-23', 'Tank 1', 'stocked', 573, 50, '1p83woh'],
    ['2026-07-14', 'Tank 3', 'sold', 623, '', '1av2n3d'],
    ['2026-08-11', 'Tank 2', 'stocked', 566, 50, '0tf2uwi'],
    ['2026-08-25', 'Tank 4', 'moved', 315, 'Tank 3', '0uty864'],
    ['2026-09-22', 'Tank 4', 'sold', 312, '', '1we86um'],
    ['2026-09-22', 'Tank 3', 'sold', 312, '', '06dsfd5'],
    ['2026-09-29', 'Tank 3', 'stocked', 642, 50, '1snsz84'],
    ['2026-10-06', 'Tank 5', 'moved', 309, 'Tank 4', '1pwkvkf'],
    ['2026-10-27', 'Tank 5', 'sold', 308, '', '19ax9ey'],
    ['2026-10-27', 'Tank 4', 'sold', 307, '', '1pq0snu'],
    ['2026-10-27', 'Tank 4', 'stocked', 605, 50, '18b18pc'],
    ['2026-12-22', 'Tank 5', 'stocked', 670, 50, '0uhm73f'],
    ['2027-01-05', 'Tank 1', 'sold', 541, '', '0d2hjve'],
    ['2027-01-19', 'Tank 1', 'stocked', 566, 50, '1yyrwyc'],
    ['2027-03-02', 'Tank 2', 'sold', 534, '', '0mi5313'],
    ['2027-03-23', 'Tank 2', 'stocked', 290, 50, '0o0dppv'],
    ['2027-03-30', 'Tank 3', 'sold', 609, '', '1omsc1k'],
    ['2027-03-30', 'Tank 3', 'stocked', 323, 50, '12yfvaz'],
  ] as const
).map(([date, tank, what, fish, to, mark]) => ({
  date,
  tank,
  what,
  fish,
  ...(what === 'moved' && { toTank: to }),
  ...(what === 'stocked' && { weight: to, lot: `stocked ${date}` }),
  planned: 'planned',
  remark: `${FISH_REMARK} ${mark}`,
}));

/** Of the year and week in which it was sown: lettuce 26/07. */
const batchName = (crop: string, sown: string): string => {
  const day = serialFromIsoText(sown) as number;
  const { year, week } = isoWeek(day);
  return `${crop} ${String(year).slice(2)}/${String(week).padStart(2, '0')}`;
};

/** The lettuce that stood before on each pair of rafts, by the Friday on which it was cut. */
const lettuceBefore = [4, 5, 6, 1, 2, 3, 4, 5, 6].flatMap((pair, i) => {
  const cut = serialOf({ year: 2026, month: 2, day: 6 }) + 7 * i;
  const [planted, sown] = [isoText(cut - 39), isoText(cut - 60)];
  return [2 * pair - 1, 2 * pair].map((number) => ({
    batch: batchName('lettuce', sown),
    crop: 'lettuce',
    seeds: 200,
    sown,
    up: isoText(cut - 56),
    bed: `R${String(number).padStart(2, '0')}`,
    plants: 170,
    planted,
    firstCut: isoText(cut),
    cleared: isoText(cut),
  }));
});

const beds = [...lettuce, ...herbs, ...fruiting];

/** Basil from which bunches were sold already. */
const cutAlready: Readonly<Record<string, string>> = { R13: '2026-03-20', R14: '2026-04-10' };

const plantings = [
  ...lettuceBefore,
  ...beds
    .flatMap(({ name: bed, crop, plants, sown, planted }: ReturnType<typeof raft>) =>
      crop === undefined || sown === undefined
        ? []
        : [
            {
              batch: batchName(crop, sown),
              crop,
              sown,
              bed,
              plants,
              ...(planted && { planted }),
              ...(cutAlready[bed] !== undefined && { firstCut: cutAlready[bed] }),
            },
          ],
    )
    .sort((a, b) => a.sown.localeCompare(b.sown)),
  { crop: 'lettuce', seeds: 400, sown: '2026-04-20', bed: 'R01', plants: 170, planned: 'planned' },
  { crop: 'lettuce', sown: '2026-04-20', bed: 'R02', plants: 170, planned: 'planned' },
];

/**
 * Four weeks of feed between two weighings, from so many kg a day to so many. Nobody eats on the day before he is
 * weighed or sold.
 */
const feedLog = Array.from({ length: 28 }, (_, day) => day).flatMap((day) =>
  (
    [
      ['Tank 1', 5.4, 6.8, [27]],
      ['Tank 2', 4.3, 5.5, [27]],
      ['Tank 3', 2.4, 3.4, [27]],
      ['Tank 4', 1.2, 2.1, [27]],
      ['Tank 5', 4.4, 3.6, [10, 17]],
    ] as const
  )
    .filter(([tank]) => tank !== 'Tank 5' || day < 18)
    .map(([tank, from, to, fasts]) => {
      const isFast = (fasts as readonly number[]).includes(day);
      return {
        date: isoText(serialOf({ year: 2026, month: 3, day: 16 }) + day),
        tank,
        given: isFast ? 0 : Math.round(10 * (from + ((to - from) * day) / 26)) / 10,
        ...(!isFast && { feed: 'grower 3 mm, lot 26/02' }),
      };
    }),
);

const treatments = [
  {
    date: '2026-03-05',
    where: 'Tank 2',
    what: 'salt bath, 10 minutes in a tub',
    amount: '10 g/L',
    wait: 0,
    remark: 'scales rubbed off while grading',
  },
  {
    date: '2026-03-24',
    where: 'G10',
    what: 'predatory mites against spider mites',
    amount: '500 on the bed',
    wait: 0,
  },
];

export const demoFarm = {
  name: 'Quillwater',
  units: 'metric',
  currency: 'EUR',
  asOf: '2026-04-13',
  site: {
    place: 'Invented: a tunnel on a river plain',
    latitude: 44.2,
    altitude: 85,
    trellis: 2.2,
    houseVolume: 2400,
  },
  months,
  water: { total: 118000, sump: 18000, salinity: 0 },
  filter: { media: 1500, specificSurface: 500 },
  feed: { protein: 0.34, price: 1.65 },
  stock: {
    species: 'Nile tilapia',
    wanted: 330,
    startWeight: 50,
    harvestWeight: 700,
    survival: 0.95,
    fingerlingPrice: 0.35,
    fishPrice: 7.5,
  },
  tanks: [
    tank(1, 620, 640, '2025-10-20'),
    tank(2, 630, 430, '2025-12-01'),
    tank(3, 640, 235, '2026-01-12'),
    tank(4, 655, 95, '2026-02-23'),
    tank(5, 0, undefined),
  ],
  beds,
  // Small bunches for the market: five of a basil plant of 0.18 kg, three of a chard of 0.33 kg, six of a kale of 0.6 kg.
  crops: {
    basil: { bunch_weight: 36 },
    'Swiss chard': { bunch_weight: 110 },
    kale: { bunch_weight: 100 },
  },
  markets: [
    {
      crop: 'lettuce',
      unit: 'piece',
      perWeek: 320,
      price: 1.2,
      every: 7,
      firstHarvest: '2026-05-06',
      cells: 128,
    },
    {
      crop: 'basil',
      unit: 'bunch',
      perWeek: 150,
      price: 1.6,
      every: 21,
      firstHarvest: '2026-05-18',
      cells: 72,
    },
    {
      crop: 'Swiss chard',
      unit: 'bunch',
      perWeek: 66,
      price: 1.5,
      every: 42,
      firstHarvest: '2026-05-27',
      cells: 72,
    },
    {
      crop: 'pak choi',
      unit: 'piece',
      perWeek: 35,
      price: 1.4,
      every: 14,
      firstHarvest: '2026-05-14',
      cells: 72,
    },
    {
      crop: 'tomato',
      unit: 'kg',
      perWeek: 20,
      price: 3.2,
      every: 120,
      firstHarvest: '2026-08-17',
      cells: 50,
    },
    {
      crop: 'cucumber',
      unit: 'kg',
      perWeek: 10,
      price: 2.4,
      every: 42,
      firstHarvest: '2026-06-03',
      cells: 50,
    },
    {
      crop: 'kale',
      unit: 'bunch',
      perWeek: 26,
      price: 1.6,
      every: 60,
      firstHarvest: '2026-07-20',
      cells: 72,
    },
  ],
  fishLog: [...fishLog, ...fishAhead],
  plantings,
  feedLog,
  treatments,
  waterTests,
  harvests,
  costs: [
    { item: 'Electricity', perMonth: 520 },
    { item: 'Heating', perMonth: 310 },
    { item: 'Labour', perMonth: 2600 },
    { item: 'Seed, plugs and trays', perMonth: 95 },
    { item: 'Packaging and market', perMonth: 240 },
    { item: 'Water tests, bases, iron', perMonth: 60 },
    { item: 'Repairs, insurance, film', perMonth: 280 },
  ],
} as const;
