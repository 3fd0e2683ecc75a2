import { registries } from '@odoo/o-spreadsheet';
import { needsParts, pluginInTurn, type Config } from './plugin-in-turn';

interface Viewports {
  readonly viewports: Record<string, unknown>;
  recomputeViewports(): void;
  resetViewports(sheetId: string): void;
}

interface ViewportPlugin {
  readonly viewports: Viewports;
  sheetsWithDirtyViewports: Set<string>;
  finalize(): void;
  setViewports(): void;
}

/** Which part of a sheet is in sight, which asks for the heights of all its rows. */
export function viewportsInTurn(): void {
  pluginInTurn<ViewportPlugin>(
    {
      registry: registries.statefulUIPluginRegistry,
      plugin: 'viewport',
      methods: ['finalize', 'setViewports'],
      parts: ['viewports', 'sheetsWithDirtyViewports'],
    },
    (Original) =>
      class extends Original {
        constructor(config: Config) {
          super(config);
          const { opening, viewports } = this;
          needsParts(viewports, ['viewports', 'recomputeViewports', 'resetViewports']);
          if (!opening) return;
          const recompute = viewports.recomputeViewports.bind(viewports);
          const reset = viewports.resetViewports.bind(viewports);
          viewports.resetViewports = (sheetId) => {
            if (opening.isHidden) this.sheetsWithDirtyViewports.add(sheetId);
            else reset(sheetId);
          };
          viewports.recomputeViewports = () => {
            if (opening.isReady) {
              recompute();
              return;
            }
            viewports.resetViewports(this.getters.getActiveSheetId());
            for (const id of this.getters.getSheetIds()) this.sheetsWithDirtyViewports.add(id);
          };
        }

        private isWaiting(sheetId: string): boolean {
          return (
            this.opening?.isIn(sheetId, 'heights') === false &&
            (this.opening.isHidden || sheetId !== this.getters.getActiveSheetId())
          );
        }

        override finalize(): void {
          const all = this.sheetsWithDirtyViewports;
          const waiting = [...all].filter((sheetId) => this.isWaiting(sheetId));
          this.sheetsWithDirtyViewports = new Set([...all].filter((id) => !waiting.includes(id)));
          super.finalize();
          this.sheetsWithDirtyViewports = new Set(waiting);
        }

        override setViewports(): void {
          if (!this.opening || this.opening.isReady) super.setViewports();
        }
      },
  );
}
