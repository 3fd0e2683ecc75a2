import { Package } from '../../ooxml/package';
import { childNamed, childrenNamed, type XmlElement } from '../../ooxml/read-xml';
import { readLayout } from '../../ooxml/sheet-layout';
import { readWorkbookParts, type WorkbookParts } from '../../ooxml/workbook-parts';
import { splitSheet, readArea } from '../../plan/addresses';

/** Children of a sheet part that a new file does not take from an old one. */
const OF_SHEET: Readonly<Record<string, string>> = {
  sheetProtection: 'Protection of sheets',
  protectedRanges: 'Protection of sheets',
  scenarios: 'Scenarios',
  autoFilter: 'Filters',
  sortState: 'How lines were sorted',
  customSheetViews: 'Views of sheets',
  phoneticPr: 'How words are pronounced',
  hyperlinks: 'Links',
  printOptions: 'How sheets are printed',
  pageSetup: 'How sheets are printed',
  headerFooter: 'How sheets are printed',
  rowBreaks: 'How sheets are printed',
  colBreaks: 'How sheets are printed',
  picture: 'Pictures behind cells',
  oleObjects: 'Things of other programs',
  controls: 'Buttons and other controls',
  AlternateContent: 'Buttons and other controls',
  webPublishItems: 'What is published as a web page',
  cellWatches: 'Watched cells',
  customProperties: 'Properties of sheets',
};

const OF_ADDITIONS: Readonly<Record<string, string>> = {
  sparklineGroups: 'Small charts in cells',
  conditionalFormattings: 'Conditional formats of younger kinds',
  dataValidations: 'Rules of younger kinds for what may be typed',
  slicerList: 'Buttons that filter',
  timelineRefs: 'Buttons that filter',
};

/** Kinds of parts that a new file does not take. */
const OF_PARTS: readonly (readonly [kind: RegExp, what: string])[] = [
  [/\/(?:comments|threadedComment)$/, 'Notes and comments'],
  [/\/pivotTable$/, 'Pivot tables'],
  [/\/table$/, 'Tables with their filters and totals'],
  [/\/vbaProject$/, 'Macros'],
  [/\/externalLink$/, 'Links to other files'],
  [/\/ctrlProp$/, 'Buttons and other controls'],
  [/\/(?:connections|queryTable)$/, 'Connections to sources of data'],
  [/\/chartsheet$/, 'Sheets that hold a chart alone'],
  [/\/dialogsheet$/, 'Sheets of dialogs'],
  [/\/theme$/, 'The theme with its fonts and colours'],
  [/\/customXml$/, 'Data that programs keep in the file'],
  [/\/custom-properties$/, 'Properties of the file'],
];

function ofSheet(root: XmlElement, xml: string): string[] {
  const found = root.children.flatMap(({ name }) => OF_SHEET[name] ?? []);
  for (const ext of childrenNamed(childNamed(root, 'extLst'), 'ext')) {
    for (const { name } of ext.children)
      found.push(OF_ADDITIONS[name] ?? 'Additions of other programs to sheets');
  }
  const { conditions, validations } = readLayout(root);
  const isDrawn = ({ type }: { readonly type: string }): boolean =>
    type === 'expression' || type === 'cellIs';
  if (!conditions.every(isDrawn))
    found.push('Conditional formats of kinds that the grid does not draw');
  const isKept = ({ type }: { readonly type: string }): boolean =>
    ['list', 'whole', 'decimal', 'none'].includes(type);
  if (!validations.every(isKept))
    found.push('Rules for what may be typed of kinds that the grid does not keep');
  if (/\st=["']dataTable["']/.test(xml)) found.push('Data tables');
  if (/<(?:\w+:)?is>\s*<(?:\w+:)?r>/.test(xml)) found.push('Texts in several fonts within a cell');
  return found;
}

function ofBook(file: Package, book: WorkbookParts): string[] {
  const found: string[] = [];
  if (childNamed(book.root, 'workbookProtection')) found.push('Protection of the workbook');
  const isPlain = ({ name, text, sheet }: WorkbookParts['names'][number]): boolean =>
    sheet === undefined &&
    !name.startsWith('_xlnm.') &&
    readArea(splitSheet(text).address) !== undefined;
  const others = book.names.filter((name) => !isPlain(name));
  if (others.some(({ name }) => /^_xlnm\.Print_/.test(name))) found.push('How sheets are printed');
  if (others.some(({ name }) => !name.startsWith('_xlnm.')))
    found.push('Names for one sheet alone, or for more than a block of cells');
  const texts = file.related(book.part, 'sharedStrings')?.target;
  if (texts !== undefined && /<(?:\w+:)?si>\s*<(?:\w+:)?r>/.test(file.readableText(texts) ?? ''))
    found.push('Texts in several fonts within a cell');
  return found;
}

/** Kinds of things of a file that a new file made of its grid does not hold, each in words. */
export function leftOutOf(bytes: Uint8Array): string[] {
  const file = Package.open(bytes);
  const book = readWorkbookParts(file);
  const kinds = ['', book.part, ...book.sheets.map(({ part }) => part)].flatMap((owner) =>
    file.relationships(owner).map(({ type }) => type),
  );
  const ofParts = OF_PARTS.flatMap(([kind, what]) =>
    kinds.some((type) => kind.test(type)) ? [what] : [],
  );
  const ofSheets = book.sheets.flatMap(({ part }) => ofSheet(file.root(part), file.text(part)));
  return [...new Set([...ofParts, ...ofBook(file, book), ...ofSheets])];
}
