import { oxygenToHold } from '../core/fish-oxygen';
import { serialOf } from '../core/serial-date';
import { presetOf, type PresetName } from '../plan/presets';
import type { UnitSystem } from '../plan/quantities';
import { ask } from './ask-functions';
import { BED_DEPTH, type BedGroup } from './bed-size';
import { roundedUpShown } from './figure-words';
import type { FishSize } from './fish-size';

/** Filter, settler, pumps, pipes, sump and air for fish and beds, with the presets of the plan's own sheets. */

/** m. Common practice: a plant room beside the tanks. */
export const PIPE_LENGTH = 15;
export const LIFT = 1.5;
/** m2/m3: moving plastic media. Common practice, check with the supplier. */
export const MEDIA_SURFACE = 500;
/** Inner widths of pipe in the trade, mm. */
export const bores = [20, 25, 32, 40, 50, 63, 75, 90, 110, 140, 160, 200, 250, 315, 400, 500, 630];
const drains = [75, 100, 110, 125, 160, 200, 250, 315, 400, 500, 630, 800];
/** A pipe that costs less head than this is wide enough, m. Common practice. */
export const MAX_LOSS = 0.5;
/** m3/h on a m2 of settler. Common practice; SOLIDS.SETTLED asks for 5 and less. */
export const SETTLER_LOAD = 3;
/** Over what the sump must hold: SUMP.VOLUME asks for a tenth at least. */
export const SPARE = 0.1;
/** Crop coefficient of open water to 2 m deep: FAO-56, Table 12. */
export const OPEN_WATER = 1.05;

export const preset = (name: PresetName): number => {
  const { usual } = presetOf(name);
  if (typeof usual !== 'number') throw new Error(`${name} is not preset to a number`);
  return usual;
};

export interface PlantRoomWish {
  readonly fish: FishSize;
  readonly beds: readonly BedGroup[];
  /** Feed of each month over that at the year's mean water. */
  readonly feedShares: readonly number[];
  readonly water: readonly number[];
  readonly protein: number;
  /** mg/L of ammonia nitrogen that the species bears. */
  readonly tanMost: number;
  /** mg/L of oxygen that it needs at least. */
  readonly oxygenLeast: number;
  readonly months: readonly { readonly high?: number; readonly low?: number }[];
  readonly latitude: number | undefined;
  readonly altitude: number;
  readonly solidsStay: boolean;
  readonly year: number;
  readonly units: UnitSystem;
}

export interface FilterSize {
  /** L; 0 where the beds take up all the ammonia. */
  readonly media: number;
  /** m2; undefined where the solids stay in the beds. */
  readonly settler?: number;
  /** g/day in the month that they eat most. */
  readonly ammonia: number;
  readonly byBeds: number;
}

export const areaOf = (beds: readonly BedGroup[], kind: BedGroup['kind']): number =>
  beds.reduce((sum, bed) => sum + (bed.kind === kind ? bed.area : 0), 0);

function filterSize(wish: PlantRoomWish): FilterSize {
  const { fish, beds, protein, tanMost } = wish;
  let worst = { media: 0, ammonia: 0, byBeds: 0 };
  wish.feedShares.forEach((share, month) => {
    if (share === 0) return;
    const water = wish.water[month] as number;
    const ammonia = ask('LOAD.TAN', fish.peakFeed * share, protein);
    const rafts = ask('FILTER.BEDS', areaOf(beds, 'raft'), 'raft', water, tanMost);
    const solids = wish.solidsStay ? 1 : 0;
    const gravel = ask(
      'FILTER.BEDS',
      areaOf(beds, 'gravel'),
      'gravel',
      water,
      tanMost,
      solids,
      BED_DEPTH.gravel,
    );
    const left = Math.max(0, ammonia - rafts - gravel);
    const media = ask('FILTER.MEDIA', left, MEDIA_SURFACE, null, water, tanMost);
    if (ammonia > worst.ammonia) worst = { ...worst, ammonia, byBeds: rafts + gravel };
    if (media > worst.media) worst = { media, ammonia, byBeds: rafts + gravel };
  });
  return { ...worst, media: roundedUpShown(worst.media, 'volume', wish.units) };
}

/** m2; a tub is the least that settles anything. */
export const MIN_SETTLER = 0.05;

const settlerArea = (flow: number, units: UnitSystem): number =>
  roundedUpShown(Math.max(MIN_SETTLER, flow / 1000 / SETTLER_LOAD), 'area', units);

export interface PumpSize {
  /** L/h through one tank, and through all. */
  readonly flow: number;
  readonly allFlow: number;
  /** mm */
  readonly bore: number;
  /** m of head in the pipe. */
  readonly loss: number;
  /** W of all pumps. */
  readonly watts: number;
  /** mm of the common return, and how many of them. */
  readonly drain: number;
  readonly drains: number;
}

function pumpSize({ fish, water }: PlantRoomWish): PumpSize {
  const warm = fish.water;
  const turns = preset('Pump_turns');
  const largest = Math.max(...fish.tanks);
  const flow = ask('FLOW.TURNOVER', largest, turns);
  const fittings = ask(
    'FLOW.FITTINGS',
    preset('Pump_elbows'),
    null,
    null,
    null,
    preset('Pump_valves'),
    null,
    1,
    1,
  );
  const lossIn = (bore: number): number =>
    ask(
      'FLOW.HEADLOSS',
      flow,
      bore,
      PIPE_LENGTH,
      Math.max(0, Math.min(...water, warm)),
      null,
      fittings,
    );
  const bore = bores.find((size) => lossIn(size) <= MAX_LOSS) ?? (bores.at(-1) as number);
  const loss = lossIn(bore);
  const allFlow = fish.tanks.reduce((sum, litres) => sum + ask('FLOW.TURNOVER', litres, turns), 0);
  const slope = preset('Plant_drain_slope');
  // The plan counts a return at half of what it carries clean.
  const carries = (size: number): number => ask('FLOW.DRAIN', size, slope) / 2;
  const drain = drains.find((size) => carries(size) >= allFlow) ?? (drains.at(-1) as number);
  return {
    flow,
    allFlow,
    bore,
    loss,
    drain,
    drains: Math.max(1, Math.ceil(allFlow / carries(drain) - 1e-9)),
    watts: ask('FLOW.WATTS', allFlow, LIFT + loss, preset('Pump_efficiency')),
  };
}

