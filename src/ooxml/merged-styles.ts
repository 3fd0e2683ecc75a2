/** The styles of one file added to those of another, each once. */
import { SPREADSHEET } from './namespaces';
import type { Package } from './package';
import { childNamed, type Splice, type XmlElement } from './read-xml';
import { UnreadableFile } from './unreadable-file';
import { element, escapeAttribute } from './write-xml';

/** Lists of the style part in the order of the format (ECMA-376, part 1, 18.8.39). */
const LISTS = [
  'numFmts',
  'fonts',
  'fills',
  'borders',
  'cellStyleXfs',
  'cellXfs',
  'cellStyles',
  'dxfs',
] as const;
type ListName = (typeof LISTS)[number];
const FIRST_OWN_FORMAT = 164;

function stylesPart(file: Package, workbook: string): string {
  const part = file.related(workbook, 'styles')?.target;
  if (part === undefined || !file.has(part))
    throw new UnreadableFile(
      'The file has no part for styles, so that no plan can be put into it.',
    );
  return part;
}

/** One list that grows: entries that are there already are not added again. */
class Growing {
  readonly added: string[] = [];
  private readonly places = new Map<string, number>();
  private readonly before: number;

  constructor(
    readonly there: XmlElement | undefined,
    xml: string,
  ) {
    const children = there?.children ?? [];
    this.before = children.length;
    children.forEach(({ start, end }, i) => {
      const text = xml.slice(start, end);
      if (!this.places.has(text)) this.places.set(text, i);
    });
  }

  place(text: string): number {
    const known = this.places.get(text);
    if (known !== undefined) return known;
    const at = this.before + this.added.length;
    this.added.push(text);
    this.places.set(text, at);
    return at;
  }
}

/** Numbers of styles and of marks as the other file has them, and as this one has them now. */
export interface MergedStyles {
  readonly cells: readonly number[];
  readonly marks: readonly number[];
}

