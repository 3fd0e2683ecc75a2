import { registries } from '@odoo/o-spreadsheet';
import { AT_A_TIME } from '../opening';
import { pluginInTurn, type Command } from './plugin-in-turn';

interface TrackerPlugin {
  readonly trackedCells: Record<string, Record<number, number>>;
  handle(command: Command): void;
  getCellsWithTrackedFormula(formula: string): readonly number[];
}

/** Functions that the library looks for in every formula as it opens a workbook. */
const TRACKED = ['SUBTOTAL', 'PIVOT'];

/** Cells with functions that the library keeps an eye on. */
export function trackedInTurn(): void {
  pluginInTurn<TrackerPlugin>(
    {
      registry: registries.coreViewsPluginRegistry,
      plugin: 'formula_tracker',
      methods: ['handle', 'getCellsWithTrackedFormula'],
      parts: ['trackedCells'],
    },
    (Original) =>
      class extends Original {
        override handle(command: Command): void {
          const { opening } = this;
          if (!opening || command.type !== 'START') {
            super.handle(command);
            return;
          }
          for (const formula of TRACKED) this.trackedCells[formula] = {};
          for (const sheetId of this.getters.getSheetIds()) {
            opening.expect(sheetId, 'tracked', () => this.take(sheetId));
          }
        }

        private *take(sheetId: string): Generator<void> {
          let looked = 0;
          for (const cell of this.getters.getCells(sheetId)) {
            if (!cell.isFormula) continue;
            for (const formula of TRACKED) {
              if (!cell.compiledFormula.usesSymbol(formula)) continue;
              (this.trackedCells[formula] ??= {})[cell.id] = cell.id;
            }
            if (++looked % AT_A_TIME === 0) yield;
          }
        }

        override getCellsWithTrackedFormula(formula: string): readonly number[] {
          // Where a formula asks for a pivot no values are stored.
          if (formula !== 'PIVOT') this.opening?.finishAll('tracked');
          return super.getCellsWithTrackedFormula(formula);
        }
      },
  );
}
