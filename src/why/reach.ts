import type { BookCells, CellPlace } from '../plan/book-snapshot';
import { areaOf, filledCells, firstOf, keyOf, type Node, tracedCell, treeOf } from './traced-cells';

function references(node: Node | null | undefined, found: string[]): void {
  if (!node) return;
  if (node.type === 'ReferenceIdentifier') found.push(node.value);
  if ('arguments' in node) for (const one of node.arguments) references(one as Node, found);
  if ('elements' in node)
    for (const one of node.elements.flat()) references(one as unknown as Node, found);
  if ('body' in node) references(node.body as Node, found);
  if ('declarations' in node)
    for (const one of node.declarations) references((one as { init: Node }).init, found);
}

/**
 * Every cell that a figure could hang on, itself among them: all that its formulas name, whichever way they
 * went.
 */
export function reachOf(place: CellPlace, cells: BookCells): CellPlace[] {
  const found = new Map<string, CellPlace>([[keyOf(place), place]]);
  const read = new Set<string>();
  const open: CellPlace[] = [place];
  for (let one = open.pop(); one; one = open.pop()) {
    const cell = tracedCell(one, cells);
    const { formula, filledFrom } = cell;
    if (formula === undefined) continue;
    if (filledFrom && !found.has(keyOf(filledFrom))) {
      found.set(keyOf(filledFrom), filledFrom);
    }
    const at = `${keyOf(filledFrom ?? one)}`;
    if (read.has(at)) continue;
    read.add(at);
    const texts: string[] = [];
    references(treeOf(formula), texts);
    for (const text of texts) {
      const area = areaOf(text, one.sheet, cells);
      if (!area) continue;
      const key = `${area.sheet}!${JSON.stringify(area.area)}`;
      if (read.has(key)) continue;
      read.add(key);
      const block = cells.blockAt(firstOf(area));
      const inside = block ? filledCells({ sheet: area.sheet, area: block }, cells) : [];
      for (const next of [...filledCells(area, cells), ...inside]) {
        const nextKey = keyOf(next);
        if (found.has(nextKey)) continue;
        found.set(nextKey, { sheet: next.sheet, row: next.row, column: next.column });
        if (next.formula !== undefined) open.push(next);
      }
    }
  }
  return [...found.values()];
}
