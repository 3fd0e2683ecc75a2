import { isoText, serialFromIsoText } from '../../src/core/serial-date';
import { demoFarm } from '../../src/plan/demo-farm';
import { type Farm, readFarm } from '../../src/plan/farm';

/** The demo farm with ten years in its registers. */

/** Rows of ten years in each register. */
const TEN_YEARS = {
  'Fish log': 5000,
  Plantings: 5000,
  'Harvest log': 20_000,
  'Feed log': 18_250,
  Treatments: 300,
  'Water log': 1000,
} as const;

export type Register = keyof typeof TEN_YEARS;

/** A register that is not asked for has a few. */
const FEW = 60;

/** How many rows each register gets: a share of ten years, of all registers or of those that are named. */
export const rowsOfTenYears = (
  share = 1,
  only?: readonly string[],
): Readonly<Record<Register, number>> =>
  Object.fromEntries(
    Object.entries(TEN_YEARS).map(([register, rows]) => [
      register,
      Math.round((only === undefined || only.includes(register) ? rows : FEW) * share),
    ]),
  ) as Record<Register, number>;

const asOf = serialFromIsoText(demoFarm.asOf) as number;
const first = asOf - 3650;
const dayOf = (i: number, of: number): string => isoText(first + Math.floor((i * 3649) / of));

/** Each tank is stocked, loses a few, is weighed and sold, round after round. */
function fishLog(count: number): unknown[] {
  const tanks = demoFarm.tanks.map(({ name }) => name);
  const round = [
    ['stocked', 650, 50],
    ['died', 4],
    ['weighed', 30, 120],
    ['died', 3],
    ['weighed', 30, 260],
    ['died', 2],
    ['weighed', 30, 480],
    ['sold', 200, 640],
    ['weighed', 30, 600],
    ['sold', 441],
  ] as const;
  return Array.from({ length: count }, (_, i) => {
    const [what, heads, weight] = round[
      Math.floor(i / tanks.length) % round.length
    ] as (typeof round)[0];
    return {
      date: dayOf(i, count),
      tank: tanks[i % tanks.length],
      what,
      fish: heads,
      ...(weight !== undefined && { weight }),
    };
  });
}

function batches(count: number): unknown[] {
  const beds = demoFarm.beds.map(({ name }) => name);
  return Array.from({ length: count }, (_, i) => {
    const planted =
      first + Math.floor((Math.floor(i / beds.length) * 3649) / (count / beds.length));
    const isLast = i + beds.length >= count;
    return {
      crop: i % 2 === 0 ? 'lettuce' : 'basil',
      bed: beds[i % beds.length],
      plants: 170,
      sown: isoText(planted - 21),
      planted: isoText(planted),
      ...(!isLast && { cleared: isoText(planted + 33) }),
    };
  });
}

const sales = (count: number): unknown[] =>
  Array.from({ length: count }, (_, i) => ({
    date: dayOf(i, count),
    crop: i % 2 === 0 ? 'lettuce' : 'basil',
    bed: demoFarm.beds[i % demoFarm.beds.length]?.name,
    quantity: 12,
    unit: 'piece',
    price: 1.2,
  }));

const tankOf = (i: number): string => demoFarm.tanks[i % demoFarm.tanks.length]?.name ?? '';

const feedLog = (count: number): unknown[] =>
  Array.from({ length: count }, (_, i) => ({
    date: dayOf(i, count),
    tank: tankOf(i),
    given: 1 + (i % 40) / 10,
  }));

const treatmentsOf = (count: number): unknown[] =>
  Array.from({ length: count }, (_, i) => ({
    date: dayOf(i, count),
    where: i % 2 === 0 ? tankOf(i) : demoFarm.beds[i % demoFarm.beds.length]?.name,
    what: 'soap',
    wait: i % 7,
  }));

const waterTests = (count: number): unknown[] =>
  Array.from({ length: count }, (_, i) => ({
    ...{ date: dayOf(i, count), temperature: 26, ph: 7, tan: 1, nitrite: 0.2, oxygen: 6 },
    alkalinity: 80,
  }));

export const tenYearsFarm = (rows: Readonly<Record<Register, number>>): Farm =>
  readFarm({
    ...demoFarm,
    tanks: demoFarm.tanks.map(({ name, volume, species, bore, pipe, lift, air }) => ({
      ...{ name, volume, species, bore, pipe, lift, air },
    })),
    beds: demoFarm.beds.map(({ name, kind, length, width, depth }) => ({
      ...{ name, kind, length, width },
      ...(depth !== undefined && { depth }),
    })),
    fishLog: fishLog(rows['Fish log']),
    feedLog: feedLog(rows['Feed log']),
    plantings: batches(rows.Plantings),
    harvests: sales(rows['Harvest log']),
    treatments: treatmentsOf(rows.Treatments),
    waterTests: waterTests(rows['Water log']),
  });
