import type { Style, WorkbookData } from '@odoo/o-spreadsheet';
import type { Contents } from '../../ooxml/cell-contents';
import { changeCharts, type ChartChanges } from '../../ooxml/change-charts';
import { changeLayout, type LayoutChanges, type LineLook } from '../../ooxml/change-layout';
import { changeRules, type NewRule } from '../../ooxml/change-rules';
import type { Package } from '../../ooxml/package';
import type { StyleAdditions } from '../../ooxml/style-additions';
import { storedFormula } from '../../functions/stored-name';
import { areaAddress, cellAddress, readArea } from '../../plan/addresses';
import type { Area, ChartModel } from '../../plan/workbook-model';
import { element } from '../../ooxml/write-xml';
import type { Losses } from './losses';
import { chartFrom } from './read-rules';

type SheetData = WorkbookData['sheets'][number];
type Condition = SheetData['conditionalFormats'][number];
type Validation = SheetData['dataValidationRules'][number];
type Figure = SheetData['figures'][number];

/** What a change of a sheet beside its cells is written with. */
export interface LayoutWriting {
  readonly file: Package;
  readonly part: string;
  readonly before: SheetData;
  readonly now: SheetData;
  readonly losses: Losses;
  readonly styles: () => StyleAdditions;
  /** A formula of the grid (with its "=") as the file is to hold it. */
  readonly formula: (text: string) => string;
  /** A chart with its sheets as the file calls them. */
  readonly chart: (chart: ChartModel) => ChartModel;
  readonly contents: Contents;
  /** Whether rules and charts of the file stand where they stood when it was opened. */
  readonly isInPlace: boolean;
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

interface LineData {
  readonly size?: number;
  readonly isHidden?: boolean;
}

/** Characters and points for pixels of the grid. */
const characters = (pixels: number): number =>
  Math.max(0, Math.round(((pixels - 5) / 7) * 100) / 100);
const points = (pixels: number): number => Math.round(pixels * 0.75 * 100) / 100;

function changedLines(
  before: Readonly<Record<number, LineData>>,
  now: Readonly<Record<number, LineData>>,
  sizeOf: (pixels: number) => number,
): Map<number, LineLook> {
  const changes = new Map<number, LineLook>();
  for (const key of new Set([...Object.keys(before), ...Object.keys(now)])) {
    const line = Number(key);
    const [was, is] = [before[line] ?? {}, now[line] ?? {}];
    const isHidden = is.isHidden === true;
    if (was.size === is.size && (was.isHidden === true) === isHidden) continue;
    changes.set(line, {
      ...(is.size !== undefined && { size: sizeOf(is.size) }),
      hidden: isHidden,
    });
  }
  return changes;
}

const areas = (ranges: readonly string[]): Area[] =>
  ranges.flatMap((range) => readArea(range) ?? []);

/** The place of a rule or chart among those of the file, by its id on the grid. */
const placeInFile = (id: string): number | undefined => {
  const n = /^file-(?:condition|validation|chart)-\d+-(\d+)$/.exec(id)?.[1];
  return n === undefined ? undefined : Number(n);
};

const comparisons: Readonly<Record<string, string>> = {
  isEqual: 'equal',
  isNotEqual: 'notEqual',
  isGreaterThan: 'greaterThan',
  isGreaterOrEqualTo: 'greaterThanOrEqual',
  isLessThan: 'lessThan',
  isLessOrEqualTo: 'lessThanOrEqual',
  isBetween: 'between',
  isNotBetween: 'notBetween',
};

const inQuotes = (text: string): string => `"${text.replaceAll('"', '""')}"`;

/** A value of a rule as a formula of the file. */
function asFormula(value: string, { formula }: LayoutWriting): string {
  if (value.startsWith('=')) return storedFormula(formula(value));
  return value.trim() !== '' && Number.isFinite(Number(value)) ? value : inQuotes(value);
}

/** What a rule about texts asks of the first cell of its blocks. */
function textQuestion(operator: string, text: string, cell: string): string | undefined {
  switch (operator) {
    case 'containsText':
      return `NOT(ISERROR(SEARCH(${text},${cell})))`;
    case 'notContainsText':
      return `ISERROR(SEARCH(${text},${cell}))`;
    case 'beginsWithText':
      return `LEFT(${cell},LEN(${text}))=${text}`;
    case 'endsWithText':
      return `RIGHT(${cell},LEN(${text}))=${text}`;
    case 'isEmpty':
      return `LEN(TRIM(${cell}))=0`;
    case 'isNotEmpty':
      return `LEN(TRIM(${cell}))>0`;
    default:
      return undefined;
  }
}

const hex = (colour: number): string => `FF${colour.toString(16).toUpperCase().padStart(6, '0')}`;

const thresholds: Readonly<Record<string, string>> = {
  number: 'num',
  percentage: 'percent',
  percentile: 'percentile',
  formula: 'formula',
};

type Scale = Extract<Condition['rule'], { type: 'ColorScaleRule' }>;

function scaleXml(rule: Scale, writing: LayoutWriting): string {
  const steps = [rule.minimum, ...(rule.midpoint ? [rule.midpoint] : []), rule.maximum];
  const values = steps.map(({ type, value }, i) => {
    const isEnd = type === 'value';
    const kind = isEnd ? (i === 0 ? 'min' : 'max') : thresholds[type];
    const isFormula = type === 'formula' && value !== undefined;
    const val = isFormula ? writing.formula(`=${value.replace(/^=/, '')}`) : value;
    return element('cfvo', { type: kind, val: isEnd ? undefined : val });
  });
  const colours = steps.map(({ color }) => element('color', { rgb: hex(color) }));
  return element('colorScale', {}, [...values, ...colours]);
}

function markOf(style: Style) {
  return {
    ...(style.bold && { bold: true }),
    ...(style.italic && { italic: true }),
    ...(style.underline && { underline: true }),
    ...(style.strikethrough && { strike: true }),
    ...(style.textColor && { colour: style.textColor }),
    ...(style.fillColor && { fill: style.fillColor }),
  };
}

/** A mark on cells as the file is to hold it; undefined where it has no such kind. */
function conditionFor({ rule, ranges }: Condition, writing: LayoutWriting): NewRule | undefined {
  const blocks = areas(ranges);
  const [first] = blocks;
  if (!first) return undefined;
  if (rule.type === 'ColorScaleRule') {
    // The parts of a scale are written with the prefix of the sheet's own elements, where it has one.
    if (writing.file.root(writing.part).prefix !== '') return undefined;
    const inner = scaleXml(rule, writing);
    return { areas: blocks, attributes: { type: 'colorScale' }, formulas: [], inner };
  }
  if (rule.type !== 'CellIsRule') return undefined;
  const { operator, values } = rule;
  const cell = cellAddress(first.row, first.column);
  const comparison = comparisons[operator];
  const question =
    operator === 'customFormula'
      ? asFormula(values[0]?.startsWith('=') ? values[0] : `=${values[0] ?? ''}`, writing)
      : textQuestion(operator, inQuotes(values[0] ?? ''), cell);
  if (comparison === undefined && question === undefined) return undefined;
  const dxfId = writing.styles().mark(markOf(rule.style));
  if (question !== undefined)
    return { areas: blocks, attributes: { type: 'expression', dxfId }, formulas: [question] };
  const wanted = comparison === 'between' || comparison === 'notBetween' ? 2 : 1;
  return {
    areas: blocks,
    attributes: { type: 'cellIs', dxfId, operator: comparison },
    formulas: values.slice(0, wanted).map((value) => asFormula(value, writing)),
  };
}

/** A rule for what may be typed as the file is to hold it; undefined where it has no such kind. */
function validationFor(
  { criterion, ranges, isBlocking }: Validation,
  writing: LayoutWriting,
): NewRule | undefined {
  const blocks = areas(ranges);
  if (blocks.length === 0) return undefined;
  const { type, values } = criterion;
  const usual = {
    allowBlank: 1,
    showInputMessage: 1,
    showErrorMessage: isBlocking ? 1 : undefined,
  };
  if (type === 'isValueInList') {
    const list = values.join(',');
    if (list.length > 255 || values.some((value) => value.includes(','))) return undefined;
    return { areas: blocks, attributes: { type: 'list', ...usual }, formulas: [inQuotes(list)] };
  }
  if (type === 'isValueInRange') {
    const formulas = [writing.formula(`=${values[0] ?? ''}`)];
    return { areas: blocks, attributes: { type: 'list', ...usual }, formulas };
  }
  if (type === 'customFormula') {
    const formulas = [asFormula(`=${(values[0] ?? '').replace(/^=/, '')}`, writing)];
    return { areas: blocks, attributes: { type: 'custom', ...usual }, formulas };
  }
  const operator = comparisons[type];
  if (operator === undefined) return undefined;
  const formulas = values.map((value) => asFormula(value, writing));
  return { areas: blocks, attributes: { type: 'decimal', operator, ...usual }, formulas };
}

interface WithId {
  readonly id: string;
}

/** What of two lists with ids came in or changed, and the places in the file of what went. */
function changedOnes<T extends WithId>(
  before: readonly T[],
  now: readonly T[],
): { readonly fresh: readonly T[]; readonly gone: readonly number[] } {
  const known = new Map(before.map((item) => [item.id, item]));
  const left = new Set(now.map(({ id }) => id));
  return {
    fresh: now.filter((item) => !same(known.get(item.id), item)),
    gone: before.flatMap(({ id }) => (left.has(id) ? [] : (placeInFile(id) ?? []))),
  };
}

function isReordered(before: readonly WithId[], now: readonly WithId[]): boolean {
  const left = new Set(now.map(({ id }) => id));
  const known = new Set(before.map(({ id }) => id));
  const [old, current] = [
    before.filter(({ id }) => left.has(id)).map(({ id }) => id),
    now.filter(({ id }) => known.has(id)).map(({ id }) => id),
  ];
  return !same(old, current);
}

function say({ losses, now }: LayoutWriting, what: string): void {
  losses.add(
    `${what}: the file keeps its own; "Save as new .xlsx" takes what you changed`,
    now.name,
  );
}

function rules(writing: LayoutWriting): boolean {
  const { before, now, file, part, isInPlace } = writing;
  const conditions = changedOnes<Condition>(before.conditionalFormats, now.conditionalFormats);
  const validations = changedOnes<Validation>(before.dataValidationRules, now.dataValidationRules);
  if (isReordered(before.conditionalFormats, now.conditionalFormats))
    say(writing, 'The order of conditional formats');
  const changes = conditions.fresh.length + conditions.gone.length + validations.fresh.length;
  if (changes + validations.gone.length === 0) return false;
  if (!isInPlace) {
    say(writing, 'Conditional formats and rules for what may be typed');
    return false;
  }
  const written = <T extends WithId>(
    list: readonly T[],
    make: (item: T, writing: LayoutWriting) => NewRule | undefined,
    what: string,
  ): NewRule[] =>
    list.flatMap((item) => {
      const rule = make(item, writing);
      const inPlaceOf = placeInFile(item.id);
      if (rule) return [{ ...rule, ...(inPlaceOf !== undefined && { inPlaceOf }) }];
      say(writing, what);
      return [];
    });
  changeRules(file, part, {
    conditions: written(
      conditions.fresh,
      conditionFor,
      'A conditional format of a kind of the grid alone',
    ),
    conditionsGone: conditions.gone,
    validations: written(
      validations.fresh,
      validationFor,
      'A rule of a kind of the grid alone for what may be typed',
    ),
    validationsGone: validations.gone,
  });
  return true;
}

const placeOf = ({ row, col, offset, width, height }: Figure) => ({
  row,
  col,
  offset,
  width,
  height,
});

function charts(writing: LayoutWriting): boolean {
  const { before, now, file, part, losses, isInPlace } = writing;
  const { fresh, gone } = changedOnes<Figure>(before.figures, now.figures);
  if (fresh.length + gone.length === 0) return false;
  if (!isInPlace) {
    say(writing, 'Charts and pictures');
    return false;
  }
  const known = new Map(before.figures.map((figure) => [figure.id, figure]));
  const moved = new Map<number, Area>();
  const redrawn = new Map<number, ChartModel>();
  const added: ChartModel[] = [];
  for (const figure of fresh) {
    const chart = chartFrom(now, figure);
    const old = known.get(figure.id);
    const n = placeInFile(figure.id);
    if (!chart) {
      say(writing, figure.tag === 'chart' ? 'A chart of a kind of the grid alone' : 'A picture');
      continue;
    }
    if (!old || n === undefined) {
      added.push(writing.chart(chart));
      continue;
    }
    if (!same(placeOf(old), placeOf(figure))) moved.set(n, chart.place);
    if (same(old.data, figure.data)) continue;
    redrawn.set(n, writing.chart(chart));
    losses.add(
      'A chart that was changed is drawn anew: looks of its own that the grid does not show are gone',
      `${now.name}!${areaAddress({ ...chart.place, rows: 1, columns: 1 })}`,
    );
  }
  const changes: ChartChanges = { moved, redrawn, gone, added };
  if (moved.size + redrawn.size + gone.length + added.length === 0) return false;
  changeCharts(file, part, changes, writing.contents);
  return true;
}

function layout({ file, part, before, now }: LayoutWriting): boolean {
  const columns = changedLines(before.cols, now.cols, characters);
  const rows = changedLines(before.rows, now.rows, points);
  const apart = (a: readonly string[], b: readonly string[]): Area[] =>
    areas(a.filter((range) => !b.includes(range)));
  const [merged, unmerged] = [apart(now.merges, before.merges), apart(before.merges, now.merges)];
  const isFrozen = !same(before.panes ?? null, now.panes ?? null);
  const isGridLines = before.areGridLinesVisible !== now.areGridLinesVisible;
  const isAny = columns.size + rows.size + merged.length + unmerged.length > 0;
  if (!isAny && !isFrozen && !isGridLines) return false;
  const changes: LayoutChanges = {
    columns,
    rows,
    merged,
    unmerged,
    ...(isFrozen && { frozen: { rows: now.panes?.ySplit ?? 0, columns: now.panes?.xSplit ?? 0 } }),
    ...(isGridLines && { gridLines: now.areGridLinesVisible !== false }),
  };
  changeLayout(file, part, changes);
  return true;
}

/** What the grid has of a sheet that a file takes in a new file alone. */
const SAID: readonly (readonly [keys: readonly string[], sentence: string])[] = [
  [['headerGroups'], 'Groups of rows and columns'],
  [['tables'], 'Tables'],
  [['color'], 'The colour of the sheet'],
];

/** Writes what was changed on a sheet beside its cells; says what the file does not take. True where anything was. */
export function writeLayout(writing: LayoutWriting): boolean {
  const { before, now } = writing;
  const of = (sheet: SheetData, keys: readonly string[]): unknown =>
    keys.map((key) => (sheet as unknown as Record<string, unknown>)[key] ?? null);
  for (const [keys, what] of SAID) if (!same(of(before, keys), of(now, keys))) say(writing, what);
  const changed = [layout, rules, charts].map((write) => write(writing));
  return changed.includes(true);
}
