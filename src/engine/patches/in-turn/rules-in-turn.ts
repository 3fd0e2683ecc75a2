import { registries } from '@odoo/o-spreadsheet';
import { pluginInTurn, type Command } from './plugin-in-turn';

interface RulesPlugin {
  isStale: boolean;
  handle(command: Command): void;
}

/** Colours that follow from what cells show, looked at again once what was typed meanwhile is computed. */
export function rulesInTurn(): void {
  pluginInTurn<RulesPlugin>(
    {
      registry: registries.coreViewsPluginRegistry,
      plugin: 'evaluation_cf',
      methods: ['handle'],
    },
    (Original) =>
      class extends Original {
        override handle(command: Command): void {
          super.handle(command);
          if (command.type === 'EVALUATE_CELLS') this.isStale = true;
        }
      },
  );
}
