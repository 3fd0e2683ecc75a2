import { helpers, type WorkbookData } from '@odoo/o-spreadsheet';
import { NO_BOUND } from '../../engine/grid-data';
import { areaAddress, fullAddress } from '../../plan/addresses';
import type {
  Area,
  ChartModel,
  ConditionModel,
  NameModel,
  ValidationModel,
} from '../../plan/workbook-model';
import { areaOf } from './grid-cells';
import type { Losses } from './losses';
import { readMark } from './read-looks';

type SheetData = WorkbookData['sheets'][number];

/** A range with or without its sheet, as the engine writes it. */
export interface SheetArea {
  readonly sheet: string;
  readonly area: Area;
}

export function sheetArea(text: string, here: string): SheetArea | undefined {
  const match = /^(?:'((?:[^']|'')+)'!|([^'!]+)!)?(\$?[A-Z]+\$?\d+(?::\$?[A-Z]+\$?\d+)?)$/.exec(
    text,
  );
  const address = match?.[3];
  if (!match || address === undefined) return undefined;
  const sheet = match[1]?.replaceAll("''", "'") ?? match[2] ?? here;
  return { sheet, area: areaOf(helpers.toZone(address.replaceAll('$', ''))) };
}

type Rule = SheetData['dataValidationRules'][number];

function ruleOf(
  criterion: Rule['criterion'],
  here: string,
  names: NameModel[],
): ValidationModel['rule'] | undefined {
  const numbers = criterion.values.map(Number);
  const [first, second] = numbers;
  const finite = numbers.every(Number.isFinite);
  switch (criterion.type) {
    case 'isValueInList':
      return { kind: 'words', words: criterion.values };
    case 'isValueInRange': {
      const range = sheetArea(criterion.values[0] ?? '', here);
      if (!range) return undefined;
      const address = fullAddress(range.sheet, range.area);
      let named = names.find((name) => fullAddress(name.sheet, name.area) === address);
      if (!named) {
        named = { name: `List_${names.length + 1}_of_words`, ...range };
        names.push(named);
      }
      return { kind: 'list', name: named.name };
    }
    case 'dateIsValid':
      return { kind: 'date' };
    case 'isBetween':
      return finite && first !== undefined && second !== undefined
        ? { kind: 'number', min: first, max: second }
        : undefined;
    case 'isGreaterOrEqualTo':
      return finite && first !== undefined ? { kind: 'number', min: first } : undefined;
    case 'isLessOrEqualTo':
      if (!finite || first === undefined) return undefined;
      return first === NO_BOUND ? { kind: 'number' } : { kind: 'number', max: first };
    default:
      return undefined;
  }
}

/** `original` gives the plan's own rule of an id, whose message and kind the engine does not keep. */
export function readValidations(
  sheet: SheetData,
  names: NameModel[],
  original: (id: string) => ValidationModel | undefined,
  losses: Losses,
): ValidationModel[] {
  return sheet.dataValidationRules.flatMap((validation) => {
    const from = original(validation.id);
    const rule = ruleOf(validation.criterion, sheet.name, names);
    return validation.ranges.flatMap((range) => {
      const found = sheetArea(range, sheet.name);
      if (!rule || !found) {
        losses.add(
          'A rule for entries that only the workbench knows is left out',
          `${sheet.name}!${range}`,
        );
        return [];
      }
      const kept = from?.rule.kind === 'whole' && rule.kind === 'number' ? 'whole' : undefined;
      return [
        {
          area: found.area,
          rule: kept ? { ...rule, kind: kept } : rule,
          message: from?.message ?? 'This entry does not fit the rule of the cell.',
        },
      ];
    });
  });
}

