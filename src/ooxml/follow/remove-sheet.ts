import { RefusedChange } from '../cell-changes';
import type { Package } from '../package';
import type { WorkbookParts } from '../workbook-parts';
import { isSame } from './file-step';
import { reindexed, sheetEntries } from './sheet-entries';
import { XmlEdits } from './xml-edits';

/** Parts that go with their sheet; on others something else in the file may count. */
const OWN_PARTS =
  /\/(?:drawing|vmlDrawing|comments|threadedComment|table|hyperlink|printerSettings|image|chart|chartStyle|chartColorStyle|customProperty)$/;

/** Takes a sheet out, with its parts. What read it was followed before. */
export function removeSheet(file: Package, book: WorkbookParts, name: string): void {
  const sheet = book.sheets.find((part) => isSame(part.name, name));
  if (!sheet) throw new Error(`The file has no sheet called "${name}"`);
  const refuse = (why: string): never => {
    throw new RefusedChange(`The sheet "${name}" cannot be removed: ${why}.`);
  };
  const parts: string[] = [];
  const gather = (part: string): void => {
    for (const { type, target, external } of file.relationships(part)) {
      if (external || !file.has(target) || parts.includes(target)) continue;
      if (!OWN_PARTS.test(type)) {
        refuse(
          `it has a part of the kind ${type.split('/').at(-1) ?? type}, on which other things in the file may count`,
        );
      }
      parts.push(target);
      gather(target);
    }
  };
  gather(sheet.part);
  for (const table of book.tables) {
    if (table.sheet !== sheet.name) continue;
    const spelt = `${table.name.toLowerCase()}[`;
    const reader = file.names.find(
      (part) =>
        /\.xml$/i.test(part) &&
        part !== sheet.part &&
        part !== table.part &&
        (file.readableText(part)?.toLowerCase() ?? '').includes(spelt),
    );
    if (reader !== undefined) refuse(`other formulas read its table ${table.name}`);
  }
  const entries = sheetEntries(file, book);
  const entry = entries.find(({ target }) => target === sheet.part);
  const link = file.relationships(book.part).find(({ target }) => target === sheet.part);
  if (!entry || !link) throw new Error(`The file does not name the sheet "${name}"`);
  const left = entries.filter((kept) => kept !== entry);
  const edits = new XmlEdits(file, book.part);
  edits.removeFrom(entry.list, [entry.element]);
  reindexed(edits, entries, left);
  edits.write();
  file.remove(book.part, link);
  for (const part of parts) if (!isUsed(file, part)) file.drop(part);
}

/** Whether another part still leads to one. */
const isUsed = (file: Package, part: string): boolean =>
  file.owners().some((owner) => file.relationships(owner).some(({ target }) => target === part));
