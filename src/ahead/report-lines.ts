/** Plans of the weeks to come in words, for the terminal and for the pane. */
import { isoText } from '../core/serial-date';
import type { BedReport } from './bed-report';
import type { FishReport } from './fish-report';
import type { OpenBedChoice } from './open-bed';

export const perCent = (share: number): string => `${(100 * share).toFixed(1)} %`;
export const sentence = (text: string): string =>
  `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;

export interface FishLine {
  readonly date: string;
  /** "move from Tank 1 to Tank 2" */
  readonly does: string;
  /** "200 fish of 120 g" */
  readonly fish: string;
}

/** What is to be done, in the order in which it is done on one day: tanks are emptied before others come in. */
export function fishLines({ units, sales, moves, groups }: FishReport): FishLine[] {
  const { weight, mass } = units;
  const fishOf = (fish: number, each: number): string => `${fish} fish of ${each} ${weight}`;
  const heaviest = ({ graded }: { readonly graded?: boolean }): string =>
    graded ? ', the heaviest' : '';
  return [
    ...sales.map((sale) => ({
      date: sale.date,
      does: `sell from ${sale.tank}`,
      fish: `${fishOf(sale.fish, sale.weight)}, ${sale.mass} ${mass}${heaviest(sale)}`,
    })),
    ...moves.map((move) => ({
      date: move.date,
      does: `move from ${move.from} to ${move.to}`,
      fish: `${fishOf(move.fish, move.weight)}${heaviest(move)}`,
    })),
    ...groups.flatMap((group) =>
      group.from === 'stocked'
        ? [
            {
              date: group.date,
              does: `stock ${group.tank}`,
              fish: fishOf(group.fish, group.weight),
            },
          ]
        : [],
    ),
  ].sort((a, b) => a.date.localeCompare(b.date));
}

/** How much is sold, how good the plan is, what was left out and why. */
export const fishSentences = (report: FishReport): string[] => [
  'No feed on the day before fish are moved or sold.',
  `${report.plannedMonth} ${report.units.month} of ${report.wantedMonth} wanted; at most ${perCent(report.gap)} from the best plan of its kind.`,
  ...report.leftOut.map(({ tank, why }) => `${tank}: ${why}.`),
  ...report.reasons.map(sentence),
  ...report.notes.map(sentence),
];

export interface MarketLine {
  readonly crop: string;
  readonly unit: string;
  readonly wanted: number;
  readonly served: number;
  readonly short: number;
  readonly surplus: number;
}

/** What each crop gives against what the market wants, whole units over the weeks of the plan. */
export const marketLines = ({ market }: BedReport): MarketLine[] =>
  market.map(({ crop, unit, short, surplus, weeks }) => {
    const wanted = Math.round(weeks.reduce((sum, week) => sum + week.wanted, 0));
    // What is short and what is there come to what is wanted, whole units too.
    const lacking = Math.min(wanted, Math.round(short));
    return {
      crop,
      unit,
      wanted,
      served: wanted - lacking,
      short: lacking,
      surplus: Math.round(surplus),
    };
  });

/** How well the market is served, how good the plan is. */
export const bedSentences = ({
  weeksServed,
  share,
  emptyBedWeeks,
  money,
  currency,
  gap,
}: BedReport): string[] => [
  `${perCent(weeksServed)} of the market's weeks are served in full, ${perCent(share)} of its units in the mean of the crops; ${emptyBedWeeks} bed-weeks stand empty.`,
  `Sold for ${Math.round(money.sold)} ${currency}; short for ${Math.round(money.short)}, beyond what is wanted for ${Math.round(money.surplus)}, at the prices typed.`,
  gap === null
    ? 'How far it is from the best possible plan is not known.'
    : `At most ${perCent(gap)} from the best possible plan.`,
];

/** A crop for an open bed with its dates and what it is worth. */
export const choiceInWords = (
  { crop, plants, batch, valuePerWeek }: OpenBedChoice,
  currency: string,
): string =>
  `${crop}: ${plants} plants, sown ${isoText(batch.sown)}, out ${isoText(batch.plantedOut)}, first cut ${isoText(batch.firstCut)}; ${valuePerWeek.toFixed(2)} ${currency} for each week in the bed`;

export const nothingForBed = (bed: string): string =>
  `Nothing that the market wants can be planted in ${bed} within the weeks looked at.`;
