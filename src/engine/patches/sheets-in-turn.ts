import { bordersInTurn } from './in-turn/borders-in-turn';
import { cellsInTurn } from './in-turn/cells-in-turn';
import { heightsInTurn } from './in-turn/heights-in-turn';
import { mergesInTurn } from './in-turn/merges-in-turn';
import { rulesInTurn } from './in-turn/rules-in-turn';
import { trackedInTurn } from './in-turn/tracked-in-turn';
import { valuesInTurn } from './in-turn/values-in-turn';
import { viewportsInTurn } from './in-turn/viewports-in-turn';
import type { Patch } from './patch';

/** Opens a workbook sheet by sheet, those in sight first. */
export const sheetsInTurn: Patch = {
  name: 'sheets-in-turn',
  upstream:
    'All cells of all sheets are read, given their values and measured before anything shows.',
  until: 'the library reads a sheet when it is looked at',
  apply() {
    cellsInTurn();
    mergesInTurn();
    bordersInTurn();
    valuesInTurn();
    rulesInTurn();
    heightsInTurn();
    trackedInTurn();
    viewportsInTurn();
  },
};
