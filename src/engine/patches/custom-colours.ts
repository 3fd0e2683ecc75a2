import { registries } from '@odoo/o-spreadsheet';

interface Command {
  readonly type: string;
  readonly style?: object | null;
}

interface ColoursPlugin {
  handle(command: Command): void;
}

/**
 * The engine gathers the colours of the whole workbook anew for its colour picker whenever a cell changes, most
 * of the time that a typed number takes. A cell that keeps its style brings no colour. Once, before the first
 * workbook is made.
 */
export function gatherColoursSparingly(): void {
  const plugins = registries.coreViewsPluginRegistry;
  const Colours = plugins.get('custom_colors') as unknown as new (config: unknown) => ColoursPlugin;
  class Sparing extends Colours {
    override handle(command: Command): void {
      if (command.type !== 'UPDATE_CELL' || command.style !== undefined) super.handle(command);
    }
  }
  plugins.replace('custom_colors', Sparing as never);
}
