/** Pictures, shapes and charts that somebody put on sheets of a plan, carried to where their cells stand now. */
import { OFFICE_RELATIONSHIPS } from '../ooxml/namespaces';
import type { Package, Relationship } from '../ooxml/package';
import { descendants, type XmlElement } from '../ooxml/read-xml';
import type { SheetPart, WorkbookParts } from '../ooxml/workbook-parts';
import { element, xmlPart } from '../ooxml/write-xml';
import type { CellPlace } from '../plan/book-snapshot';
import type { WorkbookModel } from '../plan/workbook-model';

export interface OwnDrawing {
  /** In words: 'The chart "Fish" of your own'. */
  readonly what: string;
  /** The cell under its upper left corner. */
  readonly at: CellPlace;
  /** Its anchor, which brings its namespaces along. */
  readonly xml: string;
  readonly links: readonly Relationship[];
  /** Parts that go where it goes. */
  readonly charts: readonly string[];
}

const DRAWING = 'http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing';
const DRAWING_TYPE = 'application/vnd.openxmlformats-officedocument.drawing+xml';
const OWN_SHAPES = ['pic', 'sp', 'cxnSp', 'grpSp'];

const titleOf = (file: Package, chart: string): string =>
  descendants(file.root(chart), 'title')
    .slice(0, 1)
    .flatMap((title) => descendants(title, 't').map(({ text }) => text))
    .join('');

/** An anchor's own text with the namespaces of its drawing. */
function standingAlone(xml: string, root: XmlElement, anchor: XmlElement): string {
  const text = xml.slice(anchor.start, anchor.end);
  const open = xml.slice(root.start, root.openEnd);
  const spaces = [...open.matchAll(/\sxmlns(?::\w+)?=(?:"[^"]*"|'[^']*')/g)].map(
    ([declaration]) => declaration,
  );
  const head = xml.slice(anchor.start, anchor.openEnd);
  const missing = spaces.filter(
    (declaration) => !head.includes(`${declaration.split('=')[0] ?? ''}=`),
  );
  return text.replace(/^<[\w:]+/, (name) => name + missing.join(''));
}

/** What stands on sheets of the plan and is none of its own charts, which are known by their titles. */
export function ownDrawings(
  { file, book }: { readonly file: Package; readonly book: WorkbookParts },
  sheets: ReadonlyMap<string, string>,
  plan: WorkbookModel,
): OwnDrawing[] {
  const planned = new Set(plan.sheets.flatMap((sheet) => sheet.charts.map(({ title }) => title)));
  return book.sheets.flatMap(({ name, part }) => {
    if (!sheets.has(name)) return [];
    const drawing = file
      .relationships(part)
      .find(({ type, target }) => type.endsWith('/drawing') && file.has(target))?.target;
    if (drawing === undefined) return [];
    const root = file.root(drawing);
    const xml = file.text(drawing);
    const links = file.relationships(drawing);
    return ['twoCellAnchor', 'oneCellAnchor'].flatMap((kind) =>
      descendants(root, kind).flatMap((anchor): OwnDrawing[] => {
        const text = standingAlone(xml, root, anchor);
        const used = links.filter(({ id }) => text.includes(`"${id}"`));
        const charts = used
          .filter(({ type, target }) => type.endsWith('/chart') && file.has(target))
          .map(({ target }) => target);
        const titles = charts.map((chart) => titleOf(file, chart));
        const isShape = OWN_SHAPES.some((shape) => descendants(anchor, shape).length > 0);
        if (!isShape && titles.every((title) => planned.has(title))) return [];
        const from = descendants(anchor, 'from')[0];
        const corner = (side: string): number =>
          Number((from && descendants(from, side)[0]?.text) ?? 0);
        return [
          {
            what: isShape ? 'A picture or shape' : `The chart "${titles.join(', ')}" of your own`,
            at: { sheet: name, row: corner('row'), column: corner('col') },
            xml: text,
            links: used,
            charts,
          },
        ];
      }),
    );
  });
}

/** Moves both corners of an anchor by as much. */
const movedBy = (xml: string, rows: number, columns: number): string =>
  xml.replace(
    /(<(?:\w+:)?(?:from|to)\b[^>]*>[\s\S]*?<(?:\w+:)?col>)(\d+)([\s\S]*?<(?:\w+:)?row>)(\d+)/g,
    (_, head: string, column: string, between: string, row: string) =>
      `${head}${Math.max(0, Number(column) + columns)}${between}${Math.max(0, Number(row) + rows)}`,
  );

const freeDrawing = (file: Package): string => {
  for (let n = 1; ; n++) {
    const name = `xl/drawings/drawing${n}.xml`;
    if (!file.has(name)) return name;
  }
};

/** The drawing of a sheet, a new one where it has none. */
function drawingOf(file: Package, sheet: string): string {
  const known = file.related(sheet, 'drawing')?.target;
  if (known !== undefined && file.has(known)) return known;
  const part = freeDrawing(file);
  file.add(part, DRAWING_TYPE, xmlPart(`<xdr:wsDr xmlns:xdr="${DRAWING}"></xdr:wsDr>`));
  const id = file.relate(sheet, 'drawing', part);
  const xml = file.text(sheet);
  // Before the parts that the order of a sheet wants behind it.
  const behind =
    /<(?:\w+:)?(?:legacyDrawing|legacyDrawingHF|picture|oleObjects|controls|webPublishItems|tableParts|extLst)\b|<\/(?:\w+:)?worksheet>/;
  const at = behind.exec(xml)?.index ?? xml.length;
  const { prefix } = file.root(sheet);
  const link = element(`${prefix}drawing`, { 'xmlns:r': OFFICE_RELATIONSHIPS, 'r:id': id });
  file.edit(sheet, [{ start: at, end: at, text: link }]);
  return part;
}

/** Puts drawings onto the sheets that stand in place of theirs. */
export function placeDrawings(
  file: Package,
  sheets: readonly SheetPart[],
  placed: readonly { readonly drawing: OwnDrawing; readonly to: CellPlace }[],
): void {
  placed.forEach(({ drawing, to }, i) => {
    const sheet = sheets.find(({ name }) => name === to.sheet);
    if (!sheet) return;
    const part = drawingOf(file, sheet.part);
    const ids = new Map(
      drawing.links.map(({ id, type, target, external }) => [
        id,
        file.relate(part, type, target, external),
      ]),
    );
    const xml = movedBy(drawing.xml, to.row - drawing.at.row, to.column - drawing.at.column)
      .replace(/(\s\w+:(?:id|embed|link|pict)=")([^"]+)"/g, (whole, head: string, id: string) => {
        const now = ids.get(id);
        return now === undefined ? whole : `${head}${now}"`;
      })
      // Numbers of shapes are told apart within a drawing.
      .replace(
        /(<(?:\w+:)?cNvPr\b[^>]*?\sid=")(\d+)"/g,
        (_, head: string, id: string) => `${head}${Number(id) + 1000 * (i + 1)}"`,
      );
    const text = file.text(part);
    const at = text.lastIndexOf('</');
    file.edit(part, [{ start: at, end: at, text: xml }]);
  });
}
