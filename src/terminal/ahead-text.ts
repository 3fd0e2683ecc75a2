import type { BedReport } from '../ahead/bed-report';
import type { FishReport } from '../ahead/fish-report';
import type { OpenBedChoice } from '../ahead/open-bed';
import {
  bedSentences,
  choiceInWords,
  fishLines,
  fishSentences,
  marketLines,
  nothingForBed,
  sentence,
} from '../ahead/report-lines';
import { marketCount } from '../plan/market-words';

/** Plans of the weeks to come as text for people. */

/** What is otherwise than in the earlier plan. */
const changesText = (changes: readonly string[] | undefined): readonly string[] =>
  changes ? ['', changes.length === 0 ? 'Nothing changes.' : 'Changes:', ...changes] : [];

export function fishText(report: FishReport & { readonly changes?: readonly string[] }): string {
  return [
    ...fishLines(report).map(({ date, does, fish }) => [date, does, fish].join('\t')),
    '',
    ...fishSentences(report),
    ...changesText(report.changes),
  ].join('\n');
}

export function bedText(report: BedReport & { readonly changes?: readonly string[] }): string {
  return [
    ['planted out', 'bed', 'crop', 'plants', 'sown', 'first cut', 'cleared by'].join('\t'),
    ...report.plantings.map(({ plantedOut, bed, crop, plants, sown, firstCut, cleared }) =>
      [plantedOut, bed, crop, plants, sown, firstCut, cleared].join('\t'),
    ),
    '',
    ['crop', 'wanted', 'there and wanted', 'short', 'beyond'].join('\t'),
    ...marketLines(report).map(({ crop, unit, wanted, served, short, surplus }) =>
      [crop, ...[wanted, served, short, surplus].map((count) => marketCount(count, unit))].join(
        '\t',
      ),
    ),
    '',
    ...bedSentences(report),
    ...report.givenUp.map(sentence),
    ...report.reasons.map(sentence),
    ...report.notes.map(sentence),
    ...changesText(report.changes),
  ].join('\n');
}

/** The best crops for one bed now. */
export const openBedText = (
  bed: string,
  choices: readonly OpenBedChoice[],
  currency: string,
): string =>
  choices.length === 0
    ? nothingForBed(bed)
    : choices
        .map(
          (choice, place) =>
            `${place + 1}. ${choiceInWords(choice, currency)}\n   ${choice.reasons.join('; ')}`,
        )
        .join('\n');
