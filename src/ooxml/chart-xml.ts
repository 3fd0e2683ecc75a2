import { cellAddress, fullAddress } from '../plan/addresses';
import { chartInk, FONT, numberFormats, seriesLook, type SeriesLook } from '../plan/looks';
import type { Area, ChartModel, WorkbookModel } from '../plan/workbook-model';
import type { Contents } from './cell-contents';
import { type Attributes, element, textElement, xmlPart } from './write-xml';
import { OFFICE_RELATIONSHIPS } from './namespaces';

const CHART = 'http://schemas.openxmlformats.org/drawingml/2006/chart';
const DRAWING = 'http://schemas.openxmlformats.org/drawingml/2006/main';
/** Lengths in English metric units, text sizes in hundredths of a point. */
const POINT = 12700;
const MAX_LABELS = 13;

const val = (name: string, value: string | number): string => element(name, { val: value });
const solid = (colour: string): string =>
  element('a:solidFill', {}, element('a:srgbClr', { val: colour.slice(1) }));
const lineOf = (colour: string, width: number, dash = 'solid'): string =>
  element('a:ln', { w: width * POINT, cap: 'rnd' }, [
    solid(colour),
    val('a:prstDash', dash),
    '<a:round/>',
  ]);

const textProperties = (size: number, colour: string, bold: boolean, name = 'a:defRPr'): string =>
  element(name, { sz: size * 100, b: bold ? 1 : 0 }, [
    solid(colour),
    element('a:latin', { typeface: FONT }),
  ]);
const SLANTED = '<a:bodyPr rot="-2700000" vert="horz"/>';
const textShape = (size: number, colour: string, body = '<a:bodyPr/>'): string =>
  element('c:txPr', {}, [
    body,
    '<a:lstStyle/>',
    element('a:p', {}, [
      element('a:pPr', {}, textProperties(size, colour, false)),
      '<a:endParaRPr lang="en-GB"/>',
    ]),
  ]);

/** A title of the chart (upright) or of an axis. */
const titleOf = (text: string, size: number, turned: boolean): string =>
  element('c:title', {}, [
    element('c:tx', {}, [
      element('c:rich', {}, [
        turned ? '<a:bodyPr rot="-5400000" vert="horz"/>' : '<a:bodyPr/>',
        '<a:lstStyle/>',
        element('a:p', {}, [
          element('a:pPr', {}, textProperties(size, chartInk.text, true)),
          element('a:r', {}, [
            textProperties(size, chartInk.text, true, 'a:rPr').replace(
              '<a:rPr',
              '<a:rPr lang="en-GB"',
            ),
            textElement('a:t', text),
          ]),
        ]),
      ]),
    ]),
    val('c:overlay', 0),
  ]);

const cellsOf = ({ row, column, rows, columns }: Area): [number, number][] =>
  Array.from({ length: rows * columns }, (_, i) => [
    row + Math.floor(i / columns),
    column + (i % columns),
  ]);

interface Source {
  readonly sheet: string;
  readonly area: Area;
}

/** A reference together with what it held, for programs that draw without computing. */
function reference(
  { sheet, area }: Source,
  contents: Contents,
  formatCode: string,
  kind: 'num' | 'str',
): string {
  const points = cellsOf(area).map(([row, column]) => contents(sheet, row, column));
  const shown = points.flatMap((content, idx) => {
    const fits = kind === 'num' ? typeof content === 'number' : content !== undefined;
    return fits ? [element('c:pt', { idx }, textElement('c:v', String(content)))] : [];
  });
  return element(`c:${kind}Ref`, {}, [
    textElement('c:f', fullAddress(sheet, area)),
    element(`c:${kind}Cache`, {}, [
      kind === 'num' ? textElement('c:formatCode', formatCode) : '',
      val('c:ptCount', points.length),
      ...shown,
    ]),
  ]);
}

type Shape = 'line' | 'bar' | 'area' | 'scatter';
const shapes: Readonly<Record<ChartModel['kind'], Shape>> = {
  line: 'line',
  column: 'bar',
  stackedColumn: 'bar',
  area: 'area',
  scatter: 'scatter',
};

const filling = ({ hatch, colour }: SeriesLook): string =>
  hatch
    ? element('a:pattFill', { prst: hatch }, [
        element('a:fgClr', {}, element('a:srgbClr', { val: colour.slice(1) })),
        element('a:bgClr', {}, element('a:srgbClr', { val: 'FFFFFF' })),
      ])
    : solid(colour);

function seriesShape(shape: Shape, look: SeriesLook): string {
  if (shape === 'line') return element('c:spPr', {}, lineOf(look.colour, 2.25, look.dash));
  if (shape === 'scatter') return element('c:spPr', {}, element('a:ln', {}, '<a:noFill/>'));
  return element('c:spPr', {}, [filling(look), lineOf(look.colour, shape === 'area' ? 1.5 : 1)]);
}

