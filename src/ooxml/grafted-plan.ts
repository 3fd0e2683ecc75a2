/** The sheets of a fresh plan in place of those of an older one, inside a file that holds much else. */
import { cellAddress } from '../plan/addresses';
import { dynamicArrayMark } from './dynamic-arrays';
import { addFarm } from './farm-part';
import { FARM_NAMESPACE, farmXml } from './farm-xml';
import { mergeStyles } from './merged-styles';
import { OFFICE_RELATIONSHIPS, SPREADSHEET, spreadsheetType } from './namespaces';
import { Package, type Relationship } from './package';
import { childNamed, childrenNamed, type Splice } from './read-xml';
import { removeCalculationOrder } from './spare-parts';
import { readWorkbookParts, type WorkbookParts } from './workbook-parts';
import { element, textElement, xmlPart } from './write-xml';

/** Shapes of notes, whose ending a file without notes may not know. */
const NOTE_SHAPES = 'application/vnd.openxmlformats-officedocument.vmlDrawing';

const endsWith =
  (kind: string) =>
  ({ type }: Relationship): boolean =>
    type.endsWith(`/${kind}`);

/** Takes a sheet out with the parts that belong to it alone. */
function removeSheet(
  file: Package,
  workbook: string,
  part: string,
  kept: ReadonlySet<string>,
): void {
  const own = ['table', 'drawing', 'vmlDrawing', 'comments', 'threadedComment', 'printerSettings'];
  for (const link of file.relationships(part)) {
    if (link.external || !own.some((kind) => endsWith(kind)(link)) || !file.has(link.target))
      continue;
    for (const further of file.relationships(link.target)) {
      const goes = endsWith('chart')(further) && file.has(further.target);
      if (goes && !kept.has(further.target)) file.remove(link.target, further);
    }
    file.remove(part, link);
  }
  const link = file.relationships(workbook).find(({ target }) => target === part);
  if (link) file.remove(workbook, link);
}

