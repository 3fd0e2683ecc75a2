/** Chances that were written once, and whether the plan is still the one that they were played from. */
import { readChancesSheets } from '../chances/read-chances-sheet';
import type { Finding } from './finding';
import type { OpenSheet } from './open-sheet';

/** `mark`: of the plan that the workbook holds now. */
export const playedRules = (sheets: readonly OpenSheet[], mark: string): Finding[] =>
  readChancesSheets(sheets)
    .filter(({ planMark }) => planMark !== mark)
    .map(({ sheet, address, written }) => ({
      level: 'note',
      what: `${sheet} was written on ${written}; the plan has changed since.`,
      sheet,
      address,
      why: 'Its numbers are no formulas: they still say what the plan promised then.',
      remedy: `Play the weeks ahead again and write them anew; then take ${sheet} out, or keep it to compare.`,
    }));
