import type { Package } from './package';
import { childNamed, childrenNamed, type Splice, type XmlElement } from './read-xml';
import type { FileEdge } from './read-styles';
import { UnreadableFile } from './unreadable-file';
import { element, escapeAttribute } from './write-xml';

/** What of a cell's look becomes another; what is left out stays, what is undefined goes. */
export interface StyleChange {
  readonly bold?: boolean | undefined;
  readonly italic?: boolean | undefined;
  readonly underline?: boolean | undefined;
  readonly strike?: boolean | undefined;
  readonly size?: number | undefined;
  readonly colour?: string | undefined;
  readonly fill?: string | undefined;
  readonly edges?: Readonly<Partial<Record<string, FileEdge>>> | undefined;
  readonly format?: string | undefined;
  readonly horizontal?: string | undefined;
  readonly vertical?: string | undefined;
  readonly wrap?: boolean | undefined;
  /** Whether the cell stays as it is where its sheet is protected. */
  readonly locked?: boolean | undefined;
}

const argb = (colour: string): string => `FF${colour.replace('#', '')}`;

/** The order in which the format wants the parts of a font. */
const FONT_ORDER = [
  ...['b', 'i', 'strike', 'condense', 'extend', 'outline', 'shadow', 'u', 'vertAlign', 'sz'],
  ...['color', 'name', 'family', 'charset', 'scheme'],
];

const FIRST_OWN_FORMAT = 164;

/** New styles at the end of a workbook's own: none that is there changes. */
export class StyleAdditions {
  private readonly part: string;
  private readonly added = new Map<string, string[]>();
  private readonly known = new Map<string, number>();

  constructor(
    private readonly file: Package,
    workbook: string,
  ) {
    const part = file.related(workbook, 'styles')?.target;
    if (part === undefined || !file.has(part)) {
      throw new UnreadableFile(
        'The file has no part for styles, so that no cell can get another look.',
      );
    }
    this.part = part;
  }

  private get root(): XmlElement {
    return this.file.root(this.part);
  }

  private list(name: string): XmlElement[] {
    return childNamed(this.root, name)?.children ?? [];
  }

  private xml({ start, end }: XmlElement): string {
    return this.file.text(this.part).slice(start, end);
  }

  /** Puts an entry at the end of a list and gives its number. */
  private place(list: string, xml: string): number {
    const added = this.added.get(list) ?? [];
    this.added.set(list, added);
    const there = added.indexOf(xml);
    const before = this.list(list).length;
    if (there >= 0) return before + there;
    added.push(xml);
    return before + added.length - 1;
  }

  private font(base: number, change: StyleChange): number {
    const { prefix } = this.root;
    const parts = new Map<string, string>();
    for (const child of this.list('fonts')[base]?.children ?? []) {
      parts.set(child.name, this.xml(child));
    }
    const mark = (name: string, on: boolean | undefined): void => {
      if (on) parts.set(name, element(`${prefix}${name}`));
      else parts.delete(name);
    };
    if ('bold' in change) mark('b', change.bold);
    if ('italic' in change) mark('i', change.italic);
    if ('underline' in change) mark('u', change.underline);
    if ('strike' in change) mark('strike', change.strike);
    if (change.size !== undefined) parts.set('sz', element(`${prefix}sz`, { val: change.size }));
    if ('colour' in change) {
      parts.set('color', element(`${prefix}color`, { rgb: argb(change.colour ?? '#000000') }));
    }
    const rank = ([name]: [string, string]): number =>
      (FONT_ORDER.indexOf(name) + FONT_ORDER.length + 1) % (FONT_ORDER.length + 1);
    const ordered = [...parts].sort((a, b) => rank(a) - rank(b));
    return this.place(
      'fonts',
      element(
        `${prefix}font`,
        {},
        ordered.map(([, xml]) => xml),
      ),
    );
  }

  private fill(colour: string | undefined): number {
    if (colour === undefined) return 0;
    const { prefix } = this.root;
    const paint = element(`${prefix}patternFill`, { patternType: 'solid' }, [
      element(`${prefix}fgColor`, { rgb: argb(colour) }),
      element(`${prefix}bgColor`, { indexed: 64 }),
    ]);
    return this.place('fills', element(`${prefix}fill`, {}, paint));
  }

  private border(edges: StyleChange['edges'] = {}): number {
    const { prefix } = this.root;
    const sides = ['left', 'right', 'top', 'bottom'].map((side) => {
      const edge = edges[side];
      return edge
        ? element(
            `${prefix}${side}`,
            { style: edge.style },
            element(`${prefix}color`, { rgb: argb(edge.colour) }),
          )
        : element(`${prefix}${side}`);
    });
    return this.place(
      'borders',
      element(`${prefix}border`, {}, [...sides, element(`${prefix}diagonal`)]),
    );
  }

  private format(code: string | undefined): number {
    if (code === undefined) return 0;
    const formats = childrenNamed(childNamed(this.root, 'numFmts'), 'numFmt');
    const same = formats.find(({ attributes }) => attributes['formatCode'] === code);
    if (same) return Number(same.attributes['numFmtId']);
    const highest = Math.max(
      FIRST_OWN_FORMAT - 1,
      ...formats.map((format) => Number(format.attributes['numFmtId'])),
    );
    const added = this.added.get('numFmts') ?? [];
    this.added.set('numFmts', added);
    const at = added.findIndex((xml) => xml.includes(` formatCode="${escapeAttribute(code)}"`));
    if (at >= 0) return highest + 1 + at;
    added.push(
      element(`${this.root.prefix}numFmt`, {
        numFmtId: highest + added.length + 1,
        formatCode: code,
      }),
    );
    return highest + added.length;
  }

