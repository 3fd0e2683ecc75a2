import { registries } from '@odoo/o-spreadsheet';
import { replacePlugin, type Patch } from './patch';

type Dimension = 'COL' | 'ROW';
type Positions = Readonly<Record<number, number>>;

interface HeaderPositionsPlugin {
  computeHeaderPositionsOfSheet(sheetId: string): Readonly<Record<Dimension, Positions>>;
  computePositions(sheetId: string, dimension: Dimension): Positions;
}

const NAME = 'header-positions';

/** Adds up the rows and columns of a sheet when they are first asked for. */
export const headerPositions: Patch = {
  name: NAME,
  upstream:
    'Where each row and column of every sheet begins is added up before anything shows, and after every edit.',
  until: 'the library adds up the rows of a sheet when it shows',
  apply: () =>
    replacePlugin(
      NAME,
      registries.statefulUIPluginRegistry,
      'header_positions',
      ['computeHeaderPositionsOfSheet', 'computePositions'],
      (Original: new (config: unknown) => HeaderPositionsPlugin) =>
        class extends Original {
          override computeHeaderPositionsOfSheet(
            sheetId: string,
          ): Readonly<Record<Dimension, Positions>> {
            const known: Partial<Record<Dimension, Positions>> = {};
            const positions = (dimension: Dimension): Positions =>
              (known[dimension] ??= this.computePositions(sheetId, dimension));
            return {
              get COL() {
                return positions('COL');
              },
              get ROW() {
                return positions('ROW');
              },
            };
          }
        },
    ),
};
