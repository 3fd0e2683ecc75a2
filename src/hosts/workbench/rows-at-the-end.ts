import { type Model, Spreadsheet } from '@odoo/o-spreadsheet';
import { needParts } from '../../engine/patches/patch';
import { afterWaiting } from './said-first';

interface Footer {
  readonly env: { readonly model: Model };
  readonly state: { readonly inputValue: string; readonly errorFlag: boolean };
  focusDefaultElement(): void;
  onConfirm(): void;
}

interface Shown {
  readonly prototype: Footer;
  readonly components?: Readonly<Record<string, Shown>>;
}

/** Adds as many rows at the end of the sheet in front as the footer below it says, and shows the last of them. */
function addRows(footer: Footer): void {
  const { model } = footer.env;
  const { getters } = model;
  if (footer.state.errorFlag) return;
  const sheetId = getters.getActiveSheetId();
  const rows = getters.getNumberRows(sheetId);
  const quantity = Number(footer.state.inputValue);
  model.dispatch('ADD_COLUMNS_ROWS', {
    sheetId,
    sheetName: getters.getSheetName(sheetId),
    position: 'after',
    base: rows - 1,
    quantity,
    dimension: 'ROW',
  });
  footer.focusDefaultElement();
  afterWaiting(model, () => {
    if (getters.getNumberRows(sheetId) < rows + quantity) return;
    const { scrollX } = getters.getActiveSheetScrollInfo();
    const { end } = getters.getRowDimensions(sheetId, rows + quantity - 1);
    model.dispatch('SET_VIEWPORT_OFFSET', { offsetX: scrollX, offsetY: end });
  });
}

/** The library looks for the rows at once, which come in once the page shows that they do. */
export function addRowsInTurn(): void {
  let shown: Shown | undefined = Spreadsheet as unknown as Shown;
  for (const name of ['Grid', 'GridOverlay', 'GridAddRowsFooter']) {
    needParts('rows-at-the-end', shown?.components, [name]);
    shown = shown?.components?.[name];
  }
  needParts('rows-at-the-end', shown?.prototype, ['onConfirm', 'focusDefaultElement']);
  Object.assign(shown?.prototype ?? {}, {
    onConfirm(this: Footer) {
      addRows(this);
    },
  });
}
