import { isoText } from '../core/serial-date';
import { planContext } from './context';
import type { Farm } from './farm';
import type { FormulaMode } from './formulas';
import type { NameModel, WorkbookModel } from './model';
import { type FigureName, figureNames } from './names';
import { balanceSheet } from './sheets/balance';
import { batchSheet } from './sheets/batch';
import { bedsSheet } from './sheets/beds';
import { dosesSheet } from './sheets/doses';
import { harvestLogSheet } from './sheets/harvest-log';
import { moneySheet } from './sheets/money';
import { pumpsSheet } from './sheets/pumps';
import { siteSheet } from './sheets/site';
import { sourcesSheet } from './sheets/sources';
import { sowingSheet } from './sheets/sowing';
import { spacingsSheet } from './sheets/spacings';
import { stockPlanSheet } from './sheets/stock-plan';
import { stockWeeksSheet } from './sheets/stock-weeks';
import { startSheet } from './sheets/start';
import { cropsSheet, speciesSheet } from './sheets/tables';
import { tanksSheet } from './sheets/tanks';
import { WATER_LOG, waterLogSheet } from './sheets/water-log';
import { weekSheet } from './sheets/week';

/** Every figure that formulas may call by name is there. */
function checkNames(names: readonly NameModel[]): void {
  const made = new Map(names.map(({ name, sheet }) => [name, sheet]));
  for (const [sheet, listed] of Object.entries<readonly FigureName[]>(figureNames)) {
    for (const name of listed) {
      if (made.get(name) !== sheet) throw new Error(`The sheet ${sheet} does not make ${name}`);
    }
  }
}

/** The planning workbook of a farm. The same farm gives the same workbook, whenever it is made. */
export function planWorkbook(
  farm: Farm,
  { formulas }: { readonly formulas: FormulaMode },
): WorkbookModel {
  const ctx = planContext(farm, formulas);
  const crops = cropsSheet();
  const species = speciesSheet();
  ctx.names.push(...crops.names, ...species.names);
  // The week looks at all others, so that it is made after them.
  const waterLog = waterLogSheet(ctx);
  const doses = dosesSheet(ctx, { name: WATER_LOG, register: waterLog.register });
  const sheets = [
    siteSheet(ctx),
    tanksSheet(ctx),
    pumpsSheet(ctx),
    stockPlanSheet(ctx),
    stockWeeksSheet(ctx),
    batchSheet(ctx),
    balanceSheet(ctx),
    bedsSheet(ctx),
    spacingsSheet(ctx),
    sowingSheet(ctx),
    weekSheet(ctx),
    waterLog.sheet,
    doses,
    harvestLogSheet(ctx),
    moneySheet(ctx),
    crops.sheet,
    species.sheet,
    sourcesSheet(),
  ];
  checkNames(ctx.names);
  return {
    title: farm.name,
    formulas,
    made: isoText(farm.asOf),
    farm: farm.file,
    sheets: [startSheet(ctx, sheets), ...sheets],
    names: ctx.names,
  };
}
