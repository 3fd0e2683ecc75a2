import { registries, type WorkbookData } from '@odoo/o-spreadsheet';
import { putInPlace, type Opening } from '../opening';
import { needsParts, pluginInTurn, type Config, type SheetData } from './plugin-in-turn';

interface BordersPlugin {
  readonly borders: Record<string, object>;
  import(data: WorkbookData): void;
}

/** Borders of cells, which hang on no cell. */
export function bordersInTurn(): void {
  pluginInTurn<BordersPlugin>(
    {
      registry: registries.corePluginRegistry,
      plugin: 'borders',
      methods: ['import'],
      parts: ['borders'],
    },
    (Original) =>
      class extends Original {
        constructor(config: Config) {
          super(config);
          needsParts(this.stateObserver, ['changes']);
        }

        override import(data: WorkbookData): void {
          const { opening } = this;
          if (!opening) {
            super.import(data);
            return;
          }
          for (const sheet of data.sheets) {
            const take = () => this.take(data, sheet, opening);
            opening.expect(sheet.id, 'borders', take, this.borders);
          }
        }

        // eslint-disable-next-line require-yield -- it is done at once
        private *take(data: WorkbookData, sheet: SheetData, opening: Opening): Generator<void> {
          const { borders } = opening.contents(sheet.id);
          const { stateObserver } = this;
          const { changes } = stateObserver;
          putInPlace(this.borders, sheet.id, undefined);
          try {
            // A step that is being recorded has nothing to do with it.
            stateObserver.changes = undefined;
            super.import({ ...data, sheets: [{ ...sheet, borders }] });
          } finally {
            stateObserver.changes = changes;
          }
        }
      },
  );
}
