import { boundedHistory } from './bounded-history';
import { customColours } from './custom-colours';
import { daysBetweenDates } from './days-between-dates';
import { deepChains } from './deep-chains';
import { dependencies } from './dependencies';
import { frozenPanes } from './frozen-panes';
import { errorValues } from './error-values';
import { errorsInRanges } from './errors-in-ranges';
import { formulasOnDemand } from './formulas-on-demand';
import { headerPositions } from './header-positions';
import { namedRangeIndex } from './named-range-index';
import { keptFormulas } from './kept-formulas';
import { lazyConditions } from './lazy-conditions';
import type { Patch } from './patch';
import { plainNumbers } from './plain-numbers';
import { quotesInTexts } from './quotes-in-texts';
import { rangesBeyondSheets } from './ranges-beyond-sheets';
import { rowHeights } from './row-heights';
import { openWithStoredValues } from './open-with-stored-values';
import { sheetsInTurn } from './sheets-in-turn';
import { sortedOnce } from './sorted-once';
import { unchangedCells } from './unchanged-cells';
import { undoEvaluation } from './undo-evaluation';
import { unsettledSpills } from './unsettled-spills';
import { valuesOnDemand } from './values-on-demand';

/** Every patch of the spreadsheet library. */
export const patches: readonly Patch[] = [
  errorValues,
  errorsInRanges,
  daysBetweenDates,
  valuesOnDemand,
  plainNumbers,
  namedRangeIndex,
  lazyConditions,
  quotesInTexts,
  formulasOnDemand,
  rowHeights,
  headerPositions,
  frozenPanes,
  customColours,
  sortedOnce,
  dependencies,
  deepChains,
  unsettledSpills,
  rangesBeyondSheets,
  unchangedCells,
  undoEvaluation,
  boundedHistory,
  keptFormulas,
  openWithStoredValues,
  sheetsInTurn,
];

/** Once, before the first workbook is made. Throws a sentence where the library has changed. */
export function applyPatches(): void {
  for (const patch of patches) patch.apply();
}