export function readConditions(sheet: SheetData, losses: Losses): ConditionModel[] {
  return sheet.conditionalFormats.flatMap(({ rule, ranges }) => {
    const isFormula = rule.type === 'CellIsRule' && rule.operator === 'customFormula';
    const mark = rule.type === 'CellIsRule' ? readMark(rule.style) : undefined;
    const formula = isFormula ? rule.values[0]?.replace(/^=/, '') : undefined;
    const areas = ranges.flatMap((range) => sheetArea(range, sheet.name)?.area ?? []);
    if (formula === undefined || mark === undefined || areas.length !== 1) {
      losses.add(
        'A conditional format of your own is left out',
        `${sheet.name}!${ranges.join(' ')}`,
      );
      return [];
    }
    return areas.map((area) => ({ area, formula, mark }));
  });
}

interface ChartData {
  readonly type: string;
  readonly title?: { readonly text?: string };
  readonly dataSource?: {
    readonly type: string;
    readonly labelRange?: string;
    readonly dataSetsHaveTitle?: boolean;
    readonly dataSets?: readonly { readonly dataSetId: string; readonly dataRange: string }[];
  };
  readonly dataSetStyles?: Readonly<Record<string, { readonly label?: string }>>;
  readonly axesDesign?: {
    readonly x?: { readonly title?: { readonly text?: string } };
    readonly y?: { readonly title?: { readonly text?: string } };
  };
  readonly stacked?: boolean;
  readonly fillArea?: boolean;
  readonly horizontal?: boolean;
}

const ROW = 23;
const COLUMN = 96;

/** How many columns from the first one on a picture of some width covers. */
function columnsCovered({ cols }: SheetData, first: number, width: number): number {
  let count = 0;
  for (let left = width; left > 0; count++) left -= cols[first + count]?.size ?? COLUMN;
  return Math.max(1, count);
}

function chartKind({
  type,
  stacked,
  fillArea,
  horizontal,
}: ChartData): ChartModel['kind'] | undefined {
  if (type === 'scatter') return 'scatter';
  if (type === 'line') return fillArea ? 'area' : 'line';
  if (type === 'bar' && !horizontal) return stacked ? 'stackedColumn' : 'column';
  return undefined;
}

/** A chart of the grid; without a kind that a file can hold, or with nothing to draw, undefined. */
export function chartFrom(
  sheet: SheetData,
  figure: SheetData['figures'][number],
): ChartModel | undefined {
  if (figure.tag !== 'chart') return undefined;
  const place = {
    row: figure.row,
    column: figure.col,
    rows: Math.max(4, Math.round(figure.height / ROW)),
    columns: columnsCovered(sheet, figure.col, figure.width),
  };
  const chart = figure.data as ChartData;
  const kind = chartKind(chart);
  const source = chart.dataSource;
  const categories = sheetArea(source?.labelRange ?? '', sheet.name);
  const skip = source?.dataSetsHaveTitle ? 1 : 0;
  const series = (source?.dataSets ?? []).flatMap(({ dataSetId, dataRange }, i) => {
    const found = sheetArea(dataRange, sheet.name);
    if (!found || found.area.rows <= skip) return [];
    const area = { ...found.area, row: found.area.row + skip, rows: found.area.rows - skip };
    const name = chart.dataSetStyles?.[dataSetId]?.label ?? `Series ${i + 1}`;
    return [{ name, sheet: found.sheet, area }];
  });
  if (!kind || !categories || series.length === 0) return undefined;
  const xTitle = chart.axesDesign?.x?.title?.text;
  const yTitle = chart.axesDesign?.y?.title?.text;
  return {
    kind,
    title: chart.title?.text ?? '',
    place,
    categories,
    series,
    ...(xTitle !== undefined && { categoryTitle: xTitle }),
    ...(yTitle !== undefined && { valueTitle: yTitle }),
  };
}

export function readCharts(sheet: SheetData, losses: Losses): ChartModel[] {
  return sheet.figures.flatMap((figure): ChartModel[] => {
    const chart = chartFrom(sheet, figure);
    if (chart) return [chart];
    const place = { row: figure.row, column: figure.col, rows: 1, columns: 1 };
    losses.add(
      figure.tag === 'chart'
        ? 'A chart of a kind that only the workbench draws is left out'
        : 'A picture is left out',
      `${sheet.name}!${areaAddress(place)}`,
    );
    return [];
  });
}
