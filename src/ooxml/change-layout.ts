import { areaAddress, cellAddress, readArea } from '../plan/addresses';
import type { Area } from '../plan/workbook-model';
import { XmlEdits } from './follow/xml-edits';
import type { Package } from './package';
import { childNamed, childrenNamed, type Splice, type XmlElement } from './read-xml';
import { insertedChild } from './sheet-order';
import { element } from './write-xml';

/** A column in characters or a row in points; without a size it is as usual. */
export interface LineLook {
  readonly size?: number | undefined;
  readonly hidden: boolean;
}

/** What of a sheet changes beside its cells; what is left out stays. */
export interface LayoutChanges {
  readonly columns?: ReadonlyMap<number, LineLook>;
  readonly rows?: ReadonlyMap<number, LineLook>;
  readonly merged?: readonly Area[];
  readonly unmerged?: readonly Area[];
  readonly frozen?: { readonly rows: number; readonly columns: number };
  readonly gridLines?: boolean;
}

interface Part {
  readonly file: Package;
  readonly part: string;
}

const LAST_COLUMN = 16_383;

function changeColumns({ file, part }: Part, changes: ReadonlyMap<number, LineLook>): void {
  const root = file.root(part);
  const xml = file.text(part);
  const { prefix } = root;
  const list = childNamed(root, 'cols');
  const written = (first: number, last: number, attributes: Record<string, string>): string =>
    element(`${prefix}col`, { ...attributes, min: first + 1, max: last + 1 });
  const changed = (column: number, known: Record<string, string>): string => {
    const { size, hidden } = changes.get(column) as LineLook;
    const { width, customWidth, hidden: wasHidden, bestFit, ...others } = known;
    void [customWidth, wasHidden, bestFit];
    const wide = size ?? (width === undefined ? undefined : Number(width));
    return written(column, column, {
      ...others,
      // The format wants a width wherever a column is spoken of.
      width: String(wide ?? 9.140625),
      ...(size !== undefined && { customWidth: '1' }),
      ...(hidden && { hidden: '1' }),
    });
  };
  const columns = childrenNamed(list, 'col');
  const covered = new Set<number>();
  const pieces: { readonly first: number; readonly xml: string }[] = columns.flatMap((column) => {
    const first = Number(column.attributes['min']) - 1;
    const last = Math.min(Number(column.attributes['max']) - 1, LAST_COLUMN);
    const inside = [...changes.keys()]
      .filter((columnIndex) => columnIndex >= first && columnIndex <= last)
      .sort(byNumber);
    if (inside.length === 0) return [{ first, xml: xml.slice(column.start, column.end) }];
    const out: { first: number; xml: string }[] = [];
    let at = first;
    for (const columnIndex of inside) {
      covered.add(columnIndex);
      if (columnIndex > at)
        out.push({ first: at, xml: written(at, columnIndex - 1, column.attributes) });
      out.push({ first: columnIndex, xml: changed(columnIndex, column.attributes) });
      at = columnIndex + 1;
    }
    if (at <= last) out.push({ first: at, xml: written(at, last, column.attributes) });
    return out;
  });
  for (const column of changes.keys()) {
    if (!covered.has(column)) pieces.push({ first: column, xml: changed(column, {}) });
  }
  const whole = `<${prefix}cols>${pieces
    .sort((a, b) => a.first - b.first)
    .map((piece) => piece.xml)
    .join('')}</${prefix}cols>`;
  file.edit(part, [
    list ? { start: list.start, end: list.end, text: whole } : insertedChild(root, 'cols', whole),
  ]);
}

const byNumber = (a: number, b: number): number => a - b;