  /** The number of a style that is another one changed. */
  changed(base: number, change: StyleChange): number {
    const key = `${base} ${JSON.stringify(change, (_, value: unknown) => value ?? null)}`;
    const known = this.known.get(key);
    if (known !== undefined) return known;
    const xf = this.list('cellXfs')[base];
    const { prefix } = this.root;
    const attributes: Record<string, string | number> = { ...(xf?.attributes ?? { xfId: 0 }) };
    const number = (name: string): number => Number(attributes[name] ?? 0);
    const isFont = ['bold', 'italic', 'underline', 'strike', 'size', 'colour'].some(
      (aspect) => aspect in change,
    );
    if (isFont)
      Object.assign(attributes, { fontId: this.font(number('fontId'), change), applyFont: 1 });
    if ('fill' in change)
      Object.assign(attributes, { fillId: this.fill(change.fill), applyFill: 1 });
    if ('edges' in change)
      Object.assign(attributes, { borderId: this.border(change.edges), applyBorder: 1 });
    if ('format' in change) {
      Object.assign(attributes, { numFmtId: this.format(change.format), applyNumberFormat: 1 });
    }
    const alignment: Record<string, string | undefined> = {
      ...childNamed(xf, 'alignment')?.attributes,
      ...('horizontal' in change && { horizontal: change.horizontal }),
      ...('vertical' in change && { vertical: change.vertical }),
      ...('wrap' in change && { wrapText: change.wrap ? '1' : undefined }),
    };
    const isAligned = Object.values(alignment).some((value) => value !== undefined);
    if (isAligned) attributes['applyAlignment'] = 1;
    const isOpen = change.locked === false;
    if (isOpen) attributes['applyProtection'] = 1;
    const others = (xf?.children ?? [])
      .filter(({ name }) => name !== 'alignment' && !(isOpen && name === 'protection'))
      .map((element) => this.xml(element));
    if (isOpen) others.unshift(element(`${prefix}protection`, { locked: 0 }));
    const place = this.place(
      'cellXfs',
      element(`${prefix}xf`, attributes, [
        isAligned ? element(`${prefix}alignment`, alignment) : '',
        ...others,
      ]),
    );
    this.known.set(key, place);
    return place;
  }

  /** The number of a mark that a rule puts on cells. */
  mark({ bold, italic, underline, strike, colour, fill }: StyleChange): number {
    const { prefix } = this.root;
    const sign = (name: string, on: boolean | undefined): string =>
      on ? element(`${prefix}${name}`) : '';
    const font = [
      sign('b', bold),
      sign('i', italic),
      sign('strike', strike),
      sign('u', underline),
      colour === undefined ? '' : element(`${prefix}color`, { rgb: argb(colour) }),
    ].join('');
    const paint =
      fill === undefined
        ? ''
        : element(
            `${prefix}fill`,
            {},
            element(`${prefix}patternFill`, {}, element(`${prefix}bgColor`, { rgb: argb(fill) })),
          );
    const parts = [font === '' ? '' : element(`${prefix}font`, {}, font), paint];
    return this.place('dxfs', element(`${prefix}dxf`, {}, parts));
  }

  /** Writes what was added. */
  write(): void {
    appendStyles(this.file, this.part, this.added);
    this.added.clear();
  }
}

/** The lists of a style part in the order of the format. */
const LISTS = [
  ...['numFmts', 'fonts', 'fills', 'borders', 'cellStyleXfs', 'cellXfs', 'cellStyles', 'dxfs'],
];

/** Puts entries at the end of the lists of a style part. */
export function appendStyles(
  file: Package,
  part: string,
  added: ReadonlyMap<string, readonly string[]>,
): void {
  const root = file.root(part);
  const { prefix } = root;
  const xml = file.text(part);
  const splices = [...added].flatMap(([name, entries]): Splice[] => {
    if (entries.length === 0) return [];
    const list = childNamed(root, name);
    const text = entries.join('');
    if (!list) {
      const whole = element(`${prefix}${name}`, { count: entries.length }, text);
      const before = LISTS.slice(0, LISTS.indexOf(name))
        .reverse()
        .flatMap((tag) => childNamed(root, tag) ?? [])[0];
      const at = before?.end ?? root.openEnd;
      return [{ start: at, end: at, text: whole }];
    }
    const count = list.children.length + entries.length;
    const open = xml
      .slice(list.start, list.openEnd)
      .replace(/(\scount=["'])\d+/, `$1${count}`)
      .replace(/\s*\/>$/, '>');
    if (list.selfClosing) {
      return [{ start: list.start, end: list.end, text: `${open}${text}</${prefix}${name}>` }];
    }
    const at = xml.lastIndexOf('</', list.end - 1);
    return [
      { start: list.start, end: list.openEnd, text: open },
      { start: at, end: at, text },
    ];
  });
  file.edit(part, splices);
}
