import { blockOf, type Block } from './addresses';
import { readPart, UnreadableFile, type Parts } from './package';
import { childNamed, childrenNamed, descendants, readXml, type XmlElement } from './read-xml';

export interface SheetPart {
  readonly name: string;
  readonly part: string;
}

export interface DefinedName {
  readonly name: string;
  readonly text: string;
  /** Place of the formula text in the workbook part. */
  readonly element: XmlElement;
}

export interface TablePart {
  readonly name: string;
  readonly part: string;
  readonly sheet: string;
  readonly area: Block;
  readonly columns: readonly string[];
}

export interface WorkbookParts {
  readonly part: string;
  readonly xml: string;
  readonly root: XmlElement;
  readonly sheets: readonly SheetPart[];
  readonly names: readonly DefinedName[];
  readonly tables: readonly TablePart[];
  readonly externalLinks: number;
  readonly date1904: boolean;
}

const folderOf = (part: string): string => part.slice(0, part.lastIndexOf('/') + 1);

/** The part that a relationship's target names, as seen from the part that holds it. */
function resolved(from: string, target: string): string {
  if (target.startsWith('/')) return target.slice(1);
  const steps: string[] = folderOf(from).split('/').filter(Boolean);
  for (const step of target.split('/')) {
    if (step === '..') steps.pop();
    else if (step !== '.') steps.push(step);
  }
  return steps.join('/');
}

export const relationshipsPart = (part: string): string =>
  `${folderOf(part)}_rels/${part.slice(folderOf(part).length)}.rels`;

export interface Relationship {
  readonly id: string;
  readonly type: string;
  readonly target: string;
  readonly external: boolean;
  readonly element: XmlElement;
}

/** The relationships of a part; none where it has no such list. */
export function relationships(parts: Parts, part: string): Relationship[] {
  const name = relationshipsPart(part);
  if (!parts.has(name)) return [];
  const root = readXml(readPart(parts, name), name);
  return childrenNamed(root, 'Relationship').map((element) => ({
    id: element.attributes['Id'] ?? '',
    type: element.attributes['Type'] ?? '',
    target: resolved(part, element.attributes['Target'] ?? ''),
    external: element.attributes['TargetMode'] === 'External',
    element,
  }));
}

const ofType = (list: readonly Relationship[], ending: string): Relationship[] =>
  list.filter((one) => one.type.endsWith(`/${ending}`));

function tablesOf(parts: Parts, sheet: SheetPart): TablePart[] {
  return ofType(relationships(parts, sheet.part), 'table').flatMap(({ target }) => {
    const root = readXml(readPart(parts, target), target);
    const area = blockOf(root.attributes['ref'] ?? '');
    if (!area) return [];
    return [
      {
        name: root.attributes['displayName'] ?? root.attributes['name'] ?? '',
        part: target,
        sheet: sheet.name,
        area,
        columns: descendants(root, 'tableColumn').map((c) => c.attributes['name'] ?? ''),
      },
    ];
  });
}

/** Finds the workbook, its sheets, names and tables. Throws UnreadableFile where they cannot be found. */
export function readWorkbookParts(parts: Parts): WorkbookParts {
  const main = ofType(relationships(parts, ''), 'officeDocument')[0]?.target;
  if (!main || !parts.has(main)) {
    throw new UnreadableFile('The file is packed like a workbook but holds none.');
  }
  const xml = readPart(parts, main);
  const root = readXml(xml, main);
  if (root.name !== 'workbook') {
    throw new UnreadableFile('The file is another kind of document, no workbook.');
  }
  const links = relationships(parts, main);
  const sheets = childrenNamed(childNamed(root, 'sheets'), 'sheet').flatMap((element) => {
    const id = Object.entries(element.attributes).find(([key]) => /(^|:)id$/.test(key))?.[1];
    const link = links.find((one) => one.id === id);
    if (!link) throw new UnreadableFile('The file is damaged: a sheet of it cannot be found.');
    // Chart sheets and the like hold no cells.
    if (!link.type.endsWith('/worksheet')) return [];
    if (!parts.has(link.target)) {
      throw new UnreadableFile(
        `The file is damaged: the sheet "${element.attributes['name']}" is missing.`,
      );
    }
    return [{ name: element.attributes['name'] ?? '', part: link.target }];
  });
  return {
    part: main,
    xml,
    root,
    sheets,
    names: childrenNamed(childNamed(root, 'definedNames'), 'definedName').map((element) => ({
      name: element.attributes['name'] ?? '',
      text: element.text,
      element,
    })),
    tables: sheets.flatMap((sheet) => tablesOf(parts, sheet)),
    externalLinks: ofType(links, 'externalLink').length,
    date1904: ['1', 'true'].includes(childNamed(root, 'workbookPr')?.attributes['date1904'] ?? ''),
  };
}
