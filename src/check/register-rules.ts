import { DAYS_TO_WAIT } from './book-rules';
import type { Finding } from './finding';
import { addressIn, type OpenSheet } from './open-sheet';

/** Over the column in which registers say what cannot be in a row. */
const TO_PUT_RIGHT = /^to put right$/i;
/** What is sold too soon after a treatment. */
const DAYS = /\bthe days to wait (were|will) not\b/;

/** Every row of a register that says of itself what is impossible in it, or what waits for an answer. */
export function registerRules(sheet: OpenSheet): Finding[] {
  for (const [head, row] of sheet.values.entries()) {
    const column = row.findIndex(
      (value) => typeof value === 'string' && TO_PUT_RIGHT.test(value.trim()),
    );
    if (column < 0) continue;
    const above = sheet.values[head - 1]?.[column];
    const uncounted: Finding[] =
      typeof above === 'string' && above.trim() !== ''
        ? [
            {
              level: 'watch',
              what: `${sheet.name}: ${above.trim()}.`,
              sheet: sheet.name,
              address: addressIn(sheet, head - 1, column),
              why: 'What stands below the prepared lines is seen by nothing: fish, plants and sales of these lines are missing everywhere.',
              remedy:
                'Copy the cells from "To put right" to the last folded column down beside these lines, or have the plan renewed.',
            },
          ]
        : [];
    const rows = sheet.values.flatMap((cells, at): Finding[] => {
      const says = cells[column];
      if (at <= head || typeof says !== 'string' || says.trim() === '') return [];
      const waits = DAYS.test(says);
      return [
        {
          level: waits ? 'danger' : 'watch',
          what: `${sheet.name}, line ${at + 1}: ${says.trim()}.`,
          sheet: sheet.name,
          address: addressIn(sheet, at, column),
          ...(waits
            ? DAYS_TO_WAIT
            : {
                why: 'A row that cannot be is an error of typing, or something that happened and was not written down: what follows from the row is wrong until it is found.',
                remedy: 'Correct the row, or write down what is missing before it.',
              }),
        },
      ];
    });
    return [...uncounted, ...rows];
  }
  return [];
}