/** Puts the styles of `fresh`, a file of this project, at the end of those of `file`: none that is there changes. */
export function mergeStyles(
  file: Package,
  workbook: string,
  fresh: Package,
  freshWorkbook: string,
): MergedStyles {
  const part = stylesPart(file, workbook);
  const from = stylesPart(fresh, freshWorkbook);
  const root = file.root(part);
  const xml = file.text(part);
  const freshXml = fresh.text(from);
  const lists = Object.fromEntries(
    LISTS.map((name) => [name, new Growing(childNamed(root, name), xml)]),
  ) as Record<ListName, Growing>;
  const freshOf = (name: ListName): readonly XmlElement[] =>
    childNamed(fresh.root(from), name)?.children ?? [];
  // Entries written without a prefix say where they belong in a part that has one.
  const fitted = (text: string): string =>
    root.prefix === '' ? text : text.replace(/^<([\w:]+)/, `<$1 xmlns="${SPREADSHEET}"`);
  const inner = ({ openEnd, end, selfClosing }: XmlElement): string =>
    selfClosing ? '' : freshXml.slice(openEnd, freshXml.lastIndexOf('</', end - 1));
  const same = (name: ListName): number[] =>
    freshOf(name).map(({ start, end }) => lists[name].place(fitted(freshXml.slice(start, end))));

  const formats = new Map<number, number>();
  const known = childNamed(root, 'numFmts')?.children ?? [];
  let highest = Math.max(
    FIRST_OWN_FORMAT - 1,
    ...known.map(({ attributes }) => Number(attributes['numFmtId'])),
  );
  for (const { attributes } of freshOf('numFmts')) {
    const code = attributes['formatCode'] ?? '';
    const there = known.find((format) => format.attributes['formatCode'] === code);
    const id = there ? Number(there.attributes['numFmtId']) : (highest += 1);
    if (!there) lists.numFmts.place(fitted(element('numFmt', { numFmtId: id, formatCode: code })));
    formats.set(Number(attributes['numFmtId']), id);
  }
  const [fonts, fills, borders] = [same('fonts'), same('fills'), same('borders')];
  const xf = (cellFormat: XmlElement, base?: number): string => {
    const { attributes } = cellFormat;
    const at = (places: readonly number[], name: string): number =>
      places[Number(attributes[name] ?? 0)] ?? 0;
    const format = Number(attributes['numFmtId'] ?? 0);
    return fitted(
      element(
        'xf',
        {
          ...attributes,
          numFmtId: formats.get(format) ?? format,
          fontId: at(fonts, 'fontId'),
          fillId: at(fills, 'fillId'),
          borderId: at(borders, 'borderId'),
          ...(base !== undefined && { xfId: base }),
        },
        inner(cellFormat),
      ),
    );
  };
  const ownStyles = childNamed(root, 'cellStyles')?.children ?? [];
  const freshStyles = freshOf('cellStyles');
  const bases = freshOf('cellStyleXfs').map((baseFormat, i) => {
    const name = freshStyles.find(({ attributes }) => Number(attributes['xfId']) === i)?.attributes[
      'name'
    ];
    const there = ownStyles.find(({ attributes }) => attributes['name'] === name);
    if (there) return Number(there.attributes['xfId'] ?? 0);
    const place = lists.cellStyleXfs.place(xf(baseFormat));
    if (name !== undefined)
      lists.cellStyles.place(
        fitted(`<cellStyle name="${escapeAttribute(name)}" xfId="${place}"/>`),
      );
    return place;
  });
  const cells = freshOf('cellXfs').map((cellFormat) =>
    lists.cellXfs.place(xf(cellFormat, bases[Number(cellFormat.attributes['xfId'] ?? 0)] ?? 0)),
  );
  const marks = same('dxfs');

  const splices: Splice[] = [];
  LISTS.forEach((name, i) => {
    const { there, added } = lists[name];
    if (added.length === 0) return;
    const text = added.join('');
    if (there) {
      const open = xml
        .slice(there.start, there.openEnd)
        .replace(/(\scount=["'])\d+/, `$1${there.children.length + added.length}`)
        .replace(/\s*\/>$/, '>');
      if (there.selfClosing) {
        const whole = `${open}${text}</${there.prefix}${name}>`;
        splices.push({ start: there.start, end: there.end, text: whole });
        return;
      }
      const at = xml.lastIndexOf('</', there.end - 1);
      splices.push({ start: there.start, end: there.openEnd, text: open });
      splices.push({ start: at, end: at, text });
      return;
    }
    const before = LISTS.slice(0, i)
      .reverse()
      .map((listName) => childNamed(root, listName))
      .find(Boolean);
    const at = before?.end ?? root.openEnd;
    const whole = element(`${root.prefix}${name}`, { count: added.length }, text);
    splices.push({ start: at, end: at, text: whole });
  });
  file.edit(part, splices);
  return { cells, marks };
}

/** Numbers of the styles of a file by whether this project made the cells that have them. */
export interface PlanStyles {
  /** Their named style says so. */
  readonly sure: ReadonlySet<number>;
  /** Labels and plain words, which look as a cell does that nobody gave a look; not the first of all, which every cell has. */
  readonly likely: ReadonlySet<number>;
}

export function planStyles(file: Package, workbook: string): PlanStyles {
  const part = file.related(workbook, 'styles')?.target;
  if (part === undefined || !file.has(part)) return { sure: new Set(), likely: new Set() };
  const root = file.root(part);
  const named = (test: (name: string) => boolean): Set<string> =>
    new Set(
      (childNamed(root, 'cellStyles')?.children ?? [])
        .filter(({ attributes }) => test(attributes['name'] ?? ''))
        .map(({ attributes }) => attributes['xfId'] ?? '0'),
    );
  const all = childNamed(root, 'cellXfs')?.children ?? [];
  const first = all[0]?.attributes ?? {};
  const common = named((name) => name === 'Normal').add(first['xfId'] ?? '0');
  const farm = named((name) => /^Farm\b/.test(name));
  const of = (test: (attributes: Readonly<Record<string, string>>) => boolean): Set<number> =>
    new Set(all.flatMap(({ attributes }, i) => (i > 0 && test(attributes) ? [i] : [])));
  const base = ({ xfId = '0' }: Readonly<Record<string, string>>): string => xfId;
  return {
    sure: of((attributes) => farm.has(base(attributes)) && !common.has(base(attributes))),
    likely: of(
      (attributes) =>
        common.has(base(attributes)) &&
        ['fontId', 'fillId', 'borderId'].every((name) => attributes[name] === first[name]) &&
        ['0', '1', '3', '49'].includes(attributes['numFmtId'] ?? '0'),
    ),
  };
}
