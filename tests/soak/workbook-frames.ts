import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { RefusedChange } from '../../src/ooxml/cell-changes';
import { UnreadableFile } from '../../src/ooxml/unreadable-file';
import { foreignFolder } from '../tools/foreign-workbooks';
import { gridDifferences } from '../tools/grid-contents';
import { schemaErrors } from '../tools/schema';
import { openOnGrid, type OnGrid } from '../tools/workbench-file';
import { allOf, report } from './one-by-one';

/**
 * npm run soak:frames -- [--schema] [--every n] [--from n] [folder]
 * Opens every workbook of a folder on the workbench's grid, changes its frame (lines that come in and go, a sheet
 * that gets another name, goes, comes in or moves), saves, opens what was saved and prints where the two differ.
 * Each step on each file is ended where it takes a minute; the others go on.
 */

const LIMIT_MS = 60_000;
const SLOW_SECONDS = 5;

interface Outcome {
  readonly what: string;
  readonly became: string;
  /** What is to be looked at. */
  readonly lines: readonly string[];
}

type Step = readonly [name: string, act: (grid: OnGrid) => boolean];

const dispatch = (grid: OnGrid, type: string, payload: object): boolean =>
  grid.model.dispatch(type as never, payload as never).isSuccessful;

const lines =
  (dimension: 'ROW' | 'COL', base: number, quantity: number) =>
  (grid: OnGrid): boolean => {
    const sheetId = grid.model.getters.getSheetIds()[0] ?? '';
    const sheetName = grid.model.getters.getSheetName(sheetId);
    return quantity > 0
      ? dispatch(grid, 'ADD_COLUMNS_ROWS', {
          ...{ sheetId, sheetName, dimension, base, quantity, position: 'before' },
        })
      : dispatch(grid, 'REMOVE_COLUMNS_ROWS', {
          ...{ sheetId, sheetName, dimension },
          elements: Array.from({ length: -quantity }, (_, i) => base + i),
        });
  };

const steps: readonly Step[] = [
  ['row in', lines('ROW', 2, 2)],
  ['row out', lines('ROW', 3, -1)],
  ['column in', lines('COL', 1, 1)],
  ['column out', lines('COL', 2, -1)],
  [
    'sheet renamed',
    (grid) => {
      const sheetId = grid.model.getters.getSheetIds()[0] ?? '';
      const oldName = grid.model.getters.getSheetName(sheetId);
      return dispatch(grid, 'RENAME_SHEET', {
        sheetId,
        oldName,
        newName: "Other's name".replace("'", ''),
      });
    },
  ],
  [
    'sheet out',
    (grid) => {
      const sheetId = grid.model.getters.getSheetIds().at(-1) ?? '';
      const sheetName = grid.model.getters.getSheetName(sheetId);
      return dispatch(grid, 'DELETE_SHEET', { sheetId, sheetName });
    },
  ],
  [
    'sheet in and moved',
    (grid) => {
      const sheetId = 'added-here';
      const position = grid.model.getters.getSheetIds().length;
      const done = dispatch(grid, 'CREATE_SHEET', { sheetId, position, name: 'Added here' });
      if (!done) return false;
      dispatch(grid, 'UPDATE_CELL', { sheetId, col: 0, row: 0, content: '=1+1' });
      dispatch(grid, 'UPDATE_CELL', { sheetId, col: 1, row: 1, content: "'007" });
      return position < 2 || dispatch(grid, 'MOVE_SHEET', { sheetId, delta: -1 });
    },
  ],
];

const fault = (problem: unknown): string =>
  `${String(problem)} ${(problem as Error).stack?.split('\n')[1]?.trim() ?? ''}`;

/** What became of one step on one file. */
async function work(bytes: Uint8Array, [what, act]: Step, schema: boolean): Promise<Outcome> {
  const said: string[] = [];
  try {
    const grid = await openOnGrid(bytes, (sentence) => said.push(sentence));
    if (!act(grid)) {
      const became = said.length > 0 ? 'refused with a sentence' : 'not possible on the grid';
      return { what, became, lines: said.slice(0, 1) };
    }
    const { bytes: saved } = grid.save();
    const again = await openOnGrid(saved);
    const differences = gridDifferences(grid.model, again.model);
    const became = differences.length === 0 ? 'the same' : 'OTHERWISE';
    if (!schema) return { what, became, lines: differences.slice(0, 3) };
    const bare = (error: string): string => error.replace(/\[\d+\]/g, '');
    const known = new Set(schemaErrors(bytes).map(bare));
    const fresh = schemaErrors(saved).filter((error) => !known.has(bare(error)));
    return {
      what,
      became: fresh.length === 0 ? became : `${became}, schema WORSE`,
      lines: [...differences.slice(0, 3), ...fresh.slice(0, 1)],
    };
  } catch (problem) {
    if (problem instanceof UnreadableFile) return { what, became: 'not opened', lines: [] };
    const became = problem instanceof RefusedChange ? 'refused when saving' : 'EXCEPTION';
    return { what, became, lines: [fault(problem)] };
  }
}

const flags = process.argv.slice(2);
const schema = flags.includes('--schema');
const numberOf = (flag: string, usual: number): number =>
  flags.includes(flag) ? Number(flags[flags.indexOf(flag) + 1]) : usual;
console.warn = () => undefined;
console.debug = () => undefined;
if (flags.includes('--apart')) {
  // A piece of work is a file and the number of a step.
  for (const path of flags.slice(flags.indexOf('--') + 1)) {
    const [, file = '', step] = /^(.*)#(\d+)$/.exec(path) ?? [];
    const bytes = new Uint8Array(readFileSync(file));
    const started = performance.now();
    const outcome = await work(bytes, steps[Number(step)] as Step, schema);
    const seconds = (performance.now() - started) / 1000;
    const slow = seconds > SLOW_SECONDS ? [`took ${seconds.toFixed(1)} s`] : [];
    report({ ...outcome, lines: [...slow, ...outcome.lines] });
  }
  process.exit(0);
}
const every = numberOf('--every', 1);
const from = numberOf('--from', 0);
const given = flags.find((flag) => !flag.startsWith('--') && !/^\d+$/.test(flag));
const folder = resolve(given ?? foreignFolder ?? '.');
const pieces = readdirSync(folder)
  .filter((name) => name.endsWith('.xlsx'))
  .sort()
  .filter((_, i) => i >= from && (i - from) % every === 0)
  .flatMap((name) => steps.map((_, n) => `${join(folder, name)}#${n}`));
const outcomes = await allOf<Outcome>(pieces, {
  flags: schema ? ['--schema'] : [],
  limit: LIMIT_MS * (schema ? 5 : 1),
  ended: (name, kind, said) => ({
    what: steps[Number(name.replace(/^.*#/, ''))]?.[0] ?? name,
    became: kind === 'hang' ? 'HANGS' : 'EXCEPTION',
    lines: [said],
  }),
});
const counts = new Map<string, number>();
outcomes.forEach(({ what, became, lines }, n) => {
  const kind = `${what}: ${became}`;
  counts.set(kind, (counts.get(kind) ?? 0) + 1);
  const name = pieces[n]?.replace(/^.*\/|#\d+$/g, '') ?? '';
  if (lines.length > 0) console.log(`${name}: ${kind}: ${lines.join('; ')}`);
});
console.log(
  [...counts]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([what, n]) => `${what.padEnd(50)} ${n}`)
    .join('\n'),
);
