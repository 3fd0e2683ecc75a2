import { Package } from '../../src/ooxml/package';
import { changedParts } from './foreign-workbooks';

/** The text of a sheet part without one cell, and without what a new cell changes of its row and of the sheet's extent. */
function withoutCell(xml: string, address: string): string {
  const row = address.replace(/\D+/, '');
  return xml
    .replace(
      new RegExp(`<((?:\\w+:)?)c(?=\\s)[^>]*?\\sr="${address}"[^>]*?(?:/>|>[\\s\\S]*?</\\1c>)`),
      '',
    )
    .replace(new RegExp(`<((?:\\w+:)?)row r="${row}"(?:/>|></\\1row>)`), '')
    .replace(new RegExp(`(<(?:\\w+:)?row(?=\\s)[^>]*?\\sr="${row}"[^>]*?)\\sspans="[^"]*"`), '$1')
    .replace(
      new RegExp(`<((?:\\w+:)?)row((?:\\s[^>]*?)?\\sr="${row}"[^>]*?)(?:/>|></\\1row>)`),
      '<$1row$2/>',
    )
    .replace(/(<(?:\w+:)?dimension\s[^>]*?ref=")[^"]*/, '$1')
    .replace(/(<(?:\w+:)?sheetData)(?:\s*\/>|>\s*<\/(?:\w+:)?sheetData>)/, '$1/>');
}

/** What differs between two files but for one cell of one sheet, in words. */
export function changedElsewhere(
  before: Uint8Array,
  after: Uint8Array,
  sheetPart: string,
  address: string,
): string[] {
  const [old, now] = [Package.open(before), Package.open(after)];
  return changedParts(before, after).flatMap((part) => {
    if (part !== sheetPart) return [`${part} differs`];
    const [was, is] = [old, now].map((file) => withoutCell(file.text(part), address));
    return was === is ? [] : [`${part} differs beside ${address}`];
  });
}
