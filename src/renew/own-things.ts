/** What somebody put onto sheets of the plan besides cells, notes and pictures, and a renewal cannot take along. */
import type { Package } from '../ooxml/package';
import { childNamed, childrenNamed, descendants } from '../ooxml/read-xml';
import { readArea } from '../plan/addresses';
import type { WorkbookParts } from '../ooxml/workbook-parts';
import type { MovedCells } from './moved-cells';
import type { Loss } from './renewal-loss';

interface Book {
  readonly file: Package;
  readonly book: WorkbookParts;
}

const loss = (where: string, says: string): Loss => ({ kind: 'not carried', where, says });

export function ownThings(
  { file, book }: Book,
  sheets: ReadonlyMap<string, string>,
  moved: MovedCells,
): Loss[] {
  const losses: Loss[] = [];
  for (const { name, part } of book.sheets) {
    if (!sheets.has(name)) continue;
    const root = file.root(part);
    if (childNamed(root, 'sheetProtection'))
      losses.push(loss(name, 'The protection of the sheet is lifted.'));
    const own = new Set(
      moved.own
        .filter(({ from }) => from.sheet === name)
        .map(({ from }) => `${from.row},${from.column}`),
    );
    const ruled = [
      ...descendants(root, 'dataValidation'),
      ...childrenNamed(root, 'conditionalFormatting'),
      ...descendants(root, 'mergeCell'),
    ];
    for (const { attributes } of ruled) {
      const ref = attributes['sqref'] ?? attributes['ref'] ?? '';
      const area = readArea(ref.split(' ')[0] ?? '');
      if (area && own.has(`${area.row},${area.column}`))
        losses.push(
          loss(`${name}!${ref}`, 'A rule, a mark or a merge on cells of your own stays behind.'),
        );
    }
  }
  return losses;
}
