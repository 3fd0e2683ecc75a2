import type { CellPosition, Model } from '@odoo/o-spreadsheet';

export type Getters = Model['getters'];
export type Range = NonNullable<ReturnType<Getters['getNamedRange']>>['range'];

export interface Area {
  readonly sheetId: string;
  readonly zone: Range['zone'];
}

/** The library's set of areas. */
export interface Areas extends Iterable<Area> {
  copy(): Areas;
  add(area: Area): void;
  delete(area: Area): void;
  hasPosition(position: CellPosition): boolean;
}

/** What the library asks of its record of dependencies. */
export interface Graph {
  removeAllDependencies(position: CellPosition): void;
  addDependencies(position: CellPosition, ranges: readonly Range[]): void;
  getCellsDependingOn(areas: Iterable<Area>, known: Areas): Areas;
}

interface Link {
  readonly dependent: Dependent;
  readonly top: number;
  readonly bottom: number;
}

interface Dependent {
  readonly position: CellPosition;
  readonly ranges: Set<string>;
  readonly links: { readonly link: Link; readonly among: Set<Link> }[];
}

/** Ranges are found by the blocks of so many rows of a column that they touch. */
const BLOCK = 256;

function* blocksOf({ sheetId, zone }: Area): Generator<string> {
  const last = Math.floor(zone.bottom / BLOCK);
  for (let column = zone.left; column <= zone.right; column++) {
    for (let k = Math.floor(zone.top / BLOCK); k <= last; k++) yield `${sheetId}!${column},${k}`;
  }
}

const placeOf = ({ sheetId, col, row }: CellPosition): string => `${sheetId}!${col},${row}`;
const keyOf = ({ sheetId, zone }: Range): string =>
  `${sheetId}!${zone.left},${zone.top},${zone.right},${zone.bottom}`;
const areaOf = ({ sheetId, col, row }: CellPosition, rows = 1): Area => ({
  sheetId,
  zone: { left: col, right: col, top: row, bottom: row + rows - 1 },
});

const order = (a: CellPosition, b: CellPosition): number =>
  a.sheetId === b.sheetId ? a.col - b.col || a.row - b.row : a.sheetId < b.sheetId ? -1 : 1;

/** Cells that stand below each other as one area: the library's sets take long for many single cells. */
function* joined(cells: CellPosition[]): Generator<Area> {
  cells.sort(order);
  for (let i = 0; i < cells.length;) {
    const { sheetId, col, row } = cells[i] as CellPosition;
    let rows = 1;
    for (let next = cells[i + rows]; next; next = cells[i + rows]) {
      if (next.sheetId !== sheetId || next.col !== col || next.row !== row + rows) break;
      rows++;
    }
    yield areaOf({ sheetId, col, row }, rows);
    i += rows;
  }
}

/** Which cells depend on which ranges, each dependency once. */
export class DependencyGraph implements Graph {
  private readonly dependents = new Map<string, Dependent>();
  private readonly blocks = new Map<string, Set<Link>>();

  removeAllDependencies(position: CellPosition): void {
    const place = placeOf(position);
    for (const { link, among } of this.dependents.get(place)?.links ?? []) among.delete(link);
    this.dependents.delete(place);
  }

  addDependencies(position: CellPosition, ranges: readonly Range[]): void {
    if (ranges.length === 0) return;
    const place = placeOf(position);
    let dependent = this.dependents.get(place);
    if (!dependent) {
      this.dependents.set(place, (dependent = { position, ranges: new Set(), links: [] }));
    }
    for (const range of ranges) this.link(dependent, range);
  }

  /** The cells that depend on the areas, directly or through others, and those known; without the areas. */
  getCellsDependingOn(areas: Iterable<Area>, known: Areas): Areas {
    const given = [...areas];
    const found = known.copy();
    for (const area of given) found.add(area);
    const reached = new Set<Dependent>();
    const queue = [...given];
    for (let area = queue.pop(); area; area = queue.pop()) {
      for (const { position } of this.directlyOn(area, found, reached))
        queue.push(areaOf(position));
    }
    for (const area of joined([...reached].map(({ position }) => position))) found.add(area);
    for (const area of given) found.delete(area);
    return found;
  }

  private directlyOn(area: Area, found: Areas, reached: Set<Dependent>): Dependent[] {
    const fresh: Dependent[] = [];
    for (const block of blocksOf(area)) {
      for (const { dependent, top, bottom } of this.blocks.get(block) ?? []) {
        if (top > area.zone.bottom || bottom < area.zone.top || reached.has(dependent)) continue;
        if (found.hasPosition(dependent.position)) continue;
        reached.add(dependent);
        fresh.push(dependent);
      }
    }
    return fresh;
  }

  private link(dependent: Dependent, range: Range): void {
    const key = keyOf(range);
    if (dependent.ranges.has(key)) return;
    dependent.ranges.add(key);
    // A range that was written wrongly, or whose sheet is gone, covers no cells.
    if (range.invalidSheetName !== undefined || range.invalidXc !== undefined) return;
    const link: Link = { dependent, top: range.zone.top, bottom: range.zone.bottom };
    for (const block of blocksOf(range)) {
      let among = this.blocks.get(block);
      if (!among) this.blocks.set(block, (among = new Set()));
      among.add(link);
      dependent.links.push({ link, among });
    }
  }
}
