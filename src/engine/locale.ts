import { DEFAULT_LOCALE, type WorkbookData } from '@odoo/o-spreadsheet';

type Locale = WorkbookData['settings']['locale'];

/** Dates as yyyy-mm-dd, which nobody reads two ways; numbers as formulas write them. */
export const workbenchLocale: Locale = {
  ...DEFAULT_LOCALE,
  name: 'English (international dates)',
  dateFormat: 'yyyy-mm-dd',
  timeFormat: 'hh:mm',
};
