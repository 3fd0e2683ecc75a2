/** Conversations on cells of a plan's sheets, carried to where the cells stand now. */
import type { Package } from '../ooxml/package';
import { childrenNamed, descendants } from '../ooxml/read-xml';
import type { SheetPart, WorkbookParts } from '../ooxml/workbook-parts';
import { escapeAttribute } from '../ooxml/write-xml';
import { cellAddress, readArea } from '../plan/addresses';
import type { CellPlace } from '../plan/book-snapshot';

export interface OwnThread {
  readonly at: CellPlace;
  /** What was said first and every answer, as elements of their part. */
  readonly said: readonly string[];
  /** The beginning of the part that they stood in, with its namespaces. */
  readonly root: string;
  /** Marks of the note that stands for it in programs that know no conversations, by the note's author. */
  readonly marks: ReadonlyMap<string, string>;
}

const KIND = 'http://schemas.microsoft.com/office/2017/10/relationships/threadedComment';
const CONTENT = 'application/vnd.ms-excel.threadedcomments+xml';
const REVISION = 'http://schemas.microsoft.com/office/spreadsheetml/2014/revision';
const COMPATIBILITY = 'http://schemas.openxmlformats.org/markup-compatibility/2006';

/** The note's mark of its conversation is kept where a file has it. */
function marksOf(file: Package, sheet: string): Map<string, string> {
  const part = file.related(sheet, 'comments')?.target;
  if (part === undefined || !file.has(part)) return new Map();
  const root = file.root(part);
  const authors = descendants(root, 'author').map(({ text }) => text);
  return new Map(
    descendants(root, 'comment').flatMap(({ attributes }) => {
      const author = authors[Number(attributes['authorId'] ?? 0)];
      const mark = Object.entries(attributes).find(([name]) => /(?:^|:)uid$/.test(name))?.[1];
      return author === undefined || mark === undefined ? [] : [[author, mark] as const];
    }),
  );
}

/** Conversations on sheets of a plan, each with the cell on which it was begun. */
export function ownThreads(
  { file, book }: { readonly file: Package; readonly book: WorkbookParts },
  sheets: ReadonlyMap<string, string>,
): OwnThread[] {
  return book.sheets.flatMap(({ name, part }) => {
    if (!sheets.has(name)) return [];
    const links = file
      .relationships(part)
      .filter(({ type, target }) => type.endsWith('/threadedComment') && file.has(target));
    const marks = links.length > 0 ? marksOf(file, part) : new Map<string, string>();
    return links.flatMap(({ target }) => {
      const root = file.root(target);
      const xml = file.text(target);
      const byCell = new Map<string, string[]>();
      for (const { attributes, start, end } of childrenNamed(root, 'threadedComment')) {
        const ref = attributes['ref'] ?? '';
        byCell.set(ref, [...(byCell.get(ref) ?? []), xml.slice(start, end)]);
      }
      return [...byCell].flatMap(([ref, said]): OwnThread[] => {
        const place = readArea(ref);
        if (!place) return [];
        const { row, column } = place;
        const head = xml.slice(root.start, root.openEnd);
        return [{ at: { sheet: name, row, column }, said, root: head, marks }];
      });
    });
  });
}

const freePart = (file: Package): string => {
  for (let n = 1; ; n++) {
    const name = `xl/threadedComments/threadedComment${n}.xml`;
    if (!file.has(name)) return name;
  }
};

/** Gives the notes of a sheet the marks of the conversations that they stand for. */
function markNotes(file: Package, sheet: string, marks: ReadonlyMap<string, string>): void {
  const part = file.related(sheet, 'comments')?.target;
  if (part === undefined || !file.has(part) || marks.size === 0) return;
  const root = file.root(part);
  const authors = descendants(root, 'author').map(({ text }) => text);
  const edits = descendants(root, 'comment').flatMap(({ attributes, openEnd }) => {
    const mark = marks.get(authors[Number(attributes['authorId'] ?? 0)] ?? '');
    const at = openEnd - 1;
    return mark === undefined
      ? []
      : [{ start: at, end: at, text: ` xr:uid="${escapeAttribute(mark)}"` }];
  });
  if (edits.length === 0) return;
  const at = root.openEnd - 1;
  const spaces = ` xmlns:mc="${COMPATIBILITY}" mc:Ignorable="xr" xmlns:xr="${REVISION}"`;
  file.edit(part, [{ start: at, end: at, text: spaces }, ...edits]);
}

/** Puts conversations onto the sheets that stand in place of theirs; their notes are there already. */
export function placeThreads(
  file: Package,
  sheets: readonly SheetPart[],
  placed: readonly { readonly thread: OwnThread; readonly to: CellPlace }[],
): void {
  for (const { name, part } of sheets) {
    const here = placed.filter(({ to }) => to.sheet === name);
    // Each kind of root keeps its own namespaces.
    for (const root of new Set(here.map(({ thread }) => thread.root))) {
      const said = here
        .filter(({ thread }) => thread.root === root)
        .flatMap(({ thread, to }) =>
          thread.said.map((reply) =>
            reply.replace(
              /(\sref=)(?:"[^"]*"|'[^']*')/,
              (_, head: string) => `${head}"${cellAddress(to.row, to.column)}"`,
            ),
          ),
        );
      const close = /^<([\w:]+)/.exec(root)?.[1] ?? '';
      const target = freePart(file);
      file.add(
        target,
        CONTENT,
        `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n${root}${said.join('')}</${close}>`,
      );
      file.relate(part, KIND, target);
    }
    markNotes(file, part, new Map(here.flatMap(({ thread }) => [...thread.marks])));
  }
}
