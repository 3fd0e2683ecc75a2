import type { SheetValue } from '../check/open-sheet';
import { readPart, type Parts } from './package';
import type { SheetCell } from './sheet-cells';
import { relationships } from './workbook-parts';
import { childrenNamed, descendants, readXml } from './read-xml';

/** The texts that cells of the workbook share, by their number. */
export function sharedTexts(parts: Parts, workbook: string): string[] {
  const part = relationships(parts, workbook).find((one) =>
    one.type.endsWith('/sharedStrings'),
  )?.target;
  if (!part || !parts.has(part)) return [];
  return childrenNamed(readXml(readPart(parts, part), part), 'si').map((item) =>
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
