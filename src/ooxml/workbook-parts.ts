import { readArea } from '../plan/addresses';
import type { Area } from '../plan/workbook-model';
import type { Package } from './package';
import { childNamed, childrenNamed, descendants, type Splice, type XmlElement } from './read-xml';
import { UnreadableFile } from './unreadable-file';

export interface SheetPart {
  readonly name: string;
  readonly part: string;
  readonly hidden: boolean;
}

export interface DefinedName {
  readonly name: string;
  readonly text: string;
  /** The sheet that it is for, where it is not for all. */
  readonly sheet?: string;
  /** Place of the formula text in the workbook part. */
  readonly element: XmlElement;
}

export interface TablePart {
  readonly name: string;
  readonly part: string;
  readonly sheet: string;
  readonly area: Area;
  readonly columns: readonly string[];
  /** Rows of heads above and of totals below its records. */
  readonly headRows: number;
  readonly totalRows: number;
}

export interface WorkbookParts {
  readonly part: string;
  readonly root: XmlElement;
  readonly sheets: readonly SheetPart[];
  readonly names: readonly DefinedName[];
  readonly tables: readonly TablePart[];
  readonly externalLinks: number;
  readonly date1904: boolean;
}

/** Sheets that hold no cells, or macros in place of cells. */
const OTHER_SHEETS = /\/(?:chartsheet|dialogsheet|xlMacrosheet|xlIntlMacrosheet)$/;

const isOf =
  (kind: string) =>
  ({ type }: { readonly type: string }): boolean =>
    type.endsWith(`/${kind}`);

function tablesOf(file: Package, sheet: SheetPart): TablePart[] {
  return file
    .relationships(sheet.part)
    .filter(isOf('table'))
    .flatMap(({ target }) => {
      const root = file.root(target);
      const area = readArea(root.attributes['ref'] ?? '');
      if (!area) return [];
      return [
        {
          name: root.attributes['displayName'] ?? root.attributes['name'] ?? '',
          part: target,
          sheet: sheet.name,
          area,
          columns: descendants(root, 'tableColumn').map((c) => c.attributes['name'] ?? ''),
          headRows: Number(root.attributes['headerRowCount'] ?? 1),
          totalRows: Number(root.attributes['totalsRowCount'] ?? 0),
        },
      ];
    });
}

/** Names and parts by which sheets are told apart: no program could say which of two is meant. */
function refuseTwins(sheets: readonly SheetPart[]): void {
  const seen = new Map<string, string>();
  for (const { name, part } of sheets) {
    const twin = seen.get(name.toLowerCase());
    if (twin !== undefined) {
      throw new UnreadableFile(`The file is damaged: two of its sheets are called "${name}".`);
    }
    const other = seen.get(`/${part}`);
    if (other !== undefined) {
      throw new UnreadableFile(
        `The file is damaged: its sheets "${other}" and "${name}" are the same part.`,
      );
    }
    seen.set(name.toLowerCase(), name).set(`/${part}`, name);
  }
}

/** Finds the workbook, its sheets, names and tables. Throws UnreadableFile where they cannot be found. */
export function readWorkbookParts(file: Package): WorkbookParts {
  const main = file.related('', 'officeDocument')?.target;
  if (!main || !file.has(main)) {
    throw new UnreadableFile('The file is packed like a workbook but holds none.');
  }
  const root = file.root(main);
  if (root.name !== 'workbook') {
    throw new UnreadableFile('The file is another kind of document, no workbook.');
  }
  const links = file.relationships(main);
  const entries = childrenNamed(childNamed(root, 'sheets'), 'sheet');
  const sheets = entries.flatMap((element) => {
    const id = Object.entries(element.attributes).find(([key]) => /(^|:)id$/.test(key))?.[1];
    const link = links.find((candidate) => candidate.id === id);
    // Entries that lead nowhere are passed over by other programs, too; chart sheets and the like hold no cells.
    if (!link?.type.endsWith('/worksheet')) return [];
    if (!file.has(link.target)) {
      throw new UnreadableFile(
        `The file is damaged: the sheet "${element.attributes['name']}" is missing.`,
      );
    }
    const state = element.attributes['state'] ?? 'visible';
    return [
      { name: element.attributes['name'] ?? '', part: link.target, hidden: state !== 'visible' },
    ];
  });
  if (sheets.length === 0 && !links.some(({ type }) => OTHER_SHEETS.test(type))) {
    throw new UnreadableFile('The file is damaged: no sheet of it can be found.');
  }
  refuseTwins(sheets);
  return {
    part: main,
    root,
    sheets,
    names: childrenNamed(childNamed(root, 'definedNames'), 'definedName').map((element) => {
      const local = entries[Number(element.attributes['localSheetId'] ?? -1)];
      return {
        name: element.attributes['name'] ?? '',
        text: element.text,
        element,
        ...(local && { sheet: local.attributes['name'] ?? '' }),
      };
    }),
    tables: sheets.flatMap((sheet) => tablesOf(file, sheet)),
    externalLinks: links.filter(isOf('externalLink')).length,
    date1904: ['1', 'true'].includes(childNamed(root, 'workbookPr')?.attributes['date1904'] ?? ''),
  };
}

/** Where new names stand: in the list of names, or in a new one right behind the sheets. */
export function insertedNames(book: WorkbookParts, xml: string, added: string): Splice {
  const { root } = book;
  const list = childNamed(root, 'definedNames');
  if (list && !list.selfClosing) {
    const at = xml.lastIndexOf('</', list.end - 1);
    return { start: at, end: at, text: added };
  }
  const whole = `<${root.prefix}definedNames>${added}</${root.prefix}definedNames>`;
  if (list) return { start: list.start, end: list.end, text: whole };
  const after = ['externalReferences', 'functionGroups', 'sheets']
    .map((name) => childNamed(root, name))
    .find(Boolean);
  const at = after?.end ?? 0;
  return { start: at, end: at, text: whole };
}