function changeRows({ file, part }: Part, changes: ReadonlyMap<number, LineLook>): void {
  const edits = new XmlEdits(file, part);
  const sheetData = childNamed(edits.root, 'sheetData');
  if (!sheetData) return;
  const rows = childrenNamed(sheetData, 'row');
  const known = new Map(rows.map((row) => [Number(row.attributes['r']) - 1, row]));
  const fresh: Splice[] = [];
  for (const [number, { size, hidden }] of [...changes].sort(([a], [b]) => a - b)) {
    const row = known.get(number);
    if (row) {
      edits.set(row, 'ht', size);
      edits.set(row, 'customHeight', size === undefined ? undefined : 1);
      edits.set(row, 'hidden', hidden ? 1 : undefined);
      continue;
    }
    const text = element(`${sheetData.prefix}row`, {
      r: number + 1,
      ht: size,
      customHeight: size === undefined ? undefined : 1,
      hidden: hidden ? 1 : undefined,
    });
    const next = rows.find((later) => Number(later.attributes['r']) - 1 > number);
    if (next) edits.insertBefore(next, text);
    else if (rows.length > 0) edits.insertAfter(rows.at(-1) as XmlElement, text);
    else fresh.push({ start: 0, end: 0, text });
  }
  if (fresh.length > 0) {
    const inner = fresh.map(({ text }) => text).join('');
    edits.replace(
      sheetData,
      `<${sheetData.prefix}sheetData>${inner}</${sheetData.prefix}sheetData>`,
    );
  }
  edits.write();
}

function changeMerges(
  { file, part }: Part,
  merged: readonly Area[],
  unmerged: readonly Area[],
): void {
  const gone = new Set(unmerged.map(areaAddress));
  const root = file.root(part);
  const { prefix } = root;
  const list = childNamed(root, 'mergeCells');
  const kept = childrenNamed(list, 'mergeCell').filter(({ attributes }) => {
    const area = readArea(attributes['ref'] ?? '');
    return !area || !gone.has(areaAddress(area));
  });
  const xml = file.text(part);
  const inner = [
    ...kept.map(({ start, end }) => xml.slice(start, end)),
    ...merged.map((area) => element(`${prefix}mergeCell`, { ref: areaAddress(area) })),
  ];
  const text =
    inner.length === 0 ? '' : element(`${prefix}mergeCells`, { count: inner.length }, inner);
  file.edit(part, [
    list ? { start: list.start, end: list.end, text } : insertedChild(root, 'mergeCells', text),
  ]);
}

function changeView({ file, part }: Part, { frozen, gridLines }: LayoutChanges): void {
  const { prefix } = file.root(part);
  if (!childNamed(file.root(part), 'sheetViews')) {
    const view = element(`${prefix}sheetView`, { workbookViewId: 0 });
    const text = element(`${prefix}sheetViews`, {}, view);
    file.edit(part, [insertedChild(file.root(part), 'sheetViews', text)]);
  }
  const edits = new XmlEdits(file, part);
  const view = childNamed(childNamed(edits.root, 'sheetViews'), 'sheetView');
  if (!view) return;
  if (gridLines !== undefined) edits.set(view, 'showGridLines', gridLines ? undefined : 0);
  if (frozen) {
    const { rows, columns } = frozen;
    const isFrozen = rows > 0 || columns > 0;
    const pane = rows > 0 && columns > 0 ? 'bottomRight' : rows > 0 ? 'bottomLeft' : 'topRight';
    const text = isFrozen
      ? element(`${prefix}pane`, {
          xSplit: columns || undefined,
          ySplit: rows || undefined,
          topLeftCell: cellAddress(rows, columns),
          activePane: pane,
          state: 'frozen',
        }) + element(`${prefix}selection`, { pane })
      : '';
    const others = view.children.filter(({ name }) => name !== 'pane' && name !== 'selection');
    const xml = file.text(part);
    const inner = text + others.map(({ start, end }) => xml.slice(start, end)).join('');
    const open = xml.slice(view.start, view.openEnd).replace(/\s*\/?>$/, '');
    const lines =
      gridLines === undefined
        ? open
        : open.replace(/\sshowGridLines="[^"]*"/, '') + (gridLines ? '' : ' showGridLines="0"');
    const whole = inner === '' ? `${lines}/>` : `${lines}>${inner}</${prefix}sheetView>`;
    edits.replace(view, whole);
  }
  edits.write();
}

/** Changes widths, heights, merges and how a sheet is shown; everything else of its part stays to the letter. */
export function changeLayout(file: Package, part: string, changes: LayoutChanges): void {
  const target = { file, part };
  const { columns, rows, merged = [], unmerged = [], frozen, gridLines } = changes;
  if (columns && columns.size > 0) changeColumns(target, columns);
  if (rows && rows.size > 0) changeRows(target, rows);
  if (merged.length + unmerged.length > 0) changeMerges(target, merged, unmerged);
  if (frozen || gridLines !== undefined) changeView(target, changes);
}
