import { registries } from '@odoo/o-spreadsheet';
import { putInPlace } from '../opening';
import { pluginInTurn } from './plugin-in-turn';

interface RowSizePlugin {
  readonly tallestCellInRow: Record<string, unknown>;
  initializeSheet(sheetId: string): void;
  getRowTallestCell(sheetId: string, row: number): unknown;
}

/** The tallest cell of each row. */
export function heightsInTurn(): void {
  pluginInTurn<RowSizePlugin>(
    {
      registry: registries.coreViewsPluginRegistry,
      plugin: 'row_size',
      methods: ['initializeSheet', 'getRowTallestCell'],
      parts: ['tallestCellInRow'],
    },
    (Original) =>
      class extends Original {
        override initializeSheet(sheetId: string): void {
          const { opening } = this;
          if (!opening?.isOpened(sheetId) || sheetId in this.tallestCellInRow) {
            super.initializeSheet(sheetId);
            return;
          }
          opening.expect(sheetId, 'heights', () => this.take(sheetId), this.tallestCellInRow);
        }

        private *take(sheetId: string): Generator<void> {
          const rows: unknown[] = [];
          while (rows.length < this.getters.getNumberRows(sheetId)) {
            rows.push(this.getRowTallestCell(sheetId, rows.length));
            yield;
          }
          putInPlace(this.tallestCellInRow, sheetId, rows);
        }
      },
  );
}
