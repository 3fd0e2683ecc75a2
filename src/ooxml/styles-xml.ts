import {
  type Edge,
  FONT,
  FONT_SIZE,
  type Look,
  looks,
  type Mark,
  marks,
  numberFormats,
} from '../plan/looks';
import type { ConditionModel, FormatId, LookId } from '../plan/workbook-model';
import { element, xmlPart } from './write-xml';
import { SPREADSHEET } from './namespaces';

/** "#22303A" as files hold it. */
export const argb = (colour: string): string => `FF${colour.slice(1)}`;

/** What a cell's style is made of. */
export interface CellStyle {
  readonly look: LookId;
  readonly format: FormatId;
  readonly wrap: boolean;
  readonly isText: boolean;
  /** Text that would be taken for a formula or number when edited stays text. */
  readonly keepText: boolean;
}

/** Entries of one list of the style part, each once; so many of another writer may stand before them. */
class Entries {
  private readonly places = new Map<string, number>();
  constructor(
    first: readonly string[] = [],
    private readonly before = 0,
  ) {
    first.forEach((xml) => this.place(xml));
  }
  place(xml: string): number {
    const known = this.places.get(xml);
    if (known !== undefined) return known;
    const place = this.before + this.places.size;
    this.places.set(xml, place);
    return place;
  }
  get all(): readonly string[] {
    return [...this.places.keys()];
  }
  each<T>(make: (entry: string, place: number) => T): T[] {
    return [...this.places].map(([entry, place]) => make(entry, place));
  }
  /** Without entries there is no list. */
  list(name: string): string {
    const { size } = this.places;
    return size === 0 ? '' : element(name, { count: size }, [...this.places.keys()]);
  }
}

const font = ({ size = FONT_SIZE, colour, bold, italic }: Look): string =>
  element('font', {}, [
    bold ? '<b/>' : '',
    italic ? '<i/>' : '',
    element('sz', { val: size }),
    element('color', { rgb: argb(colour) }),
    element('name', { val: FONT }),
    element('family', { val: 2 }),
  ]);

const fill = (colour: string): string =>
  element('fill', {}, [
    element('patternFill', { patternType: 'solid' }, [
      element('fgColor', { rgb: argb(colour) }),
      element('bgColor', { indexed: 64 }),
    ]),
  ]);

const side = (name: string, edge: Edge | undefined): string =>
  edge
    ? element(name, { style: edge.style }, element('color', { rgb: argb(edge.colour) }))
    : element(name);

const border = (edges: Look['edges'] = {}): string =>
  element('border', {}, [
    side('left', edges.left),
    side('right', edges.right),
    side('top', edges.top),
    side('bottom', edges.bottom),
    element('diagonal'),
  ]);

const markStyle = ({ colour, fill: paint, bold, italic, edge }: Mark): string =>
  element('dxf', {}, [
    element('font', {}, [
      bold ? '<b/>' : '',
      italic ? '<i/>' : '',
      element('color', { rgb: argb(colour) }),
    ]),
    element('fill', {}, [
      element('patternFill', { patternType: 'solid' }, [
        element('fgColor', { rgb: argb(paint) }),
        element('bgColor', { rgb: argb(paint) }),
      ]),
    ]),
    edge
      ? element(
          'border',
          {},
          ['left', 'right', 'top', 'bottom'].map((name) => side(name, edge)),
        )
      : '',
  ]);

// Formats that every spreadsheet knows by number.
const builtInFormats: Readonly<Record<string, number>> = {
  General: 0,
  '#,##0': 3,
  '#,##0.00': 4,
  '@': 49,
};
const FIRST_OWN_FORMAT = 164;

/** How many entries of each list a style part has already, and the first number that is free for a format. */
export interface StylesBefore {
  readonly fonts: number;
  readonly fills: number;
  readonly borders: number;
  readonly cellXfs: number;
  readonly dxfs: number;
  readonly firstFormat: number;
}

/** Collects the styles that a workbook uses and writes the style part, or what comes to one that is there. */
export class StyleBook {
  private readonly fonts: Entries;
  private readonly fills: Entries;
  private readonly borders: Entries;
  private readonly formats: Entries;
  private readonly styles: Entries;
  private readonly lookStyles = new Entries();
  private readonly namedStyles = new Entries();
  private readonly markStyles: Entries;
  private readonly known = new Map<string, number>();

