import type { ConditionModel, FormatId, LookId } from './workbook-model';

/**
 * How every part of a workbook looks, said once for all writers. No kind of cell and no mark is told by
 * colour alone: each has a border, weight or slant of its own, and fills differ in lightness, so that a
 * black-and-white print and colour-blind readers lose nothing.
 */

/** Every font of a workbook; its shapes are as wide as those of the usual office font. */
export const FONT = 'Calibri';
export const FONT_SIZE = 11;

const ink = '#22303A';
const quiet = '#55636D';
const deep = '#17495A';
const pale = '#DDE8EC';
const line = '#9FB0B8';
const entry = '#1A3E8C';

export interface Edge {
  readonly style: 'hair' | 'thin' | 'medium' | 'thick' | 'dashed';
  readonly colour: string;
}

export interface Look {
  readonly colour: string;
  readonly size?: number;
  readonly bold?: true;
  readonly italic?: true;
  readonly fill?: string;
  readonly edges?: {
    readonly top?: Edge;
    readonly right?: Edge;
    readonly bottom?: Edge;
    readonly left?: Edge;
  };
  readonly align?: 'left' | 'center' | 'right';
  /** Breaks long text into lines; a cell that spans merged columns always does. */
  readonly wrap?: true;
  /** Text (not numbers) keeps a little away from the left edge. */
  readonly indent?: true;
  /** Shown as the style's name, where a host has named styles. */
  readonly name: string;
}

const boxed = (edge: Edge): Required<Look>['edges'] => ({
  top: edge,
  right: edge,
  bottom: edge,
  left: edge,
});

export const looks: Readonly<Record<LookId, Look>> = {
  text: { name: 'Text', colour: ink, indent: true },
  title: { name: 'Title', colour: deep, size: 20, bold: true },
  lead: { name: 'Lead', colour: quiet, size: 12, italic: true },
  heading: {
    name: 'Heading',
    colour: deep,
    size: 14,
    bold: true,
    edges: { bottom: { style: 'medium', colour: deep } },
  },
  columnHead: {
    name: 'Column head',
    colour: deep,
    bold: true,
    fill: pale,
    edges: { top: { style: 'thin', colour: deep }, bottom: { style: 'medium', colour: deep } },
    align: 'center',
    wrap: true,
  },
  label: { name: 'Label', colour: ink, align: 'left', wrap: true },
  unit: { name: 'Unit', colour: quiet, indent: true },
  input: {
    name: 'Input',
    colour: entry,
    fill: '#FFF3C9',
    edges: boxed({ style: 'thin', colour: '#8A6A10' }),
    indent: true,
  },
  preset: {
    name: 'Default that may be changed',
    colour: entry,
    italic: true,
    fill: '#FBF8EC',
    edges: boxed({ style: 'dashed', colour: '#8A6A10' }),
    indent: true,
  },
  computed: {
    name: 'Computed',
    colour: ink,
    edges: { bottom: { style: 'hair', colour: line } },
    indent: true,
  },
  result: {
    name: 'Result',
    colour: ink,
    bold: true,
    fill: '#E4F0EE',
    edges: {
      top: { style: 'thin', colour: '#2F6F68' },
      bottom: { style: 'thin', colour: '#2F6F68' },
    },
    indent: true,
  },
  verdict: { name: 'Verdict', colour: ink, bold: true, wrap: true, indent: true },
  caution: {
    name: 'Caution',
    colour: '#5E2A0C',
    fill: '#FFF0E4',
    edges: { left: { style: 'thick', colour: '#A84A12' } },
    wrap: true,
    indent: true,
  },
  source: { name: 'Source', colour: quiet, size: 9 },
  tick: {
    name: 'Box to tick',
    colour: ink,
    size: 12,
    edges: boxed({ style: 'medium', colour: ink }),
    align: 'center',
  },
  // A number that was written once and follows nothing: slanted, dotted, neither a computed cell nor one to type in.
  once: {
    name: 'Written once',
    colour: quiet,
    italic: true,
    fill: '#ECEFF1',
    edges: boxed({ style: 'dashed', colour: line }),
    indent: true,
  },
};

/** What a condition puts over a cell's own look. */
export interface Mark {
  readonly colour: string;
  readonly fill: string;
  readonly bold?: true;
  readonly italic?: true;
  readonly edge?: Edge;
}

export const marks: Readonly<Record<ConditionModel['mark'], Mark>> = {
  good: { colour: '#123B54', fill: '#DCEBF5' },
  watch: {
    colour: '#3B2A00',
    fill: '#F0B64A',
    italic: true,
    bold: true,
    edge: { style: 'dashed', colour: '#3B2A00' },
  },
  bad: {
    colour: '#FFFFFF',
    fill: '#84192B',
    bold: true,
    edge: { style: 'thin', colour: '#22303A' },
  },
};

/** Number formats in the notation of files, which every host shows in its own language. */
export const numberFormats: Readonly<Record<FormatId, string>> = {
  general: 'General',
  whole: '#,##0',
  one: '#,##0.0',
  two: '#,##0.00',
  three: '#,##0.000',
  percent: '0.0%',
  date: 'yyyy-mm-dd',
  money: '#,##0.00',
  text: '@',
};

/** Series of a chart differ in lightness and in dash or hatching as well as in colour. */
export interface SeriesLook {
  readonly colour: string;
  readonly dash: 'solid' | 'dash' | 'sysDot' | 'lgDashDot' | 'lgDash' | 'sysDash';
  readonly symbol: 'circle' | 'square' | 'triangle' | 'diamond' | 'x' | 'plus';
  readonly hatch?: 'wdUpDiag' | 'ltDnDiag' | 'pct25' | 'ltHorz';
}

export const seriesLooks: readonly [SeriesLook, ...SeriesLook[]] = [
  { colour: '#17495A', dash: 'solid', symbol: 'circle' },
  { colour: '#C27A12', dash: 'dash', symbol: 'square', hatch: 'wdUpDiag' },
  { colour: '#7FB2C4', dash: 'sysDot', symbol: 'triangle' },
  { colour: '#84192B', dash: 'lgDashDot', symbol: 'diamond', hatch: 'ltDnDiag' },
  { colour: '#5F7330', dash: 'lgDash', symbol: 'x', hatch: 'pct25' },
  { colour: '#9A86AE', dash: 'sysDash', symbol: 'plus', hatch: 'ltHorz' },
];

/** The look of the series at a place in its chart; begins anew after the last. */
export const seriesLook = (index: number): SeriesLook =>
  seriesLooks[index % seriesLooks.length] ?? seriesLooks[0];

/** Text, axes and grid of charts. */
export const chartInk = { text: ink, quiet, axis: '#55636D', grid: '#D5DDE1' } as const;
