import { isoText } from '../core/serial-date';
import { planContext, type PlanContext } from './context';
import type { Farm } from './farm';
import { atOnce, type Steps } from './in-steps';
import type { FormulaMode } from './live-or-plain';
import { type NameModel, onPaperFor, type PlanModel, type SheetModel } from './workbook-model';
import { type FigureName, figureNames } from './names';
import { switchedFigures } from './own-figure-formulas';
import { inGroups } from './sheet-groups';
import { balanceSheet } from './sheets/balance-sheet';
import { bedsSheet } from './sheets/beds-sheet';
import { feedLogSheet } from './sheets/feed-log-sheet';
import { fishLogSheet } from './sheets/fish-log-sheet';
import { harvestLogSheet } from './sheets/harvest-log-sheet';
import { moneySheet } from './sheets/money-sheet';
import { plantingsSheet } from './sheets/plantings-sheet';
import { plantRoomSheet } from './sheets/plant-room-sheet';
import { ownFiguresSheet } from './sheets/own-figures-sheet';
import { presetsSheet } from './sheets/presets-sheet';
import { seasonSheet } from './sheets/season-sheet';
import { siteSheet } from './sheets/site-sheet';
import { sourcesSheet } from './sheets/sources-sheet';
import { sowingSheet } from './sheets/sowing-sheet';
import { stockPlanSheet } from './sheets/stock-plan-sheet';
import { startSheet } from './sheets/start-sheet';
import { cropsSheet, speciesSheet } from './sheets/table-sheets';
import { tankYearSheet } from './sheets/tank-year-sheet';
import { tanksSheet } from './sheets/tanks-sheet';
import { treatmentsSheet } from './sheets/treatments-sheet';
import { WATER_LOG, waterLogSheet } from './sheets/water-log-sheet';
import { weekSheet } from './sheets/week-sheet';
import type { Typed } from './typed-cells';

/** Every figure that formulas may call by name is there. */
function checkNames(names: readonly NameModel[]): void {
  const made = new Map(names.map(({ name, sheet }) => [name, sheet]));
  for (const [sheet, listed] of Object.entries<readonly FigureName[]>(figureNames)) {
    for (const name of listed) {
      if (made.get(name) !== sheet) throw new Error(`The sheet ${sheet} does not make ${name}`);
    }
  }
}

/** A farm that begins with a wish says what was preset and what is missing; one that was typed has neither. */
const showsPresets = ({ presets, markets, feed, site, months }: Farm): boolean =>
  presets.length > 0 ||
  feed.price === undefined ||
  site.latitude === undefined ||
  site.altitude === undefined ||
  months.some(({ water, high, low, humidity }) =>
    [water, high, low, humidity].includes(undefined),
  ) ||
  markets.some(({ price }) => price === undefined);

interface Options {
  readonly formulas: FormulaMode;
}

/** The planning workbook of a farm. The same farm gives the same workbook, whenever it is made. */
export const planWorkbook = (farm: Farm, options: Options): PlanModel =>
  planWithTyped(farm, options).workbook;

interface PlanWithTyped {
  readonly workbook: PlanModel;
  /** The declarations of the cells that are typed. */
  readonly typed: readonly Typed[];
}

/** The same, with the declarations of the cells that are typed. */
export const planWithTyped = (farm: Farm, options: Options): PlanWithTyped =>
  atOnce(planInSteps(farm, options));

/** The same, sheet by sheet. */
export function* planInSteps(farm: Farm, { formulas }: Options): Steps<PlanWithTyped> {
  const ctx = planContext(farm, formulas);
  const typed = ctx.farm;
  const switched = switchedFigures(typed);
  const crops = cropsSheet(typed.crops, switched);
  const species = speciesSheet(typed.species, typed.feedWeights, switched);
  ctx.names.push(...crops.names, ...species.names);
  yield 0;
  const waterLog = waterLogSheet(ctx);
  const makers: readonly ((ctx: PlanContext) => SheetModel)[] = [
    fishLogSheet,
    feedLogSheet,
    plantingsSheet,
    harvestLogSheet,
    () => waterLog.sheet,
    treatmentsSheet,
    siteSheet,
    tanksSheet,
    plantRoomSheet,
    stockPlanSheet,
    tankYearSheet,
    (here) => balanceSheet(here, { name: WATER_LOG, register: waterLog.register }),
    bedsSheet,
    sowingSheet,
    seasonSheet,
    // The week looks at all others, so that it is made after them.
    weekSheet,
    moneySheet,
    () => crops.sheet,
    () => species.sheet,
    ...(farm.ownFigures.length > 0 ? [ownFiguresSheet] : []),
    ...(showsPresets(farm) ? [presetsSheet] : []),
    sourcesSheet,
  ];
  const sheets: SheetModel[] = [];
  for (const make of makers) {
    sheets.push(make(ctx));
    yield sheets.length / makers.length;
  }
  checkNames(ctx.names);
  const groups = inGroups(sheets);
  const workbook: PlanModel = {
    title: farm.name,
    formulas,
    made: isoText(farm.asOf),
    farm: farm.file,
    sheets: onPaperFor(farm.units, [
      startSheet(ctx, groups),
      ...groups.flatMap((group) => group.sheets),
    ]),
    names: ctx.names,
  };
  return { workbook, typed: ctx.typed };
}
