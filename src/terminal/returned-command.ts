import { compareReturned, type Difference, NotComparable, takenOver } from '../handover/returned';
import { RefusedChange } from '../ooxml/cell-changes';
import { openTraced } from '../ooxml/open-book';
import { UnreadableFile } from '../ooxml/unreadable-file';
import type { BookSnapshot } from '../plan/book-snapshot';
import { NoPlanFound, readBook } from '../plan/read-book';
import { readArguments } from './command-arguments';
import type { Command } from './command';
import { Mistake } from './mistake';
import { readWorkbookFile, writeOutputFile } from './workbook-file';

const line = ({ where, label, shownWas, shownNow, refused, note }: Difference): string =>
  [
    where,
    label,
    `${shownWas} → ${shownNow}`,
    ...(refused === undefined ? [] : [`not taken over: ${refused}`]),
    ...(note === undefined ? [] : [note]),
  ].join('\t');

function opened(bytes: Uint8Array, path: string): BookSnapshot {
  try {
    return openTraced(bytes);
  } catch (problem) {
    if (problem instanceof UnreadableFile) throw new Mistake(`${path}: ${problem.message}`);
    throw problem;
  }
}

/** What is wrong with the typed cells of a plan, in sentences; nothing for a workbook without one. */
function faultsOf(book: BookSnapshot): string[] {
  try {
    return readBook(book).faults.map(({ says }) => says);
  } catch (problem) {
    if (problem instanceof NoPlanFound) return [];
    throw problem;
  }
}

/**
 * Lists what was typed otherwise in a copy that came back, and writes it into the own workbook. Exit status 1
 * where something could not be taken over.
 */
export const returned: Command = async (args) => {
  const { values, positionals } = readArguments(args, {
    out: { type: 'string' },
    json: { type: 'boolean', default: false },
    force: { type: 'boolean', default: false },
  });
  const [ownPath, backPath, ...more] = positionals;
  if (ownPath === undefined || backPath === undefined || more.length > 0)
    throw new Mistake(
      'returned takes your own workbook and the one that came back: returned OWN.xlsx BACK.xlsx',
    );
  const [ownBytes, backBytes] = [await readWorkbookFile(ownPath), await readWorkbookFile(backPath)];
  const own = opened(ownBytes, ownPath);
  try {
    const comparison = compareReturned(own, opened(backBytes, backPath));
    const { differences, compared, elsewhere } = comparison;
    if (values.json) console.log(JSON.stringify(comparison, null, 2));
    else {
      for (const difference of differences) console.log(line(difference));
      if (elsewhere.length > 0)
        console.log(
          `Outside of the typed cells ${elsewhere.length} ${elsewhere.length === 1 ? 'cell differs' : 'cells differ'} and ${elsewhere.length === 1 ? 'is' : 'are'} not taken over: ${elsewhere.slice(0, 5).join(', ')}${elsewhere.length > 5 ? ', …' : ''}`,
        );
      console.log(`${differences.length} of ${compared} typed cells differ.`);
    }
    const refused = differences.filter((difference) => difference.refused !== undefined);
    if (values.out !== undefined) {
      const bytes = takenOver(ownBytes, differences);
      const before = new Set(faultsOf(own));
      const wrong = faultsOf(openTraced(bytes)).filter((says) => !before.has(says));
      if (wrong.length > 0) {
        for (const says of wrong) console.error(says);
        console.error(`${values.out} was not written: the plan cannot be read with these figures.`);
        return 1;
      }
      await writeOutputFile(values.out, bytes, { input: ownPath, force: values.force });
      if (!values.json)
        console.log(
          `${values.out}: ${differences.length - refused.length} cells taken over. Open and save it once, so that all figures follow.`,
        );
    }
    return refused.length > 0 ? 1 : 0;
  } catch (problem) {
    if (problem instanceof NotComparable || problem instanceof RefusedChange)
      throw new Mistake(problem.message);
    throw problem;
  }
};