/** Points are marked where there are few of them; many would hide the line. */
function markerOf(look: SeriesLook, points: number, shape: Shape): string {
  if (shape === 'line' && points > 2 * MAX_LABELS)
    return element('c:marker', {}, val('c:symbol', 'none'));
  return element('c:marker', {}, [
    val('c:symbol', look.symbol),
    val('c:size', 6),
    element('c:spPr', {}, [solid(look.colour), lineOf(look.colour, 1)]),
  ]);
}

type SheetsOfModel = Pick<WorkbookModel, 'sheets'>;

interface Formats {
  readonly kind: 'num' | 'str';
  readonly code: string;
}

const formatOf = (model: SheetsOfModel, { sheet, area }: Source): string => {
  const cell = model.sheets.find(({ name }) => name === sheet)?.rows[area.row]?.[area.column];
  return numberFormats[cell?.format ?? 'general'];
};

function axes(chart: ChartModel, shape: Shape, categories: Formats, values: string): string {
  const ink = textShape(10, chartInk.text);
  const axisLine = element('c:spPr', {}, lineOf(chartInk.axis, 0.75));
  const points = chart.categories.area.rows * chart.categories.area.columns;
  const every = Math.ceil(points / MAX_LABELS);
  // Along the bottom of a scatter chart stand numbers, and a point where they meet the others.
  const along =
    shape === 'scatter'
      ? element('c:valAx', {}, [
          val('c:axId', 1),
          element('c:scaling', {}, val('c:orientation', 'minMax')),
          val('c:delete', 0),
          val('c:axPos', 'b'),
          chart.categoryTitle ? titleOf(chart.categoryTitle, 10, false) : '',
          element('c:numFmt', { formatCode: axisFormat(categories.code), sourceLinked: 0 }),
          val('c:majorTickMark', 'out'),
          val('c:minorTickMark', 'none'),
          val('c:tickLblPos', 'low'),
          axisLine,
          ink,
          val('c:crossAx', 2),
          val('c:crosses', 'autoZero'),
          val('c:crossBetween', 'midCat'),
        ])
      : element('c:catAx', {}, [
          val('c:axId', 1),
          element('c:scaling', {}, val('c:orientation', 'minMax')),
          val('c:delete', 0),
          val('c:axPos', 'b'),
          chart.categoryTitle ? titleOf(chart.categoryTitle, 10, false) : '',
          element('c:numFmt', { formatCode: categories.code, sourceLinked: 0 }),
          val('c:majorTickMark', 'out'),
          val('c:minorTickMark', 'none'),
          val('c:tickLblPos', 'low'),
          axisLine,
          // Dates side by side are wider than their places.
          categories.code === numberFormats.date ? textShape(10, chartInk.text, SLANTED) : ink,
          val('c:crossAx', 2),
          val('c:crosses', 'autoZero'),
          val('c:auto', 0),
          val('c:lblAlgn', 'ctr'),
          val('c:lblOffset', 100),
          val('c:tickLblSkip', every),
          val('c:tickMarkSkip', every),
          val('c:noMultiLvlLbl', 1),
        ]);
  return [
    along,
    element('c:valAx', {}, [
      val('c:axId', 2),
      element('c:scaling', {}, val('c:orientation', 'minMax')),
      val('c:delete', 0),
      val('c:axPos', 'l'),
      element('c:majorGridlines', {}, element('c:spPr', {}, lineOf(chartInk.grid, 0.75))),
      chart.valueTitle ? titleOf(chart.valueTitle, 10, true) : '',
      element('c:numFmt', { formatCode: values, sourceLinked: 0 }),
      val('c:majorTickMark', 'out'),
      val('c:minorTickMark', 'none'),
      val('c:tickLblPos', 'nextTo'),
      axisLine,
      ink,
      val('c:crossAx', 1),
      val('c:crosses', 'autoZero'),
      val('c:crossBetween', shape === 'area' || shape === 'scatter' ? 'midCat' : 'between'),
    ]),
  ].join('');
}

/** Decimals that help on a sheet clutter an axis. */
const axisFormat = (format: string): string =>
  format === 'General' || format === numberFormats.date ? format : format.replace(/\.0+/, '.##');

