import { helpers, type DispatchResult } from '@odoo/o-spreadsheet';
import { areaAddress } from '../../plan/addresses';
import { plansIn } from '../../plan/read-book';
import type { Area } from '../../plan/workbook-model';
import { download } from '../../sidebar/download';
import { drawn } from '../../sidebar/drawn';
import { withFreeNames } from '../../plan/free-names';
import type { Host, Selection } from '../../sidebar/host';
import { areaOf, overlap, readArea, shownValue, usedArea } from './grid-cells';
import { gridFrom } from '../../engine/grid-data';
import { inSteps } from '../../plan/in-steps';
import { enterCells } from './enter-cells';
import { joinWorkbooks } from './join-workbooks';
import { pausing } from '../../sidebar/pausing';
import { liveXlsx, XLSX_TYPE } from './save-workbook';
import { GridCells, readingSheets } from './snapshot';
import type { Workbench } from './workbench';

/** Why the grid refused something; it says so in names of its own. */
const REFUSALS: readonly (readonly [reason: RegExp, words: string])[] = [
  [/Locked|Readonly/, 'the sheet is locked'],
  [/Merge/, 'cells there are merged'],
  [/SheetId|SheetName/, 'the sheet is not there any more'],
  [/Target|Range|Index|OutOf|Zone/, 'there are no such cells on the sheet'],
];

const inWords = (reasons: readonly string[]): string =>
  REFUSALS.find(([reason]) => reasons.some((pattern) => reason.test(pattern)))?.[1] ??
  'the grid does not take it there';

