import { extname } from 'node:path';
import { computedValues } from '../engine/engine';
import { openTraced } from '../ooxml/open-book';
import { UnreadableFile } from '../ooxml/unreadable-file';
import { writeXlsx } from '../ooxml/write-xlsx';
import type { BookSnapshot } from '../plan/book-snapshot';
import { countedFarm } from '../experience/taken-over';
import { planWorkbook } from '../plan/plan';
import { clientReport, unitsOfBook } from '../report/client-report';
import { NoReport } from '../report/report-cells';
import { readArguments } from './command-arguments';
import type { Command } from './command';
import { farmFromFile } from './farm-file';
import { Mistake } from './mistake';
import { readWorkbookFile, writeOutputFile } from './workbook-file';

/** Pictures that every browser shows, by the ending of their file. */
const PICTURES: Readonly<Record<string, string>> = {
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.jpeg': 'image/jpeg',
  '.svg': 'image/svg+xml',
};
const MAX_LOGO_BYTES = 2_000_000;

async function logoFrom(path: string): Promise<string> {
  const type = PICTURES[extname(path).toLowerCase()];
  if (type === undefined)
    throw new Mistake(`--logo takes a picture (${Object.keys(PICTURES).join(', ')}); got ${path}.`);
  const bytes = await readWorkbookFile(path);
  if (bytes.length > MAX_LOGO_BYTES)
    throw new Mistake(`${path} is larger than 2 MB; take a smaller picture.`);
  return `data:${type};base64,${Buffer.from(bytes).toString('base64')}`;
}

async function bookFrom(path: string): Promise<BookSnapshot> {
  if (extname(path).toLowerCase() === '.json') {
    const plan = planWorkbook(countedFarm(await farmFromFile(path)), { formulas: 'live' });
    return openTraced(writeXlsx(plan, computedValues(plan)));
  }
  try {
    return openTraced(await readWorkbookFile(path));
  } catch (problem) {
    if (problem instanceof UnreadableFile) throw new Mistake(`${path}: ${problem.message}`);
    throw problem;
  }
}

/** Writes a page for a client, ready to be printed. */
export const report: Command = async (args) => {
  const { values, positionals } = readArguments(args, {
    out: { type: 'string' },
    paper: { type: 'string' },
    client: { type: 'string' },
    logo: { type: 'string' },
    force: { type: 'boolean', default: false },
  });
  const [path, ...more] = positionals;
  const { out, client } = values;
  if (
    path === undefined ||
    more.length > 0 ||
    out === undefined ||
    extname(out).toLowerCase() !== '.html'
  )
    throw new Mistake(
      'report takes a plan and a name for the page: report BOOK.xlsx --out REPORT.html',
    );
  const asked = values.paper?.toLowerCase();
  const chosen = (['A4', 'Letter'] as const).find((paper) => paper.toLowerCase() === asked);
  if (asked !== undefined && chosen === undefined)
    throw new Mistake(`--paper is A4 or Letter; got ${String(values.paper)}.`);
  const logo = values.logo === undefined ? undefined : await logoFrom(values.logo);
  try {
    const book = await bookFrom(path);
    const page = clientReport(book, {
      paper: chosen ?? (unitsOfBook(book) === 'US' ? 'Letter' : 'A4'),
      ...(client !== undefined && { client }),
      ...(logo !== undefined && { logo }),
    });
    await writeOutputFile(out, page, { input: path, force: values.force });
  } catch (problem) {
    if (problem instanceof NoReport) throw new Mistake(`${path}: ${problem.message}`);
    throw problem;
  }
  console.log(`${out}: open it in a browser and print it, or save it as PDF.`);
  return 0;
};