/** The texts of the fresh file among those that the file shares: their numbers now. */
function mergeTexts(file: Package, book: string, fresh: Package, freshBook: string): number[] {
  const from = fresh.related(freshBook, 'sharedStrings')?.target;
  if (from === undefined) return [];
  const items = childrenNamed(fresh.root(from), 'si').map(({ start, end }) =>
    fresh.text(from).slice(start, end),
  );
  const part = file.related(book, 'sharedStrings')?.target;
  if (part === undefined || !file.has(part)) {
    file.add('xl/sharedStrings.xml', spreadsheetType('sharedStrings'), fresh.text(from));
    file.relate(book, 'sharedStrings', 'xl/sharedStrings.xml');
    return items.map((_, i) => i);
  }
  const root = file.root(part);
  const xml = file.text(part);
  const places = new Map<string, number>();
  const there = childrenNamed(root, 'si');
  there.forEach(({ start, end }, i) => places.set(xml.slice(start, end), i));
  const added: string[] = [];
  const numbers = items.map((item) => {
    const text = root.prefix === '' ? item : item.replace('<si', `<si xmlns="${SPREADSHEET}"`);
    const known = places.get(text);
    if (known !== undefined) return known;
    added.push(text);
    places.set(text, there.length + added.length - 1);
    return there.length + added.length - 1;
  });
  const open = xml
    .slice(root.start, root.openEnd)
    .replace(/\s(?:count|uniqueCount)=(?:"[^"]*"|'[^']*')/g, '')
    .replace(/\s*\/>$/, '>');
  const close = `</${root.prefix}sst>`;
  const at = root.selfClosing ? root.end : xml.lastIndexOf('</', root.end - 1);
  file.edit(part, [
    { start: root.start, end: root.openEnd, text: open },
    { start: at, end: at, text: added.join('') + (root.selfClosing ? close : '') },
  ]);
  return numbers;
}

const freePart = (file: Package, name: (n: number) => string): string => {
  for (let n = 1; ; n++) if (!file.has(name(n))) return name(n);
};

/** "xl/tables/table7.xml": the same kind of part under a free number. */
const freeLike = (file: Package, part: string): string =>
  freePart(file, (n) => part.replace(/\d*(\.\w+)$/, `${n}$1`));

const typeOf = (fresh: Package, part: string): string | undefined =>
  childrenNamed(fresh.root('[Content_Types].xml'), 'Override').find(
    ({ attributes }) => attributes['PartName'] === `/${part}`,
  )?.attributes['ContentType'];

interface Grafting {
  readonly file: Package;
  readonly fresh: Package;
  readonly cells: readonly number[];
  readonly marks: readonly number[];
  readonly texts: readonly number[];
  readonly dynamic: string | undefined;
  /** Number of the next table. */
  nextTable: number;
}

/** A part of the fresh file and all that it leads to, under free names; gives its name here. */
function copyPart(grafting: Grafting, part: string): string {
  const { file, fresh } = grafting;
  const target = freeLike(file, part);
  let xml = fresh.text(part);
  if (/\/tables\//.test(part)) {
    xml = xml.replace(/(<table [^>]*?\sid=")\d+"/, `$1${grafting.nextTable}"`);
    grafting.nextTable += 1;
  }
  // Its place is taken before the parts that it leads to look for theirs.
  file.add(target, typeOf(fresh, part) ?? (part.endsWith('.vml') ? NOTE_SHAPES : undefined), xml);
  file.replace(target, withRelations(grafting, part, target, xml));
  return target;
}

function withRelations(grafting: Grafting, part: string, target: string, xml: string): string {
  const { file, fresh } = grafting;
  const ids = new Map<string, string>();
  for (const { id, type, target: leads } of fresh.relationships(part))
    ids.set(id, file.relate(target, type, copyPart(grafting, leads)));
  return ids.size === 0
    ? xml
    : xml.replace(/(\sr:(?:id|embed)=")(rId\d+)"/g, (whole, head: string, id: string) => {
        const now = ids.get(id);
        return now === undefined ? whole : `${head}${now}"`;
      });
}

function sheetXml({ cells, marks, texts, dynamic }: Grafting, xml: string): string {
  return xml
    .replace(/<c r="[^>]*>(?:<v>\d+<\/v>)?/g, (head) =>
      head
        .replace(/ s="(\d+)"/, (_, n: string) => ` s="${cells[Number(n)] ?? 0}"`)
        .replace(/ cm="1"/, dynamic === undefined ? '' : ` cm="${dynamic}"`)
        .replace(/( t="s"[^>]*>)<v>(\d+)<\/v>/, (_, open: string, n: string) => {
          return `${open}<v>${texts[Number(n)] ?? 0}</v>`;
        }),
    )
    .replace(/ dxfId="(\d+)"/g, (_, n: string) => ` dxfId="${marks[Number(n)] ?? 0}"`)
    .replace(/ tabSelected="1"/, '');
}

/** What becomes of the sheets of a file. */
export interface Graft {
  /** Sheets of the older plan, by their names in the file. */
  readonly gone: ReadonlySet<string>;
  /** Names of the whole file that go: those of the older plan. */
  readonly namesGone: (name: string) => boolean;
  /** What a name of somebody's own stands for now. */
  readonly nameText: (name: string, text: string) => string;
  /** Charts on the older plan's sheets that stay in the file. */
  readonly keptParts: ReadonlySet<string>;
  /** The farm file that is kept inside. */
  readonly farm: string;
}

/** Own sheets stay behind the sheet of the plan that they stood behind. */
function sheetOrder(
  before: readonly string[],
  { gone }: Graft,
  plan: readonly string[],
): readonly string[] {
  const order = [...plan];
  let anchor: string | undefined;
  for (const name of before) {
    if (gone.has(name) && plan.includes(name)) anchor = name;
    if (gone.has(name)) continue;
    order.splice(anchor === undefined ? 0 : order.indexOf(anchor) + 1, 0, name);
    anchor = name;
  }
  return order;
}

function writeWorkbook(
  file: Package,
  book: WorkbookParts,
  graft: Graft,
  fresh: { readonly book: WorkbookParts; readonly ids: ReadonlyMap<string, string> },
): void {
  const { part, root } = book;
  const xml = file.text(part);
  const list = childNamed(root, 'sheets');
  if (!list) return;
  const entries = childrenNamed(list, 'sheet');
  const nameOf = (at: (typeof entries)[number]): string => at.attributes['name'] ?? '';
  const before = entries.map(nameOf);
  const order = sheetOrder(
    before,
    graft,
    fresh.book.sheets.map(({ name }) => name),
  );
  let highest = Math.max(0, ...entries.map(({ attributes }) => Number(attributes['sheetId'] ?? 0)));
  const { prefix } = root;
  const sheets = order.map((name) => {
    const old = entries.find((entry) => nameOf(entry) === name);
    const id = fresh.ids.get(name);
    if (id === undefined) return old ? xml.slice(old.start, old.end) : '';
    return element(`${prefix}sheet`, {
      'xmlns:r': OFFICE_RELATIONSHIPS,
      name,
      sheetId: old?.attributes['sheetId'] ?? (highest += 1),
      state: old?.attributes['state'],
      'r:id': id,
    });
  });
  const places = new Map(order.map((name, i) => [name, i]));
  const kept = book.names.flatMap(({ name, element: definedName, text, sheet }) => {
    const rest = Object.fromEntries(
      Object.entries(definedName.attributes).filter(
        ([key]) => !['name', 'localSheetId'].includes(key),
      ),
    );
    if (sheet === undefined && definedName.attributes['localSheetId'] === undefined)
      return graft.namesGone(name)
        ? []
        : [{ name, text: graft.nameText(name, text), rest, place: undefined }];
    // A number may mean a sheet that holds no cells.
    const local = sheet ?? before[Number(definedName.attributes['localSheetId'])];
    if (local === undefined || graft.gone.has(local)) return [];
    return [{ name, text: graft.nameText(name, text), rest, place: places.get(local) }];
  });
  const added = fresh.book.names.map(({ name, text, sheet }) => ({
    name,
    text,
    rest: {},
    place: sheet === undefined ? undefined : places.get(sheet),
  }));
  const key = ({ name }: { readonly name: string }): string => name.toLowerCase();
  const names = [...kept, ...added]
    .sort((a, b) => (key(a) < key(b) ? -1 : key(a) > key(b) ? 1 : 0))
    .map(({ name, text, rest, place }) =>
      textElement(`${prefix}definedName`, text, { name, localSheetId: place, ...rest }),
    );
  const named = childNamed(root, 'definedNames');
  const splices: Splice[] = [
    {
      start: list.start,
      end: list.end,
      text: element(`${prefix}sheets`, {}, sheets),
    },
  ];
  const whole = element(`${prefix}definedNames`, {}, names);
  if (named) splices.push({ start: named.start, end: named.end, text: whole });
  else {
    const after = ['externalReferences', 'functionGroups', 'sheets']
      .map((name) => childNamed(root, name))
      .find(Boolean);
    const at = after?.end ?? list.end;
    splices.push({ start: at, end: at, text: whole });
  }
  for (const view of childrenNamed(childNamed(root, 'bookViews'), 'workbookView')) {
    const open = xml.slice(view.start, view.openEnd);
    const text = open.replace(/\s(?:activeTab|firstSheet)=(?:"[^"]*"|'[^']*')/g, '');
    splices.push({ start: view.start, end: view.openEnd, text });
  }
  file.edit(part, splices);
}

/** The farm that is kept inside a workbook. */
function replaceFarm(file: Package, workbook: string, json: string): void {
  // Some programs let another part lead to it.
  const part = file.names.find(
    (name) =>
      /^customXml\/[^/]+\.xml$/i.test(name) &&
      file.readableText(name)?.includes(`xmlns="${FARM_NAMESPACE}"`),
  );
  if (part !== undefined) file.replace(part, xmlPart(farmXml(json)));
  else if (!file.has('customXml/item1.xml') && !file.has('customXml/itemProps1.xml'))
    addFarm(file, workbook, json);
  else {
    const item = freePart(file, (n) => `customXml/item${n}.xml`);
    file.add(item, undefined, xmlPart(farmXml(json)));
    file.relate(workbook, 'customXml', item);
  }
}

/** Two sheets in front at once would be typed into together: the first of the plan alone is. */
function selectFirst(file: Package): void {
  readWorkbookParts(file).sheets.forEach(({ part }, i) => {
    const splices = childrenNamed(childNamed(file.root(part), 'sheetViews'), 'sheetView').map(
      ({ start, openEnd }): Splice => {
        const open = file
          .text(part)
          .slice(start, openEnd)
          .replace(/\stabSelected=(?:"[^"]*"|'[^']*')/g, '');
        const text = i === 0 ? open.replace(/(\s*\/?>)$/, ' tabSelected="1"$1') : open;
        return { start, end: openEnd, text };
      },
    );
    file.edit(part, splices);
  });
}

/**
 * Puts the sheets of `fresh`, the bytes of a plan, into a file in place of those that go. Everything else of the
 * file stays: own sheets, styles, names, charts.
 */
export function graftPlan(file: Package, freshBytes: Uint8Array, graft: Graft): void {
  const fresh = Package.open(freshBytes);
  const freshBook = readWorkbookParts(fresh);
  const book = readWorkbookParts(file);
  const { cells, marks } = mergeStyles(file, book.part, fresh, freshBook.part);
  const texts = mergeTexts(file, book.part, fresh, freshBook.part);
  for (const { name, part } of book.sheets)
    if (graft.gone.has(name)) removeSheet(file, book.part, part, graft.keptParts);
  const isLive = fresh.related(freshBook.part, 'sheetMetadata') !== undefined;
  const own = book.tables.filter(({ sheet }) => !graft.gone.has(sheet));
  const grafting: Grafting = {
    file,
    fresh,
    cells,
    marks,
    texts,
    dynamic: isLive ? dynamicArrayMark(file, book.part) : undefined,
    nextTable:
      1 + Math.max(0, ...own.map(({ part }) => Number(file.root(part).attributes['id'] ?? 0))),
  };
  const ids = new Map<string, string>();
  for (const { name, part } of freshBook.sheets) {
    const target = freePart(file, (n) => `xl/worksheets/sheet${n}.xml`);
    const xml = sheetXml(grafting, fresh.text(part));
    file.add(target, spreadsheetType('worksheet'), xml);
    file.replace(target, withRelations(grafting, part, target, xml));
    ids.set(name, file.relate(book.part, 'worksheet', target));
  }
  writeWorkbook(file, book, graft, { book: freshBook, ids });
  replaceFarm(file, book.part, graft.farm);
  removeCalculationOrder(file);
  selectFirst(file);
}

/** Widths of columns of a sheet that hold what is somebody's own. */
export function setWidths(
  file: Package,
  part: string,
  widths: ReadonlyMap<number, Readonly<Record<string, string>>>,
): void {
  if (widths.size === 0) return;
  const root = file.root(part);
  const cols = childNamed(root, 'cols');
  const kept = childrenNamed(cols, 'col').filter(({ attributes }) => {
    const [min, max] = [Number(attributes['min']), Number(attributes['max'])];
    return min !== max || !widths.has(min - 1);
  });
  const all = [
    ...kept.map(({ start, end, attributes }) => ({
      min: Number(attributes['min']),
      text: file.text(part).slice(start, end),
    })),
    ...[...widths].map(([column, attributes]) => ({
      min: column + 1,
      text: element(`${root.prefix}col`, {
        ...attributes,
        // The column behind folded ones bears their plus sign.
        collapsed: childrenNamed(cols, 'col').find(
          (columnElement) => Number(columnElement.attributes['min']) === column + 1,
        )?.attributes['collapsed'],
        min: column + 1,
        max: column + 1,
      }),
    })),
  ].sort((a, b) => a.min - b.min);
  const data = childNamed(root, 'sheetData');
  const at = cols ?? { start: data?.start ?? 0, end: data?.start ?? 0 };
  file.edit(part, [
    {
      start: at.start,
      end: at.end,
      text: element(
        `${root.prefix}cols`,
        {},
        all.map(({ text }) => text),
      ),
    },
  ]);
}

/** Makes the table of a fresh sheet wider by columns with these heads. */
export function widenTable(file: Package, sheet: string, heads: readonly string[]): void {
  const table = readWorkbookParts(file).tables.find((tablePart) => tablePart.sheet === sheet);
  if (!table || heads.length === 0) return;
  const { area, part } = table;
  const ref = `${cellAddress(area.row, area.column)}:${cellAddress(
    area.row + area.rows - 1,
    area.column + area.columns + heads.length - 1,
  )}`;
  const xml = file
    .text(part)
    .replace(/(<(?:table|autoFilter) [^>]*?\bref=")[^"]*"/g, `$1${ref}"`)
    .replace(/<tableColumns count="\d+"/, `<tableColumns count="${area.columns + heads.length}"`)
    .replace(
      '</tableColumns>',
      () =>
        `${heads
          .map((name, i) => element('tableColumn', { id: area.columns + i + 1, name }))
          .join('')}</tableColumns>`,
    );
  file.replace(part, xml);
}
