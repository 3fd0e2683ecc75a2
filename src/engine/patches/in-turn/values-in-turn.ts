import { registries } from '@odoo/o-spreadsheet';
import { EVALUATOR_PARTS, type EvaluationPlugin } from './evaluator-parts';
import { openInTurn } from './late-edits';
import { needsParts, pluginInTurn, type Command, type Config } from './plugin-in-turn';

/** What formulas give, from what is stored. */
export function valuesInTurn(): void {
  pluginInTurn<EvaluationPlugin>(
    {
      registry: registries.coreViewsPluginRegistry,
      plugin: 'evaluation',
      methods: ['beforeHandle'],
      parts: ['evaluator', 'positionsToUpdate'],
    },
    (Original) =>
      class extends Original {
        constructor(config: Config) {
          super(config);
          const { evaluator, getters, opening } = this;
          needsParts(evaluator, EVALUATOR_PARTS);
          needsParts(evaluator.evaluatedCells, ['map', 'get', 'set', 'delete']);
          if (opening) openInTurn(this, getters, opening);
        }

        override beforeHandle(command: Command & { readonly sheetId?: string }): void {
          // What a cell showed before is known only as long as it is in place.
          if (command.type === 'UPDATE_CELL' && command.sheetId !== undefined) {
            this.opening?.finishPart(command.sheetId, 'values');
          }
          super.beforeHandle(command);
        }
      },
  );
}
