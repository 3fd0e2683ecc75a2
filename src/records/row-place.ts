import { cellAddress } from '../plan/addresses';
import type { BookReading } from '../plan/read-book';
import type { RowPlace } from './trace-words';

/** Where the rows of a workbook's registers stand: "Fish log!A12". */
export const rowPlacesOf =
  ({ places }: Pick<BookReading, 'places'>): RowPlace =>
  ({ list, at }) => {
    const cell = places.get(`${list}[${at}].${list === 'plantings' ? 'crop' : 'date'}`);
    return cell && `${cell.sheet}!${cellAddress(cell.row, 0)}`;
  };
