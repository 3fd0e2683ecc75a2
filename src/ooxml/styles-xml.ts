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

/** Entries of one list of the style part, each once. */
class Entries {
  private readonly places = new Map<string, number>();
  constructor(first: readonly string[] = []) {
    first.forEach((xml) => this.place(xml));
  }
  place(xml: string): number {
    const known = this.places.get(xml);
    if (known !== undefined) return known;
    this.places.set(xml, this.places.size);
    return this.places.size - 1;
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

/** Collects the styles that a workbook uses and writes the style part. */
export class StyleBook {
  private readonly fonts = new Entries();
  private readonly fills = new Entries([
    '<fill><patternFill patternType="none"/></fill>',
    '<fill><patternFill patternType="gray125"/></fill>',
  ]);
  private readonly borders = new Entries();
  private readonly formats = new Entries();
  private readonly styles = new Entries();
  private readonly lookStyles = new Entries();
  private readonly namedStyles = new Entries();
  private readonly markStyles = new Entries();
  private readonly known = new Map<string, number>();

  constructor() {
    this.cell({ look: 'text', format: 'general', wrap: false, isText: false, keepText: false });
  }

  private formatId(format: FormatId): number {
    const formatCode = numberFormats[format];
    const builtIn = builtInFormats[formatCode];
    if (builtIn !== undefined) return builtIn;
    return FIRST_OWN_FORMAT + this.formats.place(formatCode);
  }

  /** The named style of a look, so that a reader can change all inputs of a workbook in one place. */
  private lookStyle(id: LookId): number {
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

  xml(): string {
    const numberFormat = (formatCode: string, i: number): string =>
      element('numFmt', { numFmtId: FIRST_OWN_FORMAT + i, formatCode });
    const formats = this.formats.each(numberFormat);
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
