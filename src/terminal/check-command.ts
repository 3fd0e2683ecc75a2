import { markOfBook } from '../chances/plan-mark';
import { readChancesSheets } from '../chances/read-chances-sheet';
import { checkSheets } from '../check/check';
import type { Finding } from '../check/finding';
import { openBook } from '../ooxml/open-book';
import { openSheets } from '../ooxml/open-sheets';
import { UnreadableFile } from '../ooxml/unreadable-file';
import { readArguments } from './command-arguments';
import type { Command } from './command';
import { Mistake } from './mistake';
import { readWorkbookFile } from './workbook-file';

const report = (finding: Finding): string =>
  [
    `${finding.sheet}!${finding.address}  ${finding.what}`,
    `    Why: ${finding.why}`,
    `    Do: ${finding.remedy}`,
  ].join('\n');

/** Checks a workbook file: exit status 0 where nothing was found, 1 with findings, 2 where it cannot be read. */
export const check: Command = async (args) => {
  const { values, positionals } = readArguments(args, {
    json: { type: 'boolean', default: false },
  });
  const [path, ...more] = positionals;
  if (path === undefined || more.length > 0) {
    throw new Mistake('check takes one workbook: check FILE.xlsx [--json]');
  }
  let findings: Finding[];
  try {
    const bytes = await readWorkbookFile(path);
    const sheets = openSheets(bytes);
    const played = readChancesSheets(sheets).length > 0;
    const book = openBook(bytes);
    findings = checkSheets(sheets, { book, mark: played ? markOfBook(book) : undefined });
  } catch (problem) {
    if (problem instanceof UnreadableFile) throw new Mistake(`${path}: ${problem.message}`);
    throw problem;
  }
  if (values.json) console.log(JSON.stringify(findings, null, 2));
  else if (findings.length === 0) console.log(`${path}: nothing found.`);
  else console.log(findings.map(report).join('\n\n'));
  return findings.length === 0 ? 0 : 1;
};
