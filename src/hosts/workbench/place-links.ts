/** Links of a workbook to a place of its own, such as =HYPERLINK("#'Balance'!A32","Filter"). */
import { registries } from '@odoo/o-spreadsheet';
import { readArea, splitSheet } from '../../plan/addresses';

type LinkSpec = ReturnType<typeof registries.urlRegistry.get>;
type Environment = Parameters<LinkSpec['open']>[1];

interface Place {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

export function placeOfLink(url: string): Place | undefined {
  if (!url.startsWith('#')) return undefined;
  const { sheet, address } = splitSheet(url.slice(1));
  const area = readArea(address);
  return sheet === undefined || area === undefined
    ? undefined
    : { sheet, row: area.row, column: area.column };
}

/** Shows the place at the upper edge of what scrolls, and has its cell in front. */
function goTo({ model }: Environment, { sheet, row, column }: Place): void {
  const { getters } = model;
  const sheetIdTo = getters.getSheetIdByName(sheet);
  if (sheetIdTo === undefined) return;
  model.dispatch('ACTIVATE_SHEET', { sheetIdFrom: getters.getActiveSheetId(), sheetIdTo });
  model.selection.selectCell(column, row);
  const { ySplit } = getters.getPaneDivisions(sheetIdTo);
  const above = getters.getRowDimensions(sheetIdTo, ySplit).start;
  model.dispatch('SET_VIEWPORT_OFFSET', {
    offsetX: getters.getActiveSheetScrollInfo().scrollX,
    offsetY: Math.max(0, getters.getRowDimensions(sheetIdTo, row).start - above),
  });
}

/** Has the grid follow such links, which it takes for addresses of the web by itself. */
export function followPlaceLinks(): void {
  registries.urlRegistry.add('place_of_workbook', {
    match: (url) => placeOfLink(url) !== undefined,
    createLink: (url, label) => ({ url, label, isExternal: false, isUrlEditable: false }),
    urlRepresentation: (url) => {
      const place = placeOfLink(url);
      return place ? `${place.sheet}, row ${place.row + 1}` : url;
    },
    open: (url, environment) => {
      const place = placeOfLink(url);
      if (place) goTo(environment, place);
    },
    sequence: -1,
    title: 'Places of this workbook',
  });
}
