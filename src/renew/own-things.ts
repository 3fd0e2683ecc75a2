/** What somebody put onto sheets of the plan besides cells, and what a renewal cannot take along. */
import type { Package } from '../ooxml/package';
import { childNamed, childrenNamed, descendants } from '../ooxml/read-xml';
import { readArea } from '../plan/addresses';
import type { WorkbookParts } from '../ooxml/workbook-parts';
import type { WorkbookModel } from '../plan/workbook-model';
import type { MovedCells } from './moved-cells';
import type { Loss } from './renewal-loss';

interface Book {
  readonly file: Package;
  readonly book: WorkbookParts;
}

const loss = (where: string, says: string): Loss => ({ kind: 'not carried', where, says });

/** Who the plan's own notes are by. */
const PLANS_AUTHOR = 'Gillbed';

/** Notes on a sheet that somebody wrote himself, by cell; those of the plan are known by author or words. */
function ownNotes(file: Package, part: string, planned: ReadonlySet<string>): Map<string, string> {
  const link = file
    .relationships(part)
    .find(({ type, target }) => type.endsWith('/comments') && file.has(target));
  if (!link) return new Map();
  const root = file.root(link.target);
  const authors = descendants(root, 'author').map(({ text }) => text);
  return new Map(
    descendants(root, 'comment')
      .filter(({ attributes }) => authors[Number(attributes['authorId'] ?? 0)] !== PLANS_AUTHOR)
      .map(
        (comment) =>
          [
            comment.attributes['ref'] ?? '',
            descendants(comment, 't')
              .map(({ text }) => text)
              .join(''),
          ] as const,
      )
      .filter(([, text]) => !planned.has(text.trim())),
  );
}

const titlesIn = (file: Package, chart: string): string =>
  descendants(file.root(chart), 'title')
    .slice(0, 1)
    .flatMap((title) => descendants(title, 't').map(({ text }) => text))
    .join('');

/** Pictures, shapes and charts that the plan did not make. */
function drawnOn(file: Package, part: string, charts: ReadonlySet<string>): string[] {
  const link = file
    .relationships(part)
    .find(({ type, target }) => type.endsWith('/drawing') && file.has(target));
  if (!link) return [];
  const root = file.root(link.target);
  const others = ['pic', 'sp', 'cxnSp', 'grpSp'].flatMap((name) => descendants(root, name)).length;
  const own = file
    .relationships(link.target)
    .filter(({ type, target }) => type.endsWith('/chart') && file.has(target))
    .map(({ target }) => titlesIn(file, target))
    .filter((title) => !charts.has(title));
  return [
    ...own.map((title) => `The chart "${title}" of your own`),
    ...(others > 0 ? [others === 1 ? 'A picture or shape' : `${others} pictures or shapes`] : []),
  ];
}

export function ownThings(
  { file, book }: Book,
  sheets: ReadonlyMap<string, string>,
  plan: WorkbookModel,
  moved: MovedCells,
): Loss[] {
  const charts = new Set(plan.sheets.flatMap((sheet) => sheet.charts.map(({ title }) => title)));
  const losses: Loss[] = [];
  for (const { name, part } of book.sheets) {
    if (!sheets.has(name)) continue;
    const planned = new Set(
      plan.sheets.flatMap((sheet) =>
        sheet.name === sheets.get(name)
          ? sheet.rows.flatMap((row) => row.flatMap((cell) => cell?.note?.trim() ?? []))
          : [],
      ),
    );
    for (const [cell, text] of ownNotes(file, part, planned))
      losses.push(loss(`${name}!${cell}`, `The note "${text.slice(0, 60)}" stays behind.`));
    for (const what of drawnOn(file, part, charts))
      losses.push(loss(name, `${what} stays behind.`));
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
