import type { SheetValue } from '../check/open-sheet';
import type { Package } from './package';
import { childrenNamed, descendants } from './read-xml';
import type { SheetCell } from './sheet-cells';

/** The texts that cells of the workbook share, by their number. */
export function sharedTexts(file: Package, workbook: string): string[] {
  const part = file.related(workbook, 'sharedStrings')?.target;
  if (part === undefined || !file.has(part)) return [];
  return childrenNamed(file.root(part), 'si').map((item) =>
    descendants(item, 't')
      .map((t) => t.text)
      .join(''),
  );
}

/** What a cell holds as stored; an error as its code. */
export function valueOf(cell: SheetCell, texts: readonly string[]): SheetValue {
  const { type, value = '' } = cell;
  if (type === 's') return texts[Number(value)] ?? '';
  if (type === 'inlineStr') {
    return descendants(cell.element, 't')
      .map((t) => t.text)
      .join('');
  }
  if (type === 'b') return value === '1';
  if (type === 'str' || type === 'e' || type === 'd' || value === '') return value;
  const number = Number(value);
  return Number.isFinite(number) ? number : value;
}
