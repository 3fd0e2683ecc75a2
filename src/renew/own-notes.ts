/** Notes that somebody wrote on cells of a plan's sheets, carried to where the cells stand now. */
import type { Package } from '../ooxml/package';
import { descendants } from '../ooxml/read-xml';
import type { WorkbookParts } from '../ooxml/workbook-parts';
import { readArea } from '../plan/addresses';
import type { CellPlace } from '../plan/book-snapshot';
import type { CellModel, SheetModel, WorkbookModel } from '../plan/workbook-model';

export interface OwnNote {
  readonly at: CellPlace;
  readonly text: string;
  readonly author: string;
  /** It stands for a conversation, for programs that know none. */
  readonly isThread: boolean;
}

/** Who the plan's own notes are by. */
const PLANS_AUTHOR = 'Gillbed';
/** For notes without a name: they stay somebody's own. */
const NOBODY = 'Author';

/** What the plan itself says on the cells of a sheet. */
const plannedNotes = (plan: WorkbookModel, sheet: string | undefined): ReadonlySet<string> =>
  new Set(
    plan.sheets.flatMap(({ name, rows }) =>
      name === sheet ? rows.flatMap((row) => row.flatMap((cell) => cell?.note?.trim() ?? [])) : [],
    ),
  );

/** Notes of somebody's own; those of the plan are known by author or words. */
export function ownNotes(
  { file, book }: { readonly file: Package; readonly book: WorkbookParts },
  sheets: ReadonlyMap<string, string>,
  plan: WorkbookModel,
): OwnNote[] {
  return book.sheets.flatMap(({ name, part }) => {
    if (!sheets.has(name)) return [];
    const links = file.relationships(part);
    const link = links.find(({ type, target }) => type.endsWith('/comments') && file.has(target));
    if (!link) return [];
    const planned = plannedNotes(plan, sheets.get(name));
    const root = file.root(link.target);
    const authors = descendants(root, 'author').map(({ text }) => text);
    return descendants(root, 'comment').flatMap((comment): OwnNote[] => {
      const author = authors[Number(comment.attributes['authorId'] ?? 0)] ?? '';
      const place = readArea(comment.attributes['ref'] ?? '');
      const text = descendants(comment, 't')
        .map((run) => run.text)
        .join('');
      if (author === PLANS_AUTHOR || !place || planned.has(text.trim())) return [];
      return [
        {
          at: { sheet: name, row: place.row, column: place.column },
          text,
          author: author.trim() === '' ? NOBODY : author,
          isThread: author.startsWith('tc='),
        },
      ];
    });
  });
}

/** The plan with notes of somebody's own on its cells; what it says itself of such a cell stands below. */
export function withNotes<P extends WorkbookModel>(
  plan: P,
  notes: readonly (Omit<OwnNote, 'isThread'> & { readonly to: CellPlace })[],
): P {
  if (notes.length === 0) return plan;
  const sheets = plan.sheets.map((sheet): SheetModel => {
    const own = notes.filter(({ to }) => to.sheet === sheet.name);
    if (own.length === 0) return sheet;
    const rows: (CellModel | undefined)[][] = sheet.rows.map((row) => [...row]);
    for (const { to, text, author } of own) {
      while (rows.length <= to.row) rows.push([]);
      const row = rows[to.row] as (CellModel | undefined)[];
      const cell: CellModel = row[to.column] ?? { look: 'text' };
      const planned = cell.note;
      const note = planned === undefined || text.includes(planned) ? text : `${text}\n\n${planned}`;
      row[to.column] = { ...cell, note, noteBy: author };
    }
    return { ...sheet, rows };
  });
  return { ...plan, sheets };
}
