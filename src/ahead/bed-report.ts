import { isoText, isoWeekText } from '../core/serial-date';
import type { BedPlan } from './bed-plan';
import type { Season } from './season';

/** The plan of the beds for a file: dates as "yyyy-mm-dd", weeks as "2026-W31". */
export interface BedReport {
  readonly from: string;
  readonly weeks: number;
  readonly plantings: readonly {
    readonly crop: string;
    readonly bed: string;
    readonly plants: number;
    readonly area: number;
    readonly sown: string;
    readonly plantedOut: string;
    readonly firstCut: string;
    readonly cleared: string;
  }[];
  readonly market: readonly {
    readonly crop: string;
    readonly unit: string;
    readonly short: number;
    readonly surplus: number;
    /** Why wishes were given up. */
    readonly why?: string;
    readonly weeks: readonly {
      readonly week: string;
      readonly wanted: number;
      readonly supply: number;
    }[];
  }[];
  /** Share of the weeks in which a crop was wanted and all of it is there. */
  readonly weeksServed: number;
  readonly emptyBedWeeks: number;
  readonly status: string;
  readonly objective: number;
  readonly bound: number;
  readonly gap: number;
  readonly seconds: number;
  readonly notes: readonly string[];
}

const rounded = (figure: number, places = 2): number => Number(figure.toFixed(places));

/** Share of the weeks in which a crop is wanted and there is enough of it; 1 where nothing is wanted. */
export function shareOfWeeksServed({ outlook }: Pick<BedPlan, 'outlook'>): number {
  const wanted = outlook.flatMap(({ weeks }) => weeks.filter(({ wanted }) => wanted > 0));
  const served = wanted.filter(({ wanted, supply }) => supply >= wanted - 1e-6);
  return wanted.length === 0 ? 1 : served.length / wanted.length;
}

export function bedReport(season: Season, plan: BedPlan, notes: readonly string[]): BedReport {
  return {
    from: isoText(season.from),
    weeks: season.weeks,
    plantings: plan.plantings.map(({ sown, plantedOut, firstCut, cleared, ...what }) => ({
      ...what,
      area: rounded(what.area),
      sown: isoText(sown),
      plantedOut: isoText(plantedOut),
      firstCut: isoText(firstCut),
      cleared: isoText(cleared),
    })),
    market: plan.outlook.map(({ crop, unit, short, surplus, why, weeks }) => ({
      crop,
      unit,
      short: rounded(short),
      surplus: rounded(surplus),
      ...(why !== undefined && { why }),
      weeks: weeks.map(({ week, wanted, supply }) => ({
        week: isoWeekText(week),
        wanted: rounded(wanted),
        supply: rounded(supply),
      })),
    })),
    weeksServed: rounded(shareOfWeeksServed(plan), 3),
    emptyBedWeeks: rounded(plan.emptyBedWeeks, 1),
    status: plan.status,
    objective: rounded(plan.objective),
    bound: rounded(plan.bound),
    gap: rounded(plan.gap, 4),
    seconds: rounded(plan.seconds, 1),
    notes: [
      ...notes,
      `Planned from Monday ${isoText(season.from)} for ${season.weeks} weeks; the ${season.horizon - season.weeks} weeks after them were looked at, too, so that the last weeks are planted as if the farm went on.`,
      ...(season.feed === undefined ? ['Feed was not weighed: the beds follow the market.'] : []),
    ],
  };
}
