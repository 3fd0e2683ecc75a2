import type { AheadPlanned } from '../../ahead/plan-ahead';
import {
  bedSentences,
  fishLines,
  fishSentences,
  marketLines,
  sentence,
} from '../../ahead/report-lines';
import { isoText, serialFromIsoText } from '../../core/serial-date';
import { h } from '../dom';
import type { PlanChange } from './farm-of-host';
import { tankPicture } from './tank-picture';
import { folded, sentenceList, wideTable } from './words';

const rowWord = (count: number): string => (count === 1 ? '1 row' : `${count} rows`);

/** What the workbook gets and loses, in sentences. */
export function changeSentences(
  { rows, gone, left, day }: PlanChange,
  longer: readonly { readonly sheet: string; readonly more: number }[],
): string[] {
  const lines = [
    ['Fish log', rows.fishLog.length - left.fishLog, gone.fishLog.length],
    ['Plantings', rows.plantings.length - left.plantings, gone.plantings.length],
  ] as const;
  return [
    ...(day === undefined ? [] : [`The day of the plan becomes ${isoText(day)}.`]),
    ...lines.flatMap(([sheet, fresh, back]) =>
      fresh + back === 0
        ? []
        : [
            `${sheet}: ${[
              ...(fresh > 0 ? [`${rowWord(fresh)} added, marked as planned`] : []),
              ...(back > 0
                ? [`${rowWord(back)} of the planner that nobody touched taken out`]
                : []),
            ].join(', ')}.`,
          ],
    ),
    ...longer.map(({ sheet, more }) => `${sheet} becomes ${more} lines longer.`),
    ...(
      [
        ['Fish log', left.fishLog],
        ['Plantings', left.plantings],
      ] as const
    ).flatMap(([sheet, count]) =>
      count === 0
        ? []
        : [
            `${sheet} has no line for the last ${rowWord(count)}, which are left out: plan again when some are done, or plan fewer weeks.`,
          ],
    ),
    'Rows that you typed or changed stay as they are.',
  ];
}

const changesPart = (changes: readonly string[] | undefined): HTMLElement | undefined =>
  changes &&
  folded(
    changes.length === 0
      ? 'Nothing is otherwise than in the plan before'
      : `Otherwise than in the plan before: ${changes.length}`,
    false,
    sentenceList(changes),
  );

function fishPart({ report }: NonNullable<AheadPlanned['fish']>): HTMLElement {
  const { units, tanks, density } = report;
  const days = density.map(({ date }) => serialFromIsoText(date) ?? 0);
  const courses = tanks.map(({ name, limit }) => ({
    name,
    limit,
    density: density.map((week) => week.tanks[name]),
  }));
  const lines = fishLines(report);
  return h(
    'section',
    { 'aria-label': 'Fish' },
    h('h4', {}, 'Fish'),
    sentenceList(fishSentences(report)),
    tankPicture(courses, days, units.density),
    changesPart(report.changes),
    folded(
      `Stockings, moves and sales: ${lines.length}`,
      false,
      wideTable(
        'Stockings, moves and sales',
        ['Day', 'To do', 'Fish'],
        lines.map(({ date, does, fish }) => [date, does, fish]),
      ),
    ),
  );
}

function bedsPart({ report }: NonNullable<AheadPlanned['beds']>): HTMLElement {
  const market = marketLines(report);
  return h(
    'section',
    { 'aria-label': 'Beds and market' },
    h('h4', {}, 'Beds and market'),
    sentenceList(bedSentences(report)),
    wideTable(
      'Market',
      ['Crop', 'Wanted', 'There', 'Short', 'Beyond', 'Unit'],
      market.map(({ crop, unit, wanted, served, short, surplus }) => [
        crop,
        wanted,
        served,
        short,
        surplus,
        unit,
      ]),
    ),
    folded(
      `Wishes that it gives up: ${report.givenUp.length}`,
      report.givenUp.length > 0,
      sentenceList(report.givenUp.map(sentence)),
    ),
    sentenceList(report.reasons.map(sentence)),
    changesPart(report.changes),
    folded(
      `Plantings: ${report.plantings.length}`,
      false,
      wideTable(
        'Plantings',
        ['Out', 'Bed', 'Crop', 'Plants', 'Sown', 'First cut', 'Cleared by'],
        report.plantings.map(({ plantedOut, bed, crop, plants, sown, firstCut, cleared }) => [
          plantedOut,
          bed,
          crop,
          plants,
          sown,
          firstCut,
          cleared,
        ]),
      ),
    ),
    folded(`Notes: ${report.notes.length}`, false, sentenceList(report.notes.map(sentence))),
  );
}

/** A plan as it would be written. */
export const planPreview = ({ fish, beds }: AheadPlanned): HTMLElement =>
  h('div', { class: 'plan-preview' }, fish && fishPart(fish), beds && bedsPart(beds));
