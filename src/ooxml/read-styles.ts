import type { Package } from './package';
import { childNamed, childrenNamed, descendants, type XmlElement } from './read-xml';

export interface FileEdge {
  /** As the format calls it: "thin", "double", … */
  readonly style: string;
  readonly colour: string;
}

/** How a cell looks, colours as "#22303A". */
export interface FileStyle {
  readonly bold?: boolean;
  readonly italic?: boolean;
  readonly underline?: boolean;
  readonly strike?: boolean;
  readonly size?: number;
  readonly colour?: string;
  readonly fill?: string;
  readonly edges?: Readonly<Partial<Record<'left' | 'right' | 'top' | 'bottom', FileEdge>>>;
  readonly format?: string;
  readonly horizontal?: string;
  readonly vertical?: string;
  readonly wrap?: boolean;
}

/** ECMA-376 (5th ed. 2021), part 1, 18.8.30: formats that files name by number alone. */
const BUILT_IN_FORMATS: Readonly<Record<number, string>> = {
  1: '0',
  2: '0.00',
  3: '#,##0',
  4: '#,##0.00',
  9: '0%',
  10: '0.00%',
  11: '0.00E+00',
  12: '# ?/?',
  13: '# ??/??',
  14: 'yyyy-mm-dd',
  15: 'd-mmm-yy',
  16: 'd-mmm',
  17: 'mmm-yy',
  18: 'h:mm AM/PM',
  19: 'h:mm:ss AM/PM',
  20: 'h:mm',
  21: 'h:mm:ss',
  22: 'm/d/yy h:mm',
  37: '#,##0;(#,##0)',
  38: '#,##0;(#,##0)',
  39: '#,##0.00;(#,##0.00)',
  40: '#,##0.00;(#,##0.00)',
  45: 'mm:ss',
  46: '[h]:mm:ss',
  47: 'mm:ss.0',
  48: '##0.0E+0',
  49: '@',
};

/** ECMA-376, part 1, 18.8.27: the colours that files name by number, from 8 on; 0 to 7 are the first eight. */
const PALETTE = (
  '000000FFFFFFFF000000FF000000FFFFFF00FF00FF00FFFF' +
  '800000008000000080808000800080008080C0C0C0808080' +
  '9999FF993366FFFFCCCCFFFF660066FF80800066CCCCCCFF' +
  '000080FF00FFFFFF0000FFFF8000808000000080800000FF' +
  '00CCFFCCFFFFCCFFCCFFFF9999CCFFFF99CCCC99FFFFCC99' +
  '3366FF33CCCC99CC00FFCC00FF9900FF6600666699969696' +
  '003366339966003300333300993300993366333399333333'
).match(/.{6}/g) as readonly string[];

const hex = (part: number): string =>
  Math.round(Math.min(255, Math.max(0, part)))
    .toString(16)
    .padStart(2, '0');

/** ECMA-376, part 1, 18.8.19: a share of light (above 0) or of shade (below 0) in a colour. */
function tinted(colour: string, tint: number): string {
  const parts = (colour.match(/../g) ?? []).map((part) => parseInt(part, 16));
  // Lightening every channel by its distance to white keeps the hue nearly the same.
  return parts.map((c) => hex(tint < 0 ? c * (1 + tint) : c + (255 - c) * tint)).join('');
}

/** Light and dark stand in the theme the other way round. */
const THEME_ORDER = [1, 0, 3, 2, 4, 5, 6, 7, 8, 9, 10, 11];

function themeColours(file: Package, workbook: string): readonly string[] {
  const part = file.related(workbook, 'theme')?.target;
  if (part === undefined || !file.has(part) || file.readableText(part) === undefined) return [];
  const scheme = descendants(file.root(part), 'clrScheme')[0];
  const colours = (scheme?.children ?? []).map(({ children: [colour] }) => {
    const { lastClr, val } = colour?.attributes ?? {};
    return lastClr ?? val ?? '000000';
  });
  return THEME_ORDER.map((place) => colours[place] ?? '000000');
}

type ColourOf = (element: XmlElement | undefined) => string | undefined;

const colourReader =
  (theme: readonly string[]): ColourOf =>
  (element) => {
    if (!element) return undefined;
    const { rgb, theme: place, indexed, tint = '0' } = element.attributes;
    const index = Number(indexed);
    const base =
      rgb?.slice(-6) ??
      (place !== undefined ? theme[Number(place)] : undefined) ??
      (indexed !== undefined ? PALETTE[index < 8 ? index : index - 8] : undefined);
    if (base === undefined || !/^[0-9a-f]{6}$/i.test(base)) return undefined;
    return `#${tinted(base, Number(tint) || 0)}`.toUpperCase();
  };

