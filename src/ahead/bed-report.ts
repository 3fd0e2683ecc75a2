/** A plan of the beds as data: what a program reads from a report. Dates are yyyy-mm-dd, weeks as 2026-W31. */
import { EVEN_SHARE } from '../core/feed-area';
import { isoText, isoWeekText } from '../core/serial-date';
import { seedsToSow } from '../core/seed';
import type { Farm } from '../plan/farm';
import { shownIn, toShown } from '../plan/quantities';
import type { BedPlan, CropOutlook } from './bed-plan';
import { marketCount } from '../plan/market-words';
import { cropOf } from './own-tables';
import type { PlannedBatch, Season } from './season';
import { feedCalled } from './shortfall';

const rounded = (figure: number, places = 2): number => Number(figure.toFixed(places));

/** Share of the weeks in which a crop is wanted and there is enough of it; 1 where nothing is wanted. */
export function shareOfWeeksServed({ outlook }: Pick<BedPlan, 'outlook'>): number {
  const wanted = outlook.flatMap(({ weeks }) => weeks.filter(({ wanted }) => wanted > 0));
  const served = wanted.filter(({ wanted, supply }) => supply >= wanted - 1e-6);
  return wanted.length === 0 ? 1 : served.length / wanted.length;
}

/** Share of the units wanted that is there, in the mean of the crops that are wanted at all. */
export function shareServed(outlook: readonly CropOutlook[]): number {
  const shares = outlook.flatMap(({ weeks, short }) => {
    const units = weeks.reduce((sum, week) => sum + week.wanted, 0);
    return units === 0 ? [] : [(units - short) / units];
  });
  return shares.length === 0 ? 1 : shares.reduce((sum, share) => sum + share, 0) / shares.length;
}

/** Money for what is there and wanted, and for what is short and beyond, where prices are typed. */
export function moneyOf(outlook: readonly CropOutlook[], season: Season) {
  const sum = (of: (outlook: CropOutlook) => number): number =>
    outlook.reduce((all, crop, c) => all + of(crop) * (season.crops[c]?.price ?? 0), 0);
  return {
    sold: sum(({ weeks, short }) => weeks.reduce((all, { wanted }) => all + wanted, 0) - short),
    short: sum(({ short }) => short),
    surplus: sum(({ surplus }) => surplus),
  };
}

/** Seeds for so many plants of a crop, by the market's own figures where they are typed. */
export function seedsFor(farm: Farm, crop: string, plants: number): number {
  const own = farm.markets.find((market) => market.crop === crop);
  const { facts } = cropOf(farm, crop);
  const germination = own?.germination ?? facts.germination[facts.germination.length === 2 ? 0 : 1];
  return seedsToSow(plants, germination as number, own?.losses ?? 0);
}

/** Wishes that a plan does not keep, in sentences. */
export function wishesGivenUp(season: Season, plan: BedPlan): string[] {
  const given: string[] = plan.outlook.flatMap(({ crop, short, unit, why }) =>
    why === undefined ? [] : [`${crop}: ${marketCount(rounded(short, 0), unit)} short: ${why}`],
  );
  const called = feedCalled(season, plan.plantings);
  const off = (beyond: boolean): number =>
    (season.feed ?? [])
      .slice(0, season.weeks)
      .filter((feed, week) =>
        beyond
          ? (called[week] ?? 0) > feed * (1 + EVEN_SHARE) + 1e-6
          : (called[week] ?? 0) < feed * (1 - EVEN_SHARE) - 1e-6,
      ).length;
  const aim = `${Math.round(100 * EVEN_SHARE)} %`;
  const [above, below] = [off(true), off(false)];
  if (above > 0) {
    given.push(
      `in ${above} of ${season.weeks} weeks the beds call for over ${aim} more feed than is given`,
    );
  }
  if (below > 0) {
    given.push(
      `in ${below} of ${season.weeks} weeks the beds call for over ${aim} less feed than is given; whether that is in balance still, the Balance sheet says`,
    );
  }
  if (season.rotate) {
    const last = new Map(season.beds.map(({ name, family }) => [name, family]));
    let after = 0;
    for (const { bed, crop } of plan.plantings) {
      const family = season.crops.find(({ name }) => name === crop)?.family;
      if (family !== undefined && last.get(bed) === family) after++;
      last.set(bed, family);
    }
    if (after > 0) given.push(`${after} plantings follow their own family in a bed`);
  }
  return given;
}

export function bedReport(farm: Farm, season: Season, plan: BedPlan, notes: readonly string[]) {
  const { units } = farm;
  const called = feedCalled(season, plan.plantings);
  const money = moneyOf(plan.outlook, season);
  return {
    from: isoText(season.from),
    weeks: season.weeks,
    units: { area: shownIn('area', units).unit, feed: shownIn('feedDay', units).unit },
    currency: farm.currency,
    plantings: plan.plantings.map(
      ({ crop, bed, plants, area, sown, plantedOut, firstCut, cleared }: PlannedBatch) => ({
        crop,
        bed,
        plants,
        seeds: seedsFor(farm, crop, plants),
        area: rounded(toShown(area, 'area', units)),
        sown: isoText(sown),
        plantedOut: isoText(plantedOut),
        firstCut: isoText(firstCut),
        cleared: isoText(cleared),
      }),
    ),
    market: plan.outlook.map(({ crop, unit, short, surplus, why, weeks }, c) => ({
      crop,
      unit,
      ...(season.crops[c]?.price !== undefined && { price: rounded(season.crops[c].price) }),
      short: rounded(short),
      surplus: rounded(surplus),
      ...(why !== undefined && { why }),
      weeks: weeks.map(({ week, wanted, supply }) => ({
        week: isoWeekText(week),
        wanted: rounded(wanted),
        supply: rounded(supply),
      })),
    })),
    // g/day or lb/day: what the beds call for, and what the fish are given where it is known.
    feed: Array.from({ length: season.weeks }, (_, week) => ({
      week: isoWeekText(season.from + 7 * week),
      called: rounded(toShown(called[week] ?? 0, 'feedDay', units)),
      ...(season.feed && { given: rounded(toShown(season.feed[week] ?? 0, 'feedDay', units)) }),
    })),
    weeksServed: rounded(shareOfWeeksServed(plan), 3),
    share: rounded(shareServed(plan.outlook), 3),
    money: {
      sold: rounded(money.sold),
      short: rounded(money.short),
      surplus: rounded(money.surplus),
    },
    emptyBedWeeks: rounded(plan.emptyBedWeeks, 1),
    status: plan.status,
    // What the plan costs by season-value.ts (below 0: what it brings), what no plan can cost less than.
    objective: rounded(plan.objective),
    bound: Number.isFinite(plan.bound) ? rounded(plan.bound) : null,
    gap: Number.isFinite(plan.gap) ? rounded(plan.gap, 4) : null,
    seconds: rounded(plan.seconds, 1),
    givenUp: wishesGivenUp(season, plan),
    reasons:
      plan.gap <= 0.02
        ? []
        : [
            plan.status === 'stopped'
              ? 'the search was stopped before more was proven'
              : `a better plan may be possible but was not found in ${Math.round(plan.seconds)} seconds: give more time`,
          ],
    notes: [
      ...notes,
      `planned from Monday ${isoText(season.from)} for ${season.weeks} weeks; the ${season.horizon - season.weeks} weeks after them were looked at, too, so that the last weeks are planted as if the farm went on`,
      ...(season.feed === undefined ? ['feed was not weighed: the beds follow the market'] : []),
    ],
  };
}

export type BedReport = ReturnType<typeof bedReport>;
