import { describe, expect, it } from 'vitest';
import { inSteps, type Steps } from '../../../src/plan/in-steps';
import { Package } from '../../../src/ooxml/package';
import { readSheetCells } from '../../../src/ooxml/sheet-cells';
import { readForGrid } from '../../../src/hosts/workbench/open-xlsx';
import { pausing } from '../../../src/sidebar/pausing';
import { savingIntoFile } from '../../../src/hosts/workbench/save-into-file';
import { largeWorkbook } from '../../tools/large-workbook';
import { openOnGrid } from '../../tools/workbench-file';

const SHEET = 'xl/worksheets/sheet1.xml';
/** 23,000 cells, 7,000 of them formulas. */
const bytes = largeWorkbook('records', 0.18);

/** Microseconds that this process has computed: what else the machine does plays no part. */
const computed = (): number => {
  const { user, system } = process.cpuUsage();
  return user + system;
};

/** The most computing between two moments in which a work says how far it is, of all it does, and its shares. */
async function beats(work: Steps<unknown>): Promise<{ longest: number; shares: number[] }> {
  const start = computed();
  let last = start;
  let longest = 0;
  const shares: number[] = [];
  await inSteps(work, (share) => {
    longest = Math.max(longest, computed() - last);
    shares.push(share);
    last = computed();
    return undefined;
  });
  const end = computed();
  return { longest: Math.max(longest, end - last) / (end - start), shares };
}

/** The least of three: memory that is cleared away makes single steps long. */
async function leastOfThree(work: () => Steps<unknown>) {
  const runs = [await beats(work()), await beats(work()), await beats(work())];
  return runs.sort((a, b) => a.longest - b.longest)[0] as (typeof runs)[number];
}

const isRising = (shares: readonly number[]): boolean =>
  shares.every((share, n) => share >= 0 && share <= 1 && share >= (shares[n - 1] ?? 0));

describe('a large workbook', () => {
  it('is read and saved in steps that say how far they are, none of them a third of the whole', async () => {
    const reading = await leastOfThree(() => readForGrid(bytes));
    expect(reading.longest).toBeLessThan(1 / 3);
    expect(reading.shares.length).toBeGreaterThan(20);
    expect(isRising(reading.shares)).toBe(true);
    const grid = await openOnGrid(bytes);
    grid.type(0, 'L4', 'typed');
    const saving = await leastOfThree(() => savingIntoFile(grid.opened, grid.model));
    expect(saving.longest).toBeLessThan(1 / 3);
    expect(saving.shares.length).toBeGreaterThan(20);
    expect(isRising(saving.shares)).toBe(true);
  });

  it('is given up between two steps when somebody stops it', async () => {
    const cancel = new AbortController();
    let told = 0;
    const stopped = inSteps(
      readForGrid(largeWorkbook('records', 1)),
      pausing(() => {
        told += 1;
        cancel.abort();
      }, cancel.signal),
    );
    await expect(stopped).rejects.toMatchObject({ name: 'AbortError' });
    expect(told).toBe(1);
  });

  it('has nothing changed but the typed cell and the formulas that read it', async () => {
    const grid = await openOnGrid(bytes);
    expect(grid.notes).toEqual([]);
    const before = readSheetCells(Package.open(bytes), SHEET);
    const { bytes: untouched } = grid.save();
    expect(Package.open(untouched).text(SHEET)).toBe(before.xml);
    grid.type(0, 'F100', '1000');
    const { bytes: saved, losses } = grid.save();
    expect(losses).toEqual([]);
    const after = readSheetCells(Package.open(saved), SHEET);
    const [was, is] = [before, after].map(({ rows }) => rows.flatMap((row) => row.cells));
    const changed = is?.filter(
      ({ value, formula }, n) => was?.[n]?.value !== value || was?.[n]?.formula !== formula,
    );
    const factor = Number(was?.find(({ row, column }) => row === 99 && column === 6)?.value);
    const values = (changed ?? []).map(({ row, column, value }) => [row, column, value]);
    expect(values.slice(0, 2)).toEqual([
      [99, 5, '1000'],
      [99, 7, String(1000 * factor)],
    ]);
    // The sum beside them, and the word where it is another one from now on.
    expect(values.slice(2).every(([row, column]) => row === 99 && Number(column) > 7)).toBe(true);
  });
});