export function chartXml(model: SheetsOfModel, chart: ChartModel, contents: Contents): string {
  const shape = shapes[chart.kind];
  const { categories } = chart;
  const numeric = cellsOf(categories.area).every(
    ([row, column]) => typeof contents(categories.sheet, row, column) === 'number',
  );
  const categoryFormats: Formats = {
    kind: numeric ? 'num' : 'str',
    code: formatOf(model, categories),
  };
  const points = categories.area.rows * categories.area.columns;
  const hasMarkers = shape === 'line' || shape === 'scatter';
  const series = chart.series.map((line, i) => {
    const look = seriesLook(i);
    return element('c:ser', {}, [
      val('c:idx', i),
      val('c:order', i),
      element('c:tx', {}, textElement('c:v', line.name)),
      seriesShape(shape, look),
      shape === 'bar' ? val('c:invertIfNegative', 0) : '',
      hasMarkers ? markerOf(look, points, shape) : '',
      element(
        shape === 'scatter' ? 'c:xVal' : 'c:cat',
        {},
        reference(categories, contents, categoryFormats.code, categoryFormats.kind),
      ),
      element(
        shape === 'scatter' ? 'c:yVal' : 'c:val',
        {},
        reference(line, contents, formatOf(model, line), 'num'),
      ),
      hasMarkers ? val('c:smooth', 0) : '',
    ]);
  });
  // An area in front of another would hide it.
  const stacked = chart.kind === 'stackedColumn' || chart.kind === 'area';
  const plot = element(`c:${shape}Chart`, {}, [
    shape === 'bar' ? val('c:barDir', 'col') : '',
    shape === 'scatter'
      ? val('c:scatterStyle', 'lineMarker')
      : val('c:grouping', stacked ? 'stacked' : shape === 'bar' ? 'clustered' : 'standard'),
    val('c:varyColors', 0),
    ...series,
    shape === 'bar' ? val('c:gapWidth', 60) : '',
    chart.kind === 'stackedColumn' ? val('c:overlap', 100) : '',
    shape === 'line' ? val('c:marker', 1) : '',
    val('c:axId', 1),
    val('c:axId', 2),
  ]);
  const [first] = chart.series;
  const valueFormat = axisFormat(first ? formatOf(model, first) : 'General');
  const legend = element('c:legend', {}, [
    val('c:legendPos', 'b'),
    val('c:overlay', 0),
    textShape(10, chartInk.text),
  ]);
  return xmlPart(
    element(
      'c:chartSpace',
      {
        'xmlns:c': CHART,
        'xmlns:a': DRAWING,
        'xmlns:r': OFFICE_RELATIONSHIPS,
      },
      [
        val('c:roundedCorners', 0),
        element('c:chart', {}, [
          titleOf(chart.title, 13, false),
          val('c:autoTitleDeleted', 0),
          element('c:plotArea', {}, [
            '<c:layout/>',
            plot,
            axes(chart, shape, categoryFormats, valueFormat),
          ]),
          chart.series.length > 1 ? legend : '',
          val('c:plotVisOnly', 1),
          val('c:dispBlanksAs', 'gap'),
        ]),
        element('c:spPr', {}, [solid('#FFFFFF'), lineOf(chartInk.grid, 0.75)]),
        textShape(10, chartInk.text),
      ],
    ),
  );
}

const SHEET_DRAWING = 'http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing';
const MARGIN = 4 * POINT;

const corner = (name: string, row: number, column: number, shift: number): string =>
  element(name, {}, [
    textElement('xdr:col', String(column)),
    textElement('xdr:colOff', String(shift)),
    textElement('xdr:row', String(row)),
    textElement('xdr:rowOff', String(shift)),
  ]);

const NAMESPACES = {
  'xmlns:xdr': SHEET_DRAWING,
  'xmlns:a': DRAWING,
  'xmlns:r': OFFICE_RELATIONSHIPS,
};

/** Where a chart stands; `link` is its relation, `id` its number in the drawing. */
function frame(chart: ChartModel, link: string | undefined, id: number, names: Attributes): string {
  const { row, column, rows, columns } = chart.place;
  const description = `${chart.kind} chart at ${cellAddress(row, column)}: ${chart.series
    .map(({ name }) => name)
    .join(', ')}`;
  return element('xdr:twoCellAnchor', names, [
    corner('xdr:from', row, column, MARGIN),
    corner('xdr:to', row + rows, column + columns, 0),
    element('xdr:graphicFrame', { macro: '' }, [
      element('xdr:nvGraphicFramePr', {}, [
        element('xdr:cNvPr', { id, name: chart.title, descr: description }),
        '<xdr:cNvGraphicFramePr/>',
      ]),
      '<xdr:xfrm><a:off x="0" y="0"/><a:ext cx="0" cy="0"/></xdr:xfrm>',
      element('a:graphic', {}, [
        element('a:graphicData', { uri: CHART }, [
          element('c:chart', { 'xmlns:c': CHART, 'r:id': link }),
        ]),
      ]),
    ]),
    '<xdr:clientData/>',
  ]);
}

/** A chart as it comes into a drawing of another writer, who may call the kinds of elements otherwise. */
export const addedFrame = (chart: ChartModel, link: string, id: number): string =>
  frame(chart, link, id, NAMESPACES);

/** Where the charts of a sheet stand; `ids` are their relations. */
export const drawingXml = (charts: readonly ChartModel[], ids: readonly string[]): string =>
  xmlPart(
    element(
      'xdr:wsDr',
      NAMESPACES,
      charts.map((chart, i) => frame(chart, ids[i], i + 2, {})),
    ),
  );
