/** Notes, conversations, pictures and charts of somebody's own on a plan's sheets: where each goes, and what has no place any more. */
import type { Package } from '../ooxml/package';
import type { WorkbookParts } from '../ooxml/workbook-parts';
import { type CellPlace, placeText } from '../plan/book-snapshot';
import type { WorkbookModel } from '../plan/workbook-model';
import type { MovedCells } from './moved-cells';
import { type OwnDrawing, ownDrawings } from './own-drawings';
import { type OwnNote, ownNotes } from './own-notes';
import { type OwnThread, ownThreads } from './own-threads';
import type { Loss } from './renewal-loss';

export interface BesidesCells {
  readonly notes: readonly (OwnNote & { readonly to: CellPlace })[];
  readonly threads: readonly { readonly thread: OwnThread; readonly to: CellPlace }[];
  readonly drawings: readonly { readonly drawing: OwnDrawing; readonly to: CellPlace }[];
  /** Charts that stay, each with the sheet that it stood on. */
  readonly chartSheets: ReadonlyMap<string, string>;
  readonly losses: readonly Loss[];
}

/** Lines further up or to the left by which a corner without a cell of the plan finds its place. */
const NEAR = 200;

/** The line that stands in place of one: that of the nearest before it which the newer plan has, and as far on. */
function lineNear(line: number, now: (line: number) => number | undefined): number | undefined {
  for (let back = 0; back <= Math.min(line, NEAR); back++) {
    const found = now(line - back);
    if (found !== undefined) return found + back;
  }
  return undefined;
}

export function ownBesidesCells(
  from: { readonly file: Package; readonly book: WorkbookParts },
  sheets: ReadonlyMap<string, string>,
  plan: WorkbookModel,
  moved: MovedCells,
): BesidesCells {
  const losses: Loss[] = [];
  const stays = (where: string, says: string): [] => {
    losses.push({ kind: 'not carried', where, says });
    return [];
  };
  const notes = ownNotes(from, sheets, plan).flatMap((note) => {
    const to = moved.at(note.at);
    const text = note.text.slice(0, 60);
    if (to) return [{ ...note, to }];
    const what = note.isThread ? 'conversation' : 'note';
    return stays(
      placeText(note.at),
      `The ${what} "${text}" stays behind: its cell is not there any more.`,
    );
  });
  // The note that stands for it says where it went, or that it stays.
  const threads = ownThreads(from, sheets).flatMap((thread) => {
    const to = moved.at(thread.at);
    return to ? [{ thread, to }] : [];
  });
  const drawings = ownDrawings(from, sheets, plan).flatMap((drawing) => {
    const { sheet, row, column } = drawing.at;
    const now = sheets.get(sheet);
    const [down, right] = [
      lineNear(row, (near) => moved.row(sheet, near)),
      lineNear(column, (near) => moved.column(sheet, near)),
    ];
    if (now === undefined || down === undefined || right === undefined)
      return stays(
        placeText(drawing.at),
        `${drawing.what} stays behind: its cell is not there any more.`,
      );
    return [{ drawing, to: { sheet: now, row: down, column: right } }];
  });
  return {
    notes,
    threads,
    drawings,
    chartSheets: new Map(
      drawings.flatMap(({ drawing }) =>
        drawing.charts.map((chart) => [chart, drawing.at.sheet] as const),
      ),
    ),
    losses,
  };
}
