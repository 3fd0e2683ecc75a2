/**
 * Plays a year of the demo farm through its registers, week by week, with its plan renewed three times, once with more
 * tanks and beds; sets what the workbook says beside a ledger; then has LibreOffice open, compute and save the workbook
 * and looks again, at what it computed and at the farm in the file that it saved. npm run soak:year
 */
import { openBook } from '../../src/ooxml/open-book';
import { BookCells } from '../../src/plan/book-snapshot';
import { readBook } from '../../src/plan/read-book';
import { convert, readValues } from '../tools/libreoffice';
import { playThrough } from '../tools/play-through';
import { otherThanLedger } from '../tools/played-checks';
import { farmDifferences } from '../tools/same-farm';

async function run(): Promise<void> {
  const { bytes, balance, faults, rows } = playThrough([
    { week: 17 },
    { week: 34, tanks: 6, beds: 50 },
    { week: 52 },
  ]);
  console.log(`A year in ${JSON.stringify(rows)}: ${faults.length} faults`);
  const saved = convert(new Map([['year.xlsx', bytes]]), 'xlsx').get('year.xlsx');
  if (!saved) throw new Error('LibreOffice saved nothing');
  const cells = new BookCells(openBook(bytes));
  const again = otherThanLedger(cells, balance, await readValues(saved));
  const [before, after] = [readBook(openBook(bytes)).farm, readBook(openBook(saved)).farm];
  const carried = before && after ? farmDifferences(before, after) : ['the farm cannot be read'];
  console.log(
    `LibreOffice computed it with ${again.length} differences from the ledger, and saved ${carried.length} of the farm`,
  );
  const all = [...faults, ...again, ...carried];
  for (const says of all) console.log(says);
  process.exitCode = all.length > 0 ? 1 : 0;
}

void run();
