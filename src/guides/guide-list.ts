import { forAdministrators } from './for-administrators';
import { fromAWish } from './from-a-wish';
import type { Guide } from './guide';
import { installInExcel } from './install-in-excel';
import { ownRecords } from './own-records';
import { powerCut } from './power-cut';
import { saladSuccession } from './salad-succession';
import { sendAWorkbook } from './send-a-workbook';
import { sizeAFarm } from './size-a-farm';
import { speedWithRanges } from './speed-with-ranges';
import { splitAndMove } from './split-and-move';
import { twoSpacings } from './two-spacings';
import { waterLog } from './water-log';

/** Every guide, in the order of the index. */
export const guides: readonly Guide[] = [
  sizeAFarm,
  fromAWish,
  waterLog,
  powerCut,
  saladSuccession,
  splitAndMove,
  twoSpacings,
  ownRecords,
  speedWithRanges,
  sendAWorkbook,
  installInExcel,
  forAdministrators,
];
