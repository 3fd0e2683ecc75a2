import { registries, type Cell } from '@odoo/o-spreadsheet';
import { replacePlugin, type Patch } from './patch';

interface CellPlugin {
  getNextCellId(): number;
  importCell(
    sheetId: string,
    content: string | undefined,
    style: object | undefined,
    format: string | undefined,
    compiled?: object,
  ): Cell;
}

const NAME = 'plain-numbers';

const PLAIN = /^-?\d+(?:\.\d+)?$/;

/** The number that a text writes as the library itself writes it; undefined for every other text. */
function plainNumber(content: string): number | undefined {
  if (!PLAIN.test(content)) return undefined;
  const number = Number(content);
  return String(number) === content ? number : undefined;
}

/** Reads numbers in figures alone as such. */
export const plainNumbers: Patch = {
  name: NAME,
  upstream:
    'Every number that is read is first tried as a day and an hour, and the text of each such try is kept for as long as the page is open.',
  until: 'the library tries as a day only what could be one, and forgets it',
  apply: () =>
    replacePlugin(
      NAME,
      registries.corePluginRegistry,
      'cell',
      ['importCell', 'getNextCellId'],
      (Original: new (config: unknown) => CellPlugin) =>
        class extends Original {
          override importCell(...cell: Parameters<CellPlugin['importCell']>): Cell {
            const [, content, style, format, compiled] = cell;
            const number = content === undefined || compiled ? undefined : plainNumber(content);
            if (content === undefined || number === undefined) return super.importCell(...cell);
            // In the order of the library's own cells: what looks alike is held alike.
            return {
              id: this.getNextCellId(),
              content,
              style,
              format: format === '' ? undefined : format,
              isFormula: false,
              parsedValue: number,
            } as Cell;
          }
        },
    ),
};