  constructor(private readonly before?: StylesBefore) {
    this.fonts = new Entries([], before?.fonts);
    const usual = [
      '<fill><patternFill patternType="none"/></fill>',
      '<fill><patternFill patternType="gray125"/></fill>',
    ];
    this.fills = new Entries(before ? [] : usual, before?.fills);
    this.borders = new Entries([], before?.borders);
    this.formats = new Entries([], before?.firstFormat ?? FIRST_OWN_FORMAT);
    this.styles = new Entries([], before?.cellXfs);
    this.markStyles = new Entries([], before?.dxfs);
    if (before) return;
    this.cell({ look: 'text', format: 'general', wrap: false, isText: false, keepText: false });
  }

  private formatId(format: FormatId): number {
    const formatCode = numberFormats[format];
    const builtIn = builtInFormats[formatCode];
    if (builtIn !== undefined) return builtIn;
    return this.formats.place(formatCode);
  }

  /** The named style of a look, so that a reader can change all inputs of a workbook in one place. */
  private lookStyle(id: LookId): number {
    // Named styles of a workbook are its own.
    if (this.before) return 0;
    const look = looks[id];
    const place = this.lookStyles.place(
      element('xf', {
        numFmtId: 0,
        fontId: this.fonts.place(font(look)),
        fillId: look.fill ? this.fills.place(fill(look.fill)) : 0,
        borderId: this.borders.place(border(look.edges)),
      }),
    );
    const isNormal = id === 'text';
    this.namedStyles.place(
      element('cellStyle', {
        name: isNormal ? 'Normal' : `Farm ${look.name.toLowerCase()}`,
        xfId: place,
        builtinId: isNormal ? 0 : undefined,
      }),
    );
    return place;
  }

  /** Number of a cell's style. */
  cell({ look: id, format, wrap, isText, keepText }: CellStyle): number {
    const key = `${id} ${format} ${wrap} ${isText} ${keepText}`;
    const known = this.known.get(key);
    if (known !== undefined) return known;
    const look = looks[id];
    const indented = isText && look.indent === true;
    const place = this.styles.place(
      element(
        'xf',
        {
          numFmtId: this.formatId(format),
          fontId: this.fonts.place(font(look)),
          fillId: look.fill ? this.fills.place(fill(look.fill)) : 0,
          borderId: this.borders.place(border(look.edges)),
          xfId: this.lookStyle(id),
          quotePrefix: keepText ? 1 : undefined,
          applyNumberFormat: 1,
          applyFont: 1,
          applyFill: 1,
          applyBorder: 1,
          applyAlignment: 1,
        },
        element('alignment', {
          horizontal: indented ? 'left' : look.align,
          vertical: 'center',
          wrapText: wrap ? 1 : undefined,
          indent: indented ? 1 : undefined,
        }),
      ),
    );
    this.known.set(key, place);
    return place;
  }

  mark(mark: ConditionModel['mark']): number {
    return this.markStyles.place(markStyle(marks[mark]));
  }

  private numberFormats(): string[] {
    return this.formats.each((formatCode, numFmtId) => element('numFmt', { numFmtId, formatCode }));
  }

  /** What comes to each list of a style part that is there. */
  additions(): ReadonlyMap<string, readonly string[]> {
    return new Map([
      ['numFmts', this.numberFormats()],
      ['fonts', this.fonts.all],
      ['fills', this.fills.all],
      ['borders', this.borders.all],
      ['cellXfs', this.styles.all],
      ['dxfs', this.markStyles.all],
    ]);
  }

  xml(): string {
    const formats = this.numberFormats();
    return xmlPart(
      element('styleSheet', { xmlns: SPREADSHEET }, [
        formats.length > 0 ? element('numFmts', { count: formats.length }, formats) : '',
        this.fonts.list('fonts'),
        this.fills.list('fills'),
        this.borders.list('borders'),
        this.lookStyles.list('cellStyleXfs'),
        this.styles.list('cellXfs'),
        this.namedStyles.list('cellStyles'),
        this.markStyles.list('dxfs'),
      ]),
    );
  }
}
