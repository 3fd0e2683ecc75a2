import type { Package } from '../../ooxml/package';
import { descendants } from '../../ooxml/read-xml';
import { areasOf } from '../../ooxml/sheet-layout';
import type { SheetPart } from '../../ooxml/workbook-parts';
import type { Area } from '../../plan/workbook-model';
import { overlap } from './grid-cells';

/** Cells that were cut from a sheet of a file and pasted elsewhere. */
export interface CutCells {
  readonly sheetId: string;
  readonly area: Area;
}

/** Blocks of a sheet on which notes, links and small charts hang: they stay where they are when cells are cut. */
export function hangingOn(file: Package, { part }: SheetPart): Area[] {
  const root = file.root(part);
  const refs = [
    ...descendants(root, 'hyperlink').map(({ attributes }) => attributes['ref']),
    ...descendants(root, 'sqref').map(({ text }) => text),
    ...file
      .relationships(part)
      .filter(
        ({ type, target }) => /\/(?:comments|threadedComment)$/.test(type) && file.has(target),
      )
      .flatMap(({ target }) =>
        ['comment', 'threadedComment'].flatMap((name) =>
          descendants(file.root(target), name).map(({ attributes }) => attributes['ref']),
        ),
      ),
  ];
  return refs.flatMap((ref) => areasOf(ref));
}

/** Whether something hangs on one of the cells that were cut. */
export const isLeftBehind = (hanging: readonly Area[], cut: readonly CutCells[]): boolean =>
  cut.some(({ area }) => hanging.some((hangingArea) => overlap(hangingArea, area) !== undefined));
