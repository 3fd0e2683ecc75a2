import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { RefusedChange } from '../../src/ooxml/cell-changes';
import { UnreadableFile } from '../../src/ooxml/unreadable-file';
import { foreignFolder } from '../tools/foreign-workbooks';
import { gridDifferences } from '../tools/grid-contents';
import { schemaErrors } from '../tools/schema';
import { openOnGrid, type OnGrid } from '../tools/workbench-file';

/**
 * npm run soak:frames -- [--schema] [--every n] [--from n] [folder]
 * Opens every workbook of a folder on the workbench's grid, changes its frame (lines that come in and go, a sheet
 * that gets another name, goes, comes in or moves), saves, opens what was saved and prints where the two differ.
 */

const flags = process.argv.slice(2);
const numberOf = (flag: string, usual: number): number =>
  flags.includes(flag) ? Number(flags[flags.indexOf(flag) + 1]) : usual;
const every = numberOf('--every', 1);
const from = numberOf('--from', 0);
const folder = flags.find((flag, i) => !flag.startsWith('--') && !/^\d+$/.test(flag) && i >= 0);

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

console.warn = () => undefined;
console.debug = () => undefined;
const where = resolve(folder ?? foreignFolder ?? '.');
const counts = new Map<string, number>();
const count = (what: string): void => void counts.set(what, (counts.get(what) ?? 0) + 1);
const files = readdirSync(where)
  .filter((name) => name.endsWith('.xlsx'))
  .filter((_, i) => i >= from && (i - from) % every === 0);
for (const name of files) {
  const bytes = new Uint8Array(readFileSync(`${where}/${name}`));
  for (const [what, act] of steps) {
    const said: string[] = [];
    try {
      const grid = await openOnGrid(bytes, (sentence) => said.push(sentence));
      if (!act(grid)) {
        count(
          `${what}: ${said.length > 0 ? 'refused with a sentence' : 'not possible on the grid'}`,
        );
        if (said.length > 0) console.log(`${name}: ${what}: ${said[0]}`);
        continue;
      }
      const { bytes: saved } = grid.save();
      const again = await openOnGrid(saved);
      const differences = gridDifferences(grid.model, again.model);
      count(`${what}: ${differences.length === 0 ? 'the same' : 'OTHERWISE'}`);
      if (differences.length > 0)
        console.log(`${name}: ${what}: ${differences.slice(0, 3).join('; ')}`);
      if (flags.includes('--schema')) {
        const known = new Set(schemaErrors(bytes).map((one) => one.replace(/\[\d+\]/g, '')));
        const fresh = schemaErrors(saved).filter((one) => !known.has(one.replace(/\[\d+\]/g, '')));
        count(`${what}: schema ${fresh.length === 0 ? 'no worse' : 'WORSE'}`);
        if (fresh.length > 0) console.log(`${name}: ${what}: schema: ${fresh[0]}`);
      }
    } catch (fault) {
      if (fault instanceof UnreadableFile) {
        count('not opened');
        break;
      }
      const kind = fault instanceof RefusedChange ? 'refused when saving' : 'EXCEPTION';
      count(`${what}: ${kind}`);
      console.log(
        `${name}: ${what}: ${kind}: ${String(fault)} ${(fault as Error).stack?.split('\n')[1] ?? ''}`,
      );
    }
  }
}
console.log(
  [...counts]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([what, n]) => `${what.padEnd(50)} ${n}`)
    .join('\n'),
);
