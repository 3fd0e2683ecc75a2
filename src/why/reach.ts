import type { BookCells, CellPlace } from '../plan/book-snapshot';
import { areaOf, filledCells, firstOf, keyOf, type Node, tracedCell, treeOf } from './traced-cells';

function references(node: Node | null | undefined, found: string[]): void {
  if (!node) return;
  if (node.type === 'ReferenceIdentifier') found.push(node.value);
  if ('arguments' in node)
    for (const argument of node.arguments) references(argument as Node, found);
  if ('elements' in node)
    for (const element of node.elements.flat()) references(element as unknown as Node, found);
  if ('body' in node) references(node.body as Node, found);
  if ('declarations' in node)
    for (const declarator of node.declarations)
      references((declarator as { init: Node }).init, found);
}

/** Every cell that a figure could hang on. */
export interface Reach {
  /** Itself among them. */
  readonly places: readonly CellPlace[];
  /** Those, by `keyOf`, that could come out otherwise where the cells with these keys do; they are among them. */
  hangingOn(changed: Iterable<string>): ReadonlySet<string>;
}

/** What a figure could hang on: all that its formulas name, whichever way they went. */
export function reachOf(place: CellPlace, cells: BookCells): Reach {
  const found = new Map<string, CellPlace>([[keyOf(place), place]]);
  const known = new Set<string>();
  /** Areas that were read, by the keys of the cells in them. */
  const areasWith = new Map<string, string[]>();
  /** Cells whose formula reads an area; for a block the one that fills it. */
  const readers = new Map<string, string[]>();
  const fills = new Map<string, string[]>();
  const add = (map: Map<string, string[]>, key: string, value: string): void => {
    const list = map.get(key);
    if (list) list.push(value);
    else map.set(key, [value]);
  };
  const read = new Set<string>();
  const open: CellPlace[] = [place];
  for (let current = open.pop(); current; current = open.pop()) {
    const { formula, filledFrom } = tracedCell(current, cells);
    if (formula === undefined) continue;
    if (filledFrom) {
      if (!found.has(keyOf(filledFrom))) found.set(keyOf(filledFrom), filledFrom);
      add(fills, keyOf(filledFrom), keyOf(current));
    }
    const at = keyOf(filledFrom ?? current);
    if (read.has(at)) continue;
    read.add(at);
    const texts: string[] = [];
    references(treeOf(formula), texts);
    for (const text of new Set(texts)) {
      const area = areaOf(text, current.sheet, cells);
      if (!area) continue;
      const key = `${area.sheet}!${JSON.stringify(area.area)}`;
      add(readers, key, at);
      if (known.has(key)) continue;
      known.add(key);
      const block = cells.blockAt(firstOf(area));
      const inside = block ? filledCells({ sheet: area.sheet, area: block }, cells) : [];
      for (const next of [...filledCells(area, cells), ...inside]) {
        const nextKey = keyOf(next);
        add(areasWith, nextKey, key);
        if (found.has(nextKey)) continue;
        found.set(nextKey, { sheet: next.sheet, row: next.row, column: next.column });
        if (next.formula !== undefined) open.push(next);
      }
    }
  }
  return {
    places: [...found.values()],
    hangingOn(changed) {
      const hanging = new Set<string>(changed);
      const seen = new Set<string>();
      const next = [...hanging];
      const reach = (key: string): void => {
        if (hanging.has(key)) return;
        hanging.add(key);
        next.push(key);
      };
      for (let key = next.pop(); key !== undefined; key = next.pop()) {
        fills.get(key)?.forEach(reach);
        for (const area of areasWith.get(key) ?? []) {
          if (seen.has(area)) continue;
          seen.add(area);
          readers.get(area)?.forEach(reach);
        }
      }
      return hanging;
    },
  };
}
