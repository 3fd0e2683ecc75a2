import { registries } from '@odoo/o-spreadsheet';
import type { Getters } from './dependency-graph';
import { needParts, replacePlugin, type Patch } from './patch';

interface PaneDivision {
  readonly xSplit: number;
  readonly ySplit: number;
}

interface Viewports {
  readonly sheetViewWidth: number;
  readonly sheetViewHeight: number;
  setPaneDivision(sheetId: string, division: PaneDivision): void;
  resetViewports(sheetId: string): void;
}

interface ViewportPlugin {
  readonly getters: Getters;
  readonly viewports: Viewports;
}

const NAME = 'frozen-panes';

/** Share of what shows that rows that stay in sight may take, and that columns may. */
const MAX_FROZEN_ROWS = 1 / 2;
const MAX_FROZEN_COLUMNS = 2 / 3;

/** Rows and columns stay in sight where they leave room for the rest. */
function fitting(getters: Getters, viewports: Viewports, sheetId: string): PaneDivision {
  const { xSplit, ySplit } = getters.getPaneDivisions(sheetId);
  const { sheetViewWidth, sheetViewHeight } = viewports;
  const width = xSplit > 0 ? getters.getColDimensions(sheetId, xSplit).start : 0;
  const height = ySplit > 0 ? getters.getRowDimensions(sheetId, ySplit).start : 0;
  return {
    xSplit: width > MAX_FROZEN_COLUMNS * sheetViewWidth ? 0 : xSplit,
    ySplit: height > MAX_FROZEN_ROWS * sheetViewHeight ? 0 : ySplit,
  };
}

/** What is frozen scrolls along where the screen is too small for it; the workbook keeps it as it is. */
export const frozenPanes: Patch = {
  name: NAME,
  upstream:
    'On a telephone the frozen rows and columns of a sheet take most of the screen, and what they were frozen for shows in a slit.',
  until: 'the library lets frozen rows go where the screen is too small for them',
  apply: () =>
    replacePlugin(
      NAME,
      registries.statefulUIPluginRegistry,
      'viewport',
      [],
      (Original: new (config: unknown) => ViewportPlugin) =>
        class extends Original {
          constructor(config: unknown) {
            super(config);
            needParts(NAME, this, ['viewports', 'getters']);
            const { viewports, getters } = this;
            needParts(NAME, viewports, ['setPaneDivision', 'resetViewports']);
            needParts(NAME, viewports, ['sheetViewWidth', 'sheetViewHeight']);
            const reset = viewports.resetViewports.bind(viewports);
            viewports.resetViewports = (sheetId) => {
              if (getters.tryGetSheet(sheetId))
                viewports.setPaneDivision(sheetId, fitting(getters, viewports, sheetId));
              reset(sheetId);
            };
          }
        },
    ),
};
