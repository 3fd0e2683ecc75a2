import type { Area, ChartModel } from '../plan/workbook-model';
import type { Package, Relationship } from './package';
import { childNamed, childrenNamed, descendants, type XmlElement } from './read-xml';

/** A chart of a sheet as its file describes it; references are texts of the file. */
export interface FileChart {
  /** Left out where it is of a kind that the grid does not draw. */
  readonly kind?: ChartModel['kind'];
  readonly title: string;
  readonly place: Area;
  readonly categories: string;
  readonly series: readonly { readonly name: string; readonly values: string }[];
  readonly categoryTitle?: string;
  readonly valueTitle?: string;
}

/** Lengths of the file in a pixel of the screen, and the usual size of a cell in pixels. */
const UNITS_PER_PIXEL = 9525;
const USUAL = { width: 64, height: 20 };

const numberIn = (element: XmlElement | undefined, name: string): number =>
  Number(childNamed(element, name)?.text ?? Number.NaN);

/** The cells that a chart covers; undefined where it hangs on no cell. */
function placeOf(anchor: XmlElement): Area | undefined {
  const from = childNamed(anchor, 'from');
  const row = numberIn(from, 'row');
  const column = numberIn(from, 'col');
  const to = childNamed(anchor, 'to');
  const { cx, cy } = childNamed(anchor, 'ext')?.attributes ?? {};
  const [rows, columns] = to
    ? [numberIn(to, 'row') - row, numberIn(to, 'col') - column]
    : [Number(cy) / UNITS_PER_PIXEL / USUAL.height, Number(cx) / UNITS_PER_PIXEL / USUAL.width];
  if (![row, column, rows, columns].every(Number.isFinite) || row < 0 || column < 0) {
    return undefined;
  }
  return {
    row,
    column,
    rows: Math.max(1, Math.round(rows)),
    columns: Math.max(1, Math.round(columns)),
  };
}

const written = (element: XmlElement | undefined): string =>
  element
    ? descendants(element, 't')
        .map(({ text }) => text)
        .join('')
    : '';
const firstText = (element: XmlElement | undefined, name: string): string =>
  (element && descendants(element, name)[0]?.text) ?? '';

function kindOf(shape: XmlElement): ChartModel['kind'] | undefined {
  const grouping = childNamed(shape, 'grouping')?.attributes['val'] ?? '';
  const isStacked = grouping === 'stacked';
  if (shape.name === 'scatterChart') return 'scatter';
  if (grouping === 'percentStacked') return undefined;
  if (shape.name === 'lineChart') return isStacked ? undefined : 'line';
  if (shape.name === 'areaChart') return isStacked ? 'area' : undefined;
  if (shape.name !== 'barChart') return undefined;
  if (childNamed(shape, 'barDir')?.attributes['val'] === 'bar') return undefined;
  return isStacked ? 'stackedColumn' : 'column';
}

function chartOf(root: XmlElement, place: Area): FileChart {
  const chart = childNamed(root, 'chart');
  const plot = childNamed(chart, 'plotArea');
  const shapes = plot?.children.filter(({ name }) => name.endsWith('Chart')) ?? [];
  const [shape] = shapes;
  const kind = shape && shapes.length === 1 ? kindOf(shape) : undefined;
  const series = childrenNamed(shape, 'ser').map((ser, i) => ({
    name: firstText(childNamed(ser, 'tx'), 'v') || `Series ${i + 1}`,
    values: firstText(childNamed(ser, 'val') ?? childNamed(ser, 'yVal'), 'f'),
  }));
  const isOf =
    (...kinds: string[]) =>
    ({ name }: XmlElement): boolean =>
      kinds.includes(name);
  const axes = plot?.children.filter(isOf('catAx', 'dateAx', 'valAx')) ?? [];
  // Both axes of a scatter chart hold values; the one along the bottom is the first.
  const isAlong =
    kind === 'scatter' ? (axis: XmlElement) => axis === axes[0] : isOf('catAx', 'dateAx');
  const categoryTitle = written(childNamed(axes.find(isAlong), 'title'));
  const valueTitle = written(
    childNamed(
      axes.find((axis) => !isAlong(axis)),
      'title',
    ),
  );
  const first = childNamed(shape, 'ser');
  const along = childNamed(first, 'cat') ?? childNamed(first, 'xVal');
  return {
    ...(kind && { kind }),
    title: written(childNamed(chart, 'title')),
    place,
    categories: firstText(along, 'f'),
    series,
    ...(categoryTitle && { categoryTitle }),
    ...(valueTitle && { valueTitle }),
  };
}

/** A chart of a sheet by the parts that hold it. */
export interface ChartAnchor {
  readonly drawing: string;
  readonly anchor: XmlElement;
  readonly part: string;
  readonly link: Relationship;
  readonly place: Area;
}

/** Where the charts of a sheet hang, and whether its drawings hold something else. */
export function chartAnchors(
  file: Package,
  sheetPart: string,
): { readonly anchors: readonly ChartAnchor[]; readonly others: boolean } {
  const anchors: ChartAnchor[] = [];
  let others = false;
  for (const { type, target } of file.relationships(sheetPart)) {
    if (!type.endsWith('/drawing') || !file.has(target)) continue;
    const links = file.relationships(target);
    for (const anchor of file.root(target).children) {
      if (!anchor.name.endsWith('Anchor')) continue;
      const id = descendants(anchor, 'chart')
        .flatMap(({ attributes }) => Object.entries(attributes))
        .find(([name]) => /(?:^|:)id$/.test(name))?.[1];
      const link = links.find((link) => link.id === id);
      const place = placeOf(anchor);
      if (link && place && file.has(link.target))
        anchors.push({ drawing: target, anchor, part: link.target, link, place });
      else others = true;
    }
  }
  return { anchors, others };
}

/** The charts of a sheet, and whether it has pictures or charts that could not be read as one. */
export function readFileCharts(
  file: Package,
  sheetPart: string,
): { readonly charts: readonly FileChart[]; readonly others: boolean } {
  const { anchors, others } = chartAnchors(file, sheetPart);
  return { charts: anchors.map(({ part, place }) => chartOf(file.root(part), place)), others };
}
