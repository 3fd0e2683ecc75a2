import { registries, type CellPosition, type Model, type Style } from '@odoo/o-spreadsheet';
import { needParts, replacePlugin, type Patch } from './patch';

interface HeaderSizePlugin {
  readonly getters: Model['getters'];
  getCellHeight(position: CellPosition): number;
}

const NAME = 'row-heights';

const fontOf = ({ fontSize, bold, italic }: Style): string =>
  `${fontSize} ${bold === true} ${italic === true}`;

/** Measures one line of text once for each font. */
export const rowHeights: Patch = {
  name: NAME,
  upstream:
    'To find the heights of rows, every cell of every sheet is formatted and measured before anything shows, also where the text stands on one line, as high as its font.',
  until: 'the library measures rows when they come into view',
  apply: () =>
    replacePlugin(
      NAME,
      registries.coreViewsPluginRegistry,
      'row_size',
      ['getCellHeight'],
      (Original: new (config: unknown) => HeaderSizePlugin) =>
        class extends Original {
          private readonly heights = new Map<string, number>();

          constructor(config: unknown) {
            super(config);
            needParts(NAME, this, ['getters']);
          }

          override getCellHeight(position: CellPosition): number {
            const cell = this.getters.getCell(position);
            const style = cell?.style ?? {};
            const isOneLine =
              cell &&
              style.wrapping !== 'wrap' &&
              !style.rotation &&
              (cell.isFormula || (cell.content !== '' && !cell.content.includes('\n'))) &&
              !this.getters.isInMerge(position);
            if (!isOneLine) return super.getCellHeight(position);
            const font = fontOf(style);
            let height = this.heights.get(font);
            if (height === undefined) {
              height = super.getCellHeight(position);
              this.heights.set(font, height);
            }
            return height;
          }
        },
    ),
};
