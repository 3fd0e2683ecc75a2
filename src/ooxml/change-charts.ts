import type { Area, ChartModel } from '../plan/workbook-model';
import type { Contents } from './cell-contents';
import { addedFrame, chartXml, drawingXml } from './chart-xml';
import { XmlEdits } from './follow/xml-edits';
import { OFFICE_RELATIONSHIPS } from './namespaces';
import { folderOf, type Package } from './package';
import { childNamed, descendants } from './read-xml';
import { chartAnchors } from './read-charts';
import { insertedChild } from './sheet-order';
import { element } from './write-xml';

/** Charts of a sheet that change; those of the file by their place among its charts. */
export interface ChartChanges {
  readonly moved: ReadonlyMap<number, Area>;
  /** Drawn anew, in our looks. */
  readonly redrawn: ReadonlyMap<number, ChartModel>;
  readonly gone: readonly number[];
  readonly added: readonly ChartModel[];
}

const CHART_TYPE = 'application/vnd.openxmlformats-officedocument.drawingml.chart+xml';
const DRAWING_TYPE = 'application/vnd.openxmlformats-officedocument.drawing+xml';
/** Lengths of the format in a pixel, and the usual cell of a file in pixels. */
const UNITS_PER_PIXEL = 9525;
const USUAL = { width: 64, height: 20 };

function moveAnchors(
  file: Package,
  sheetPart: string,
  moved: ReadonlyMap<number, Area>,
  gone: readonly number[],
): void {
  const { anchors } = chartAnchors(file, sheetPart);
  const drawings = new Set([...moved.keys(), ...gone].flatMap((n) => anchors[n]?.drawing ?? []));
  for (const drawing of drawings) {
    const edits = new XmlEdits(file, drawing);
    anchors.forEach(({ anchor, drawing: of }, n) => {
      if (of !== drawing) return;
      if (gone.includes(n)) edits.remove(anchor);
      const place = moved.get(n);
      if (!place) return;
      const put = (end: 'from' | 'to', row: number, column: number): void => {
        const corner = childNamed(anchor, end);
        const values = { row, col: column, rowOff: 0, colOff: 0 };
        for (const [name, value] of Object.entries(values)) {
          const marker = childNamed(corner, name);
          if (marker) edits.setText(marker, String(value));
        }
      };
      put('from', place.row, place.column);
      put('to', place.row + place.rows, place.column + place.columns);
      const ext = childNamed(anchor, 'ext');
      if (!ext) return;
      edits.set(ext, 'cx', place.columns * USUAL.width * UNITS_PER_PIXEL);
      edits.set(ext, 'cy', place.rows * USUAL.height * UNITS_PER_PIXEL);
    });
    edits.write();
  }
  for (const n of gone) {
    const anchor = anchors[n];
    if (anchor) file.remove(anchor.drawing, anchor.link);
  }
}

function addCharts(
  file: Package,
  sheetPart: string,
  added: readonly ChartModel[],
  contents: Contents,
): void {
  const folder = folderOf(sheetPart).replace(/[^/]*\/$/, '');
  const free = (start: string): string => {
    for (let n = 1; ; n++) if (!file.has(`${start}${n}.xml`)) return `${start}${n}.xml`;
  };
  const known = file
    .relationships(sheetPart)
    .find(({ type, target }) => type.endsWith('/drawing') && file.has(target))?.target;
  const drawing = known ?? free(`${folder}drawings/drawing`);
  const links = added.map((chart) => {
    const part = free(`${folder}charts/chart`);
    file.add(part, CHART_TYPE, chartXml({ sheets: [] }, chart, contents));
    return file.relate(drawing, 'chart', part);
  });
  if (known === undefined) {
    file.add(drawing, DRAWING_TYPE, drawingXml(added, links));
    const root = file.root(sheetPart);
    const link = element(`${root.prefix}drawing`, {
      'xmlns:r': OFFICE_RELATIONSHIPS,
      'r:id': file.relate(sheetPart, 'drawing', drawing),
    });
    file.edit(sheetPart, [insertedChild(root, 'drawing', link)]);
    return;
  }
  const root = file.root(drawing);
  const ids = descendants(root, 'cNvPr').map(({ attributes }) => Number(attributes['id'] ?? 0));
  const next = Math.max(1, ...ids.filter(Number.isFinite)) + 1;
  const text = added.map((chart, i) => addedFrame(chart, links[i] ?? '', next + i)).join('');
  if (root.selfClosing) {
    const open = file
      .text(drawing)
      .slice(root.start, root.openEnd)
      .replace(/\s*\/>$/, '>');
    const whole = `${open}${text}</${root.prefix}${root.name}>`;
    file.edit(drawing, [{ start: root.start, end: root.end, text: whole }]);
    return;
  }
  const at = file.text(drawing).lastIndexOf('</', root.end - 1);
  file.edit(drawing, [{ start: at, end: at, text }]);
}

/** Moves, redraws, removes and adds charts of a sheet; its other drawings stay to the letter. */
export function changeCharts(
  file: Package,
  sheetPart: string,
  { moved, redrawn, gone, added }: ChartChanges,
  contents: Contents,
): void {
  const { anchors } = chartAnchors(file, sheetPart);
  for (const [n, chart] of redrawn) {
    const anchor = anchors[n];
    if (anchor) file.replace(anchor.part, chartXml({ sheets: [] }, chart, contents));
  }
  if (moved.size + gone.length > 0) moveAnchors(file, sheetPart, moved, gone);
  if (added.length > 0) addCharts(file, sheetPart, added, contents);
}