export interface SumpSize {
  /** L */
  readonly sump: number;
  readonly total: number;
  readonly flooded: number;
}

/** What a square metre of open water loses in a day of a month, L. */
export const openWaterLoss = (
  { high, low }: { readonly high: number; readonly low: number },
  latitude: number,
  { year, month }: { readonly year: number; readonly month: number },
): number =>
  ask('WATER.USE', 1, high, low, latitude, serialOf({ year, month, day: 15 }), OPEN_WATER);

/** Most water that open tanks evaporate in a day of any month, L; undefined where the months are not known. */
function evaporation({ fish, months, latitude, year }: PlantRoomWish): number | undefined {
  if (
    latitude === undefined ||
    months.some(({ high, low }) => high === undefined || low === undefined)
  )
    return undefined;
  const surface =
    fish.tanks.reduce((sum, litres) => sum + litres, 0) / 1000 / preset('Plant_tank_depth');
  const days = months.map(
    ({ high = 0, low = 0 }, month) =>
      surface * openWaterLoss({ high, low }, latitude, { year, month: month + 1 }),
  );
  return Math.max(...days);
}

function sumpSize(wish: PlantRoomWish, pump: PumpSize): SumpSize | undefined {
  const { fish, beds, units } = wish;
  const lost = evaporation(wish);
  if (lost === undefined) return undefined;
  const gravel = areaOf(beds, 'gravel');
  const pipes = fish.tanks.length * ask('PIPE.VOLUME', pump.bore, PIPE_LENGTH);
  const flooded =
    gravel === 0
      ? 0
      : ask(
          'FLOOD.VOLUME',
          gravel * preset('Flood_together'),
          BED_DEPTH.gravel as number,
          preset('Flood_voids'),
        );
  const sump = roundedUpShown(
    ask('SUMP.VOLUME', pipes, flooded, preset('Plant_submerged'), lost, SPARE),
    'volume',
    units,
  );
  const rafts = areaOf(beds, 'raft') * (BED_DEPTH.raft as number) * 1000;
  const tanks = fish.tanks.reduce((sum, litres) => sum + litres, 0);
  return {
    sump,
    flooded,
    // What floods the gravel comes out of the sump.
    total: roundedUpShown(tanks + rafts + pipes + sump, 'volume', units),
  };
}

export interface AirSize {
  /** mg/L of oxygen that it holds. */
  readonly level: number;
  /** m3/h for one tank just before its harvest, after feeding. */
  readonly perTank: number;
  readonly all: number;
  /** g/h of oxygen that it brings. */
  readonly use: number;
  /** W */
  readonly blower: number;
  /** Minutes until the fullest tank is short of oxygen when all stops. */
  readonly minutes: number;
}

function airSize({ fish, water, oxygenLeast, altitude, units }: PlantRoomWish): AirSize {
  const warmest = Math.min(40, Math.max(...water));
  const level = oxygenToHold([oxygenLeast]);
  const use =
    ask('OXYGEN.FISH', fish.harvested, fish.harvestWeight, fish.species, warmest) *
    preset('Plant_peak');
  const depth = preset('Plant_stone_depth');
  const perTank = roundedUpShown(
    ask(
      'AIR.DIFFUSED',
      use,
      depth,
      warmest,
      level,
      preset('Plant_dissolved'),
      null,
      null,
      null,
      0,
      altitude,
    ),
    'airFlow',
    units,
  );
  const all = perTank * fish.tanks.length;
  return {
    level,
    perTank,
    all,
    use,
    blower: ask('AIR.BLOWER', all, depth),
    minutes: ask(
      'OXYGEN.MINUTES',
      Math.max(...fish.tanks),
      level,
      fish.species,
      use,
      null,
      preset('Plant_bacteria'),
    ),
  };
}

export interface PlantRoomSize {
  readonly filter: FilterSize;
  readonly pump: PumpSize;
  readonly sump?: SumpSize | undefined;
  readonly air?: AirSize;
  /** What could not be said, in sentences. */
  readonly gaps: readonly string[];
}

export function plantRoomSize(
  wish: PlantRoomWish,
  sentence: (thrown: unknown) => string,
): PlantRoomSize {
  const pump = pumpSize(wish);
  const filter = filterSize(wish);
  const gaps: string[] = [];
  const sump = sumpSize(wish, pump);
  if (sump === undefined)
    gaps.push(
      'The sump stays blank: what the tanks evaporate needs the latitude and the coldest and warmest month.',
    );
  let air: AirSize | undefined;
  try {
    air = airSize(wish);
  } catch (thrown) {
    gaps.push(`The air of the tanks stays blank: ${sentence(thrown)}.`);
  }
  const settler = wish.solidsStay ? {} : { settler: settlerArea(pump.allFlow, wish.units) };
  return { pump, filter: { ...filter, ...settler }, sump, ...(air && { air }), gaps };
}
