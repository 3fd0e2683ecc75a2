import { mayCallGill } from '../functions/gill-calls';
import { atOnce } from '../ooxml/in-steps';
import type { Package } from '../ooxml/package';
import type { XmlElement } from '../ooxml/read-xml';
import { eachRow } from '../ooxml/sheet-cells';
import type { SheetPart, WorkbookParts } from '../ooxml/workbook-parts';

/** Sheets in whose cells a GILL function may be called, and what the others hold beside their cells. */
export interface CallingSheets {
  readonly calling: readonly SheetPart[];
  /** By part: the root element of a sheet that calls none, without its rows. */
  readonly frames: ReadonlyMap<string, XmlElement>;
}

/** Looks through the cells of a workbook without holding them: most sheets of most files call no GILL function. */
export function callingSheets(file: Package, { sheets }: WorkbookParts): CallingSheets {
  const frames = new Map<string, XmlElement>();
  const calling = sheets.filter(({ part }) => {
    const seen = { calls: false };
    const rows = eachRow(
      file,
      part,
      ({ cells }) => {
        seen.calls ||= cells.some(({ formula }) => formula !== undefined && mayCallGill(formula));
      },
      { placed: true },
    );
    const { root } = atOnce(rows);
    if (!seen.calls) frames.set(part, root);
    file.forget(part);
    return seen.calls;
  });
  return { calling, frames };
}
