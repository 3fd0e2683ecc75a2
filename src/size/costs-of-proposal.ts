import { EVAPORATION_HEAT } from '../core/month-heat';
import { calendarDate, serialOf } from '../core/serial-date';
import { MONTH } from '../core/stocking';
import { toShown } from '../plan/quantities';
import { ask } from './ask-functions';
import type { BedGroup } from './bed-size';
import { FREEZING } from './climate-of-wish';
import type { Proposal } from './proposal';
import { areaOf, openWaterLoss, preset } from './water-size';

/** What a proposal costs to build and in a year, and what it brings, as far as its wish says prices. */

const YEAR = 12;
/** kWh a year of a watt that never rests. */
export const KWH_OF_A_WATT = 8.76;

const sumOf = (values: readonly (number | undefined)[]): number | undefined => {
  const known = values.filter((value): value is number => value !== undefined);
  return known.length === 0 ? undefined : known.reduce((all, value) => all + value, 0);
};

const times = (amount: number | undefined, price: number | undefined): number | undefined =>
  amount === undefined || price === undefined ? undefined : amount * price;

/** kWh that pumps and blower draw in a year; undefined as long as the air is not known. */
export function powerOf({ room }: Proposal): number | undefined {
  return room?.air && KWH_OF_A_WATT * (room.pump.watts + room.air.blower);
}

/**
 * kWh that the tanks lose in the months in which their water is warmer than the air, as if all of it were bought:
 * through round walls and the surface, and by evaporation.
 */
export function heatOf({ fish, climate, wish }: Proposal): number | undefined {
  const { water, air, months } = climate;
  const { latitude } = wish;
  if (fish === undefined || water === undefined || air === undefined || latitude === undefined)
    return undefined;
  const depth = preset('Plant_tank_depth');
  const surface = fish.tanks.reduce((all, litres) => all + litres, 0) / 1000 / depth;
  const sides = surface + 2 * depth * Math.sqrt(Math.PI * surface * fish.tanks.length);
  const { year } = calendarDate(wish.asOf);
  return months.reduce((all, { high = 0, low = 0 }, i) => {
    const degrees = water[i] as number;
    if (degrees <= (air[i] as number) || degrees <= FREEZING) return all;
    const days =
      serialOf({ year, month: i + 2, day: 1 }) - serialOf({ year, month: i + 1, day: 1 });
    const lost = ask(
      'HEAT.MONTH',
      sides,
      preset('Plant_tank_loss'),
      0,
      0,
      degrees,
      high,
      low,
      days,
    );
    const evaporated = surface * openWaterLoss({ high, low }, latitude, { year, month: i + 1 });
    return all + lost + (evaporated * days * EVAPORATION_HEAT) / 3.6;
  }, 0);
}

/** Hours of work in a week. */
export const workOf = ({ fish, beds, wish }: Proposal): number | undefined =>
  sumOf([
    times(fish?.tanks.length, wish.work.tank),
    times(
      beds.reduce((all, { area }) => all + area, 0),
      wish.work.bed,
    ),
  ]);

/** Of what is priced. */
export function buildingCost({ fish, beds, room, wish }: Proposal): number | undefined {
  const { prices } = wish;
  return sumOf([
    times(
      fish?.tanks.reduce((all, litres) => all + litres, 0),
      prices.tanks,
    ),
    ...(['raft', 'gravel', 'film'] as const).map((kind) => times(areaOf(beds, kind), prices[kind])),
    times(room?.filter.media, prices.media),
    times(room?.sump?.sump, prices.sump),
    prices.rest,
  ]);
}

/** Finer than what is shown, so that a year of them is what the variants say. */
const rounded = (value: number): number => Math.round(1e4 * value) / 1e4;

/** The costs of a month as the plan lists them; feed and fingerlings it reckons itself. */
export function monthlyCosts(proposal: Proposal): { item: string; perMonth: number }[] {
  const { wish } = proposal;
  const perYear: readonly (readonly [string, number | undefined])[] = [
    ['Power of pumps and blower', times(powerOf(proposal), wish.prices.power)],
    ['Heat of the tanks', times(heatOf(proposal), wish.prices.heat)],
    ['Work', times(workOf(proposal), times(wish.prices.work, (MONTH * YEAR) / 7))],
    ['Wear of what was built', wish.years && times(buildingCost(proposal), 1 / wish.years)],
    ['All other costs', times(YEAR, wish.otherCosts)],
  ];
  return perYear.flatMap(([item, cost]) =>
    cost === undefined ? [] : [{ item, perMonth: rounded(cost / YEAR) }],
  );
}

/** Prices of the list of what to buy: of a tank, of a bed of each kind in the mean, of a litre. */
export function itemPrices({
  fish,
  beds,
  wish,
  units,
}: Proposal): Readonly<Record<string, number>> {
  const { prices } = wish;
  const mean = (kind: BedGroup['kind']): number | undefined => {
    const count = beds.reduce((all, bed) => (bed.kind === kind ? all + bed.count : all), 0);
    return count === 0 ? undefined : times(areaOf(beds, kind) / count, prices[kind]);
  };
  const ofLitre = (price: number | undefined): number | undefined =>
    price === undefined ? undefined : toShown(price, 'pricePerVolume', units);
  const tank = fish && fish.tanks.reduce((all, litres) => all + litres, 0) / fish.tanks.length;
  const found: Readonly<Record<string, number | undefined>> = {
    Plant_price_tanks: times(tank, prices.tanks),
    Plant_price_beds: mean('raft'),
    Plant_price_gravel_beds: mean('gravel'),
    Plant_price_film_beds: mean('film'),
    Plant_price_media: ofLitre(prices.media),
    Plant_price_sump: ofLitre(prices.sump),
  };
  return Object.fromEntries(
    Object.entries(found).flatMap(([name, price]) => (price === undefined ? [] : [[name, price]])),
  );
}
