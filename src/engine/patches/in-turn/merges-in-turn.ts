import { registries } from '@odoo/o-spreadsheet';
import { pluginInTurn, type Getters } from './plugin-in-turn';

interface MergePlugin {
  readonly dispatch: unknown;
  importMerges(sheetId: string, merges: readonly string[]): void;
}

/** Merges of which the cells are not in yet: these are given their looks when they come in. */
export function mergesInTurn(): void {
  pluginInTurn<MergePlugin>(
    {
      registry: registries.corePluginRegistry,
      plugin: 'merge',
      methods: ['importMerges'],
      parts: ['dispatch', 'getters'],
    },
    (Original) =>
      class extends Original {
        override importMerges(sheetId: string, merges: readonly string[]): void {
          const { dispatch, getters } = this;
          if (this.opening?.isOpened(sheetId)) {
            Object.assign(this, {
              dispatch: () => undefined,
              getters: Object.create(getters, { getCell: { value: () => undefined } }) as Getters,
            });
          }
          try {
            super.importMerges(sheetId, merges);
          } finally {
            Object.assign(this, { dispatch, getters });
          }
        }
      },
  );
}
