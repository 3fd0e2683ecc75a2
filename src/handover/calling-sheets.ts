import { mayCallGill } from '../functions/gill-calls';
import { atOnce, partly, type Steps } from '../plan/in-steps';
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

/**
 * Looks through the cells of a workbook in steps, without holding them: most sheets of most files call no GILL
 * function.
 */
export function* findingCalls(file: Package, { sheets }: WorkbookParts): Steps<CallingSheets> {
  const frames = new Map<string, XmlElement>();
  const calling: SheetPart[] = [];
  for (const [n, sheet] of sheets.entries()) {
    const seen = { calls: false };
    const reading = rootInSteps(file, sheet.part, (formula) => {
      seen.calls ||= mayCallGill(formula);
    });
    const root = yield* partly(reading, n / sheets.length, (n + 1) / sheets.length);
    if (seen.calls) calling.push(sheet);
    else frames.set(sheet.part, root);
    file.forget(sheet.part);
  }
  return { calling, frames };
}

/** The same at once. */
export const callingSheets = (file: Package, book: WorkbookParts): CallingSheets =>
  atOnce(findingCalls(file, book));

/** The root element of a sheet without its rows, each element with its place; `look` is told every formula. */
export function* rootInSteps(
  file: Package,
  part: string,
  look: (formula: string) => void = () => undefined,
): Steps<XmlElement> {
  yield* partly(file.loading(part), 0, 0.3);
  const rows = eachRow(
    file,
    part,
    ({ cells }) => {
      for (const { formula } of cells) if (formula !== undefined) look(formula);
    },
    { placed: true },
  );
  return (yield* partly(rows, 0.3, 1)).root;
}
