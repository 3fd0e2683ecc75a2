import type { BedReport } from '../ahead/bed-report';
import type { FishReport } from '../ahead/fish-report';
import type { OpenBedChoice } from '../ahead/open-bed';
import { isoText } from '../core/serial-date';

/** Plans of the weeks to come as text for people. */

const perCent = (share: number): string => `${(100 * share).toFixed(1)} %`;
const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;

/** What is otherwise than in the earlier plan. */
const changesText = (changes: readonly string[] | undefined): readonly string[] =>
  changes ? ['', changes.length === 0 ? 'Nothing changes.' : 'Changes:', ...changes] : [];

export function fishText(report: FishReport & { readonly changes?: readonly string[] }): string {
  const { weight, mass, month } = report.units;
  const fishOf = (fish: number, each: number): string => `${fish} fish of ${each} ${weight}`;
  // In the order in which they are done on one day: tanks are emptied before others come in.
  const lines = [
    ...report.sales.map((sale) => [
      sale.date,
      `sell from ${sale.tank}`,
      `${fishOf(sale.fish, sale.weight)}, ${sale.mass} ${mass}`,
    ]),
    ...report.moves.map((move) => [
      move.date,
      `move from ${move.from} to ${move.to}`,
      fishOf(move.fish, move.weight),
    ]),
    ...report.groups.flatMap((group) =>
      group.from === 'stocked'
        ? [[group.date, `stock ${group.tank}`, fishOf(group.fish, group.weight)]]
        : [],
    ),
  ].sort((a, b) => (a[0] as string).localeCompare(b[0] as string));
  return [
    ...lines.map((line) => line.join('\t')),
    '',
    'No feed on the day before fish are moved or sold.',
    `${report.plannedMonth} ${month} of ${report.wantedMonth} wanted; at most ${perCent(report.gap)} from the best plan of its kind.`,
    ...report.leftOut.map(({ tank, why }) => `${tank}: ${why}.`),
    ...report.reasons.map(sentence),
    ...report.notes.map(sentence),
    ...changesText(report.changes),
  ].join('\n');
}

export function bedText(report: BedReport & { readonly changes?: readonly string[] }): string {
  const { currency, money } = report;
  return [
    ['planted out', 'bed', 'crop', 'plants', 'sown', 'first cut', 'cleared by'].join('\t'),
    ...report.plantings.map(({ plantedOut, bed, crop, plants, sown, firstCut, cleared }) =>
      [plantedOut, bed, crop, plants, sown, firstCut, cleared].join('\t'),
    ),
    '',
    ['crop', 'wanted', 'there and wanted', 'short', 'beyond'].join('\t'),
    ...report.market.map(({ crop, unit, short, surplus, weeks }) => {
      const wanted = weeks.reduce((sum, week) => sum + week.wanted, 0);
      const units = (count: number): string => `${Math.round(count)} ${unit}`;
      return [crop, units(wanted), units(wanted - short), units(short), units(surplus)].join('\t');
    }),
    '',
    `${perCent(report.weeksServed)} of the market's weeks are served in full, ${perCent(report.share)} of its units in the mean of the crops; ${report.emptyBedWeeks} bed-weeks stand empty.`,
    `Sold for ${Math.round(money.sold)} ${currency}; short for ${Math.round(money.short)}, beyond what is wanted for ${Math.round(money.surplus)}, at the prices typed.`,
    report.gap === null
      ? 'How far it is from the best possible plan is not known.'
      : `At most ${perCent(report.gap)} from the best possible plan.`,
    ...report.givenUp.map(sentence),
    ...report.reasons.map(sentence),
    ...report.notes.map(sentence),
    ...changesText(report.changes),
  ].join('\n');
}

/** The best crops for one bed now. */
export function openBedText(
  bed: string,
  choices: readonly OpenBedChoice[],
  currency: string,
): string {
  if (choices.length === 0) {
    return `Nothing that the market wants can be planted in ${bed} within the weeks looked at.`;
  }
  return choices
    .map(({ crop, plants, batch, valuePerWeek, reasons }, place) => {
      const worth = `${valuePerWeek.toFixed(2)} ${currency} for each week in the bed`;
      const dates = `sown ${isoText(batch.sown)}, out ${isoText(batch.plantedOut)}, first cut ${isoText(batch.firstCut)}`;
      return `${place + 1}. ${crop}: ${plants} plants, ${dates}; ${worth}\n   ${reasons.join('; ')}`;
    })
    .join('\n');
}