/** The page's own grid, as the sidebar sees it: what it reads and writes waits until all sheets are in. */
export function workbenchHost(workbench: Workbench): Host {
  const getters = () => workbench.model.getters;

  function sheetIdOf(name: string): string {
    const id = getters().getSheetIdByName(name);
    if (id === undefined) throw new Error(`There is no sheet called "${name}".`);
    return id;
  }

  function selectionOf(sheetId: string, chosen: Area): Selection {
    const isSmall = chosen.rows * chosen.columns <= 10_000;
    // A whole column is read only as far as it is used.
    const used = isSmall ? undefined : usedArea(workbench.model, sheetId);
    const read = (used && overlap(chosen, used)) ?? { ...chosen, rows: 1, columns: 1 };
    const area = isSmall ? chosen : read;
    return {
      sheet: getters().getSheetName(sheetId),
      address: areaAddress(area),
      values: readArea(sheetId, area, (position) => shownValue(workbench.model, position)),
    };
  }

  const selectionNow = (): Selection =>
    selectionOf(getters().getActiveSheetId(), areaOf(getters().getSelectedZone()));

  function done(result: DispatchResult, what: string): void {
    if (!result.isSuccessful) {
      throw new Error(`${what} could not be done: ${inWords([...result.reasons].map(String))}.`);
    }
  }

  return {
    kind: 'workbench',
    limits: [],
    // The grid draws on white alone; a dark pane beside it would dazzle with every look across.
    dark: () => false,
    onDark: () => undefined,
    get buildWarning() {
      return workbench.untouchedDemo
        ? 'Your plan takes the place of the demo plan, in which you have changed nothing.'
        : 'The plan comes as new sheets behind yours. Undo does not take them away again; delete them where you do not want them.';
    },

    async build(plan, progress, cancel) {
      await workbench.whole();
      progress(0.1, 'Laying out the sheets');
      await drawn();
      cancel.throwIfAborted();
      const farm = plan.farm;
      if (workbench.untouchedDemo && farm !== undefined) {
        await workbench.open({ data: gridFrom(plan), farm, plans: { '': plan } });
        return { sheets: plan.sheets.map(({ name }) => name) };
      }
      const before = workbench.current();
      const data = workbench.exported();
      const added = withFreeNames(plan, {
        sheets: data.sheets.map(({ name }) => name),
        names: [...Object.keys(data.namedRanges), ...workbench.namesOfFile()],
      });
      progress(0.4, 'Computing the sheets');
      await drawn();
      cancel.throwIfAborted();
      const prefix = `${new helpers.UuidGenerator().uuidv4().slice(0, 8)}-`;
      await workbench.open({
        data: joinWorkbooks(data, gridFrom(added, prefix)),
        ...((farm ?? before.farm) !== undefined && { farm: farm ?? before.farm }),
        plans: { ...before.plans, [prefix]: added },
        ...(before.opened && { opened: before.opened, unseen: before.unseen ?? [] }),
      });
      if (cancel.aborted) {
        await workbench.open(before);
        cancel.throwIfAborted();
      }
      const sheets = added.sheets.map(({ name }) => name);
      // The grid knows its size once it has drawn; before, it would scroll to what it takes to be out of sight.
      await drawn();
      await drawn();
      await this.goTo(sheets[0] ?? '', 'A1');
      progress(1);
      return { sheets };
    },

    async removeSheet(sheetName) {
      await workbench.changing(() => {
        const sheetId = sheetIdOf(sheetName);
        const result = workbench.model.dispatch('DELETE_SHEET', { sheetId, sheetName });
        done(result, 'Taking the sheet out');
      });
    },

    async holdsPlan() {
      await workbench.whole();
      return plansIn(new GridCells(workbench.model)).length > 0;
    },

    readFarm: () => Promise.resolve(workbench.farm),

    async selection() {
      await workbench.whole();
      return selectionNow();
    },

    async read(sheet, address) {
      await workbench.whole();
      const sheetId = sheet === undefined ? getters().getActiveSheetId() : sheetIdOf(sheet);
      const zone = getters().getRangeFromSheetXC(sheetId, address.toUpperCase());
      if (zone.invalidXc !== undefined) throw new Error(`There are no cells at ${address}.`);
      return selectionOf(sheetId, areaOf(zone.zone));
    },

    onSelection(listener) {
      let last = '';
      return workbench.onUpdate(() => {
        // The grid tells again once it is computed.
        if (workbench.isComputing) return;
        const sheetId = getters().getActiveSheetId();
        const key = `${sheetId}!${areaAddress(areaOf(getters().getSelectedZone()))}`;
        if (key === last) return;
        last = key;
        listener(selectionNow());
      });
    },

    async putFormula(sheet, address, formulas) {
      await workbench.changing(() => {
        const sheetId = sheetIdOf(sheet);
        const { top, left } = helpers.toZone(address);
        formulas.forEach((row, r) =>
          row.forEach((content, c) => {
            const cell = { sheetId, row: top + r, col: left + c, content };
            done(workbench.model.dispatch('UPDATE_CELL', cell), 'Writing the formula');
          }),
        );
      });
    },

    async putFormulas(sheet, cells) {
      for (const { address, formula } of cells) await this.putFormula(sheet, address, [[formula]]);
    },

    lengthensTables: true,

    async enter(cells, longer) {
      await workbench.changing(() => enterCells(workbench.model, cells, longer));
    },

    async book() {
      await workbench.whole();
      return new GridCells(workbench.model);
    },

    onChange(listener) {
      let last = workbench.revision();
      return workbench.onUpdate(() => {
        const now = workbench.revision();
        if (now === last) return;
        last = now;
        listener();
      });
    },

    async goTo(sheet, address) {
      const sheetIdTo = sheetIdOf(sheet);
      const sheetIdFrom = getters().getActiveSheetId();
      if (sheetIdTo !== sheetIdFrom) {
        done(
          workbench.model.dispatch('ACTIVATE_SHEET', { sheetIdFrom, sheetIdTo }),
          'Going to the sheet',
        );
      }
      const zone = helpers.toZone(address);
      workbench.model.selection.selectZone({ cell: { col: zone.left, row: zone.top }, zone });
    },

    async readSheets() {
      await workbench.whole();
      return workbench.reading(readingSheets);
    },

    async fileBytes() {
      await workbench.whole();
      return (await inSteps(liveXlsx(workbench), pausing())).bytes;
    },

    async recalculator() {
      const { Recalculation } = await import('../../engine/recalculation');
      return (...what) => new Recalculation(...what);
    },

    async openCopy(name, bytes) {
      download(name, bytes, XLSX_TYPE);
      return 'downloaded';
    },
  };
}
