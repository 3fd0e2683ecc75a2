import { chartInk, type SeriesLook, seriesLook } from '../../plan/looks';
import type { Area, ChartModel } from '../../plan/workbook-model';

const types: Readonly<
  Record<
    ChartModel['kind'],
    'Line' | 'ColumnClustered' | 'ColumnStacked' | 'AreaStacked' | 'XYScatter'
  >
> = {
  line: 'Line',
  column: 'ColumnClustered',
  stackedColumn: 'ColumnStacked',
  area: 'AreaStacked',
  scatter: 'XYScatter',
};

const dashes: Readonly<
  Record<SeriesLook['dash'], 'Continuous' | 'Dash' | 'RoundDot' | 'DashDot' | 'DashDotDot' | 'Dot'>
> = {
  solid: 'Continuous',
  dash: 'Dash',
  sysDot: 'RoundDot',
  lgDashDot: 'DashDot',
  lgDash: 'DashDotDot',
  sysDash: 'Dot',
};

const symbols: Readonly<
  Record<SeriesLook['symbol'], 'Circle' | 'Square' | 'Triangle' | 'Diamond' | 'X' | 'Plus'>
> = {
  circle: 'Circle',
  square: 'Square',
  triangle: 'Triangle',
  diamond: 'Diamond',
  x: 'X',
  plus: 'Plus',
};

/** Queues a chart; `rangeOf` finds an area of a sheet. Needs ExcelApi 1.7. */
export function writeChart(
  sheet: Excel.Worksheet,
  chart: ChartModel,
  rangeOf: (sheet: string, area: Area) => Excel.Range,
): void {
  const [first] = chart.series;
  if (!first) return;
  const made = sheet.charts.add(types[chart.kind], rangeOf(first.sheet, first.area), 'Columns');
  made.title.text = chart.title;
  made.title.format.font.color = chartInk.text;
  const { place } = chart;
  made.setPosition(
    sheet.getCell(place.row, place.column).untrack(),
    sheet.getCell(place.row + place.rows - 1, place.column + place.columns - 1).untrack(),
  );
  made.legend.visible = chart.series.length > 1;
  made.legend.position = 'Bottom';
  const categories = rangeOf(chart.categories.sheet, chart.categories.area);
  chart.series.forEach((line, i) => {
    const series = i === 0 ? made.series.getItemAt(0) : made.series.add(line.name);
    series.name = line.name;
    series.setValues(rangeOf(line.sheet, line.area));
    series.setXAxisValues(categories);
    const look = seriesLook(i);
    if (chart.kind !== 'line') {
      series.format.fill.setSolidColor(look.colour);
      return;
    }
    series.format.line.color = look.colour;
    series.format.line.lineStyle = dashes[look.dash];
    series.format.line.weight = 2;
    series.markerStyle = symbols[look.symbol];
    series.markerForegroundColor = look.colour;
    series.markerBackgroundColor = look.colour;
  });
  if (chart.categoryTitle) made.axes.categoryAxis.title.text = chart.categoryTitle;
  if (chart.valueTitle) made.axes.valueAxis.title.text = chart.valueTitle;
}
