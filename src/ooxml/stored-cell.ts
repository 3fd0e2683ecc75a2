import type { SheetValue } from '../check/open-sheet';
import { atOnce, type Steps } from '../plan/in-steps';
import type { Package } from './package';
import { childNamed, childrenNamed, type XmlElement, XmlReading } from './read-xml';
import { readInSteps } from './read-in-steps';
import type { SheetCell } from './sheet-cells';

const ESCAPED = /_x([0-9A-Fa-f]{4})_/g;

/** Characters that XML cannot hold stand in a file as their number. */
const readable = (text: string): string =>
  text.replace(ESCAPED, (_, code: string) => String.fromCharCode(parseInt(code, 16)));

/** The text of a cell's or a shared text's element: its runs, without what says how to pronounce them. */
export const textOf = (item: XmlElement | undefined): string =>
  readable(
    (item?.children ?? [])
      .flatMap((child) => (child.name === 'r' ? childrenNamed(child, 't') : [child]))
      .map((t) => (t.name === 't' ? t.text : ''))
      .join(''),
  );

/** The texts that cells of the workbook share, by their number; in steps. */
export function* readingSharedTexts(file: Package, workbook: string): Steps<string[]> {
  const texts: string[] = [];
  const part = file.related(workbook, 'sharedStrings')?.target;
  if (part === undefined || !file.has(part)) return texts;
  const reading = new XmlReading(part, (element, parent) => {
    if (element.name !== 'si' || parent?.name !== 'sst') return false;
    texts.push(textOf(element));
    return true;
  });
  yield* readInSteps(file, part, reading);
  return texts;
}

/** As `readingSharedTexts`, at once. */
export const sharedTexts = (file: Package, workbook: string): string[] =>
  atOnce(readingSharedTexts(file, workbook));

/** What a cell holds as stored; an error as its code. */
export function valueOf(cell: SheetCell, texts: readonly string[]): SheetValue {
  const { type, value = '' } = cell;
  if (type === 's') return value.trim() === '' ? '' : (texts[Number(value)] ?? '');
  if (type === 'inlineStr') return textOf(childNamed(cell.element, 'is'));
  if (type === 'b') return value === '1' || value === 'true';
  if (type === 'str') return readable(value);
  if (type === 'e' || type === 'd' || value === '') return value;
  const number = Number(value);
  return Number.isFinite(number) ? number : value;
}
