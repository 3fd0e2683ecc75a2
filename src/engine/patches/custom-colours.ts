import { registries } from '@odoo/o-spreadsheet';
import { needParts, replacePlugin, type Patch } from './patch';

interface CustomColoursPlugin {
  shouldUpdateColors: boolean;
  finalize(): void;
  getCustomColors(): readonly string[];
  computeCustomColors(): readonly string[];
  tryToAddColors(colours: readonly string[]): void;
}

const NAME = 'custom-colours';

/** Gathers the colours of a workbook when somebody is about to choose one. */
export const customColours: Patch = {
  name: NAME,
  upstream:
    'Every cell of every sheet is asked for its colours before anything shows, and again after every edit.',
  until: 'the library gathers colours when its chooser of colours opens',
  apply: () =>
    replacePlugin(
      NAME,
      registries.coreViewsPluginRegistry,
      'custom_colors',
      ['finalize', 'getCustomColors', 'computeCustomColors', 'tryToAddColors'],
      (Original: new (config: unknown) => CustomColoursPlugin) =>
        class extends Original {
          constructor(config: unknown) {
            super(config);
            needParts(NAME, this, ['shouldUpdateColors']);
          }

          override finalize(): void {
            // What the library gathers here is gathered below.
          }

          override getCustomColors(): readonly string[] {
            super.finalize();
            return super.getCustomColors();
          }
        },
    ),
};
