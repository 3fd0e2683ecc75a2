import type { CalledCard } from '../functions/card';
import { cards } from '../functions/card-list';
import { excelFunction } from '../hosts/excel/excel-functions';

// At once, while the script loads: formulas of a workbook that is just being opened wait for this.
// Without a network there is no CustomFunctions; the pane says so.
if (typeof CustomFunctions !== 'undefined') {
  // The build leaves no more of them here (bundles/called-cards.js).
  const called: readonly CalledCard[] = cards;
  for (const card of called) CustomFunctions.associate(card.id, excelFunction(card));
}
