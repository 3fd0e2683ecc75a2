import { isUnitText } from './headings';
import { addressIn, type OpenSheet } from './open-sheet';

/** A number found beside a label. */
export interface Labelled {
  readonly sheet: string;
  readonly address: string;
  readonly value: number;
  /** The unit that stands behind the number; empty where none does. */
  readonly unit: string;
}

/** The first number to the right of a cell whose text fits; at most four cells away. */
export function labelled(sheets: readonly OpenSheet[], label: RegExp): Labelled | undefined {
  for (const sheet of sheets) {
    for (const [r, row] of sheet.values.entries()) {
      for (const [c, text] of row.entries()) {
        if (typeof text !== 'string' || !label.test(text.trim())) continue;
        for (let i = c + 1; i <= c + 4; i++) {
          const value = row[i];
          if (typeof value === 'number') {
            const unit = row[i + 1];
            return {
              sheet: sheet.name,
              address: addressIn(sheet, r, i),
              value,
              unit: typeof unit === 'string' && isUnitText(unit) ? unit : '',
            };
          }
        }
      }
    }
  }
  return undefined;
}

/** The day of which the workbook speaks. */
export const asOfDate = (sheets: readonly OpenSheet[]): number | undefined => {
  const found = labelled(
    sheets,
    /^(as[- ]of( date)?|day of (this|the) plan|today is taken as)\b/i,
  )?.value;
  return found !== undefined && found > 60 ? found : undefined;
};

/** The water of the month, °C, where a sheet says it. */
export function waterNow(sheets: readonly OpenSheet[]): number | undefined {
  const found = labelled(sheets, /^water (temperature|this month|now)\b/i);
  if (!found) return undefined;
  return /f$/i.test(found.unit) ? ((found.value - 32) * 5) / 9 : found.value;
}