const isOn = (element: XmlElement | undefined): boolean =>
  element !== undefined && !['0', 'false', 'none'].includes(element.attributes['val'] ?? '1');

function fontOf(font: XmlElement | undefined, colourOf: ColourOf): FileStyle {
  const size = Number(childNamed(font, 'sz')?.attributes['val']);
  const colour = colourOf(childNamed(font, 'color'));
  return {
    ...(isOn(childNamed(font, 'b')) && { bold: true }),
    ...(isOn(childNamed(font, 'i')) && { italic: true }),
    ...(isOn(childNamed(font, 'u')) && { underline: true }),
    ...(isOn(childNamed(font, 'strike')) && { strike: true }),
    ...(size > 0 && { size }),
    ...(colour !== undefined && colour !== '#000000' && { colour }),
  };
}

function fillOf(fill: XmlElement | undefined, colourOf: ColourOf, isMark = false): FileStyle {
  const pattern = childNamed(fill, 'patternFill');
  const kind = pattern?.attributes['patternType'] ?? (isMark ? 'solid' : 'none');
  if (kind === 'none' || kind === 'gray125') return {};
  // In conditional formats the paint of a plain fill stands in the second place.
  const paint =
    (isMark ? colourOf(childNamed(pattern, 'bgColor')) : undefined) ??
    colourOf(childNamed(pattern, 'fgColor'));
  return paint === undefined ? {} : { fill: paint };
}

function edgesOf(border: XmlElement | undefined, colourOf: ColourOf): FileStyle {
  const found = (['left', 'right', 'top', 'bottom'] as const).flatMap((side) => {
    const edge = childNamed(border, side);
    const style = edge?.attributes['style'];
    if (style === undefined || style === 'none') return [];
    return [[side, { style, colour: colourOf(childNamed(edge, 'color')) ?? '#000000' }] as const];
  });
  return found.length === 0 ? {} : { edges: Object.fromEntries(found) };
}

export interface FileStyles {
  /** Of the cells, by the number that they name. */
  readonly cells: readonly FileStyle[];
  /** Of conditional formats, by the number that they name. */
  readonly marks: readonly FileStyle[];
}

/** The looks that a workbook defines. */
export function readStyles(file: Package, workbook: string): FileStyles {
  const part = file.related(workbook, 'styles')?.target;
  if (part === undefined || !file.has(part)) return { cells: [], marks: [] };
  const root = file.root(part);
  const colourOf = colourReader(themeColours(file, workbook));
  const list = (name: string, child: string): XmlElement[] =>
    childrenNamed(childNamed(root, name), child);
  const [fonts, fills, borders] = [
    list('fonts', 'font').map((font) => fontOf(font, colourOf)),
    list('fills', 'fill').map((fill) => fillOf(fill, colourOf)),
    list('borders', 'border').map((border) => edgesOf(border, colourOf)),
  ];
  const formats = new Map(
    list('numFmts', 'numFmt').map(({ attributes }) => [
      Number(attributes['numFmtId']),
      attributes['formatCode'] ?? '',
    ]),
  );
  const cells = list('cellXfs', 'xf').map((xf): FileStyle => {
    const number = (name: string): number => Number(xf.attributes[name] ?? 0);
    const format = formats.get(number('numFmtId')) ?? BUILT_IN_FORMATS[number('numFmtId')];
    const { horizontal, vertical, wrapText } = childNamed(xf, 'alignment')?.attributes ?? {};
    return {
      ...fonts[number('fontId')],
      ...fills[number('fillId')],
      ...borders[number('borderId')],
      ...(format !== undefined && !/^general$/i.test(format) && { format }),
      ...(horizontal !== undefined && { horizontal }),
      ...(vertical !== undefined && { vertical }),
      ...((wrapText === '1' || wrapText === 'true') && { wrap: true }),
    };
  });
  const marks = list('dxfs', 'dxf').map((dxf): FileStyle => ({
    ...fontOf(childNamed(dxf, 'font'), colourOf),
    ...fillOf(childNamed(dxf, 'fill'), colourOf, true),
  }));
  return { cells, marks };
}
