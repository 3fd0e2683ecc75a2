import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { Model } from '@odoo/o-spreadsheet';
import { checkSheets } from '../../src/check/check';
import { registerFunctions } from '../../src/engine/engine-functions';
import { quietly } from '../../src/engine/quietly';
import { handOver } from '../../src/handover/hand-over';
import { guardFiles } from '../../src/hosts/workbench/file-guard';
import { wholeModel } from '../../src/hosts/workbench/laying-out';
import { checkOpened, readForGrid } from '../../src/hosts/workbench/open-xlsx';
import { savingIntoFile } from '../../src/hosts/workbench/save-into-file';
import { atOnce, inSteps, type Pause } from '../../src/plan/in-steps';
import { openBook } from '../../src/ooxml/open-book';
import { openSheets } from '../../src/ooxml/open-sheets';
import { largeWorkbook } from '../tools/large-workbook';

/**
 * npm run bench:workbooks -- [file.xlsx ...]
 * What large workbooks take: memory above that of the process before, and the longest time without a word of how
 * far a work is. Each file is worked on in processes of its own, once on the grid, once as the terminal does, and
 * once by the grid's library alone. Needs a system that says what a process used (Linux).
 */

const megabytes = (bytes: number): number => bytes / 1024 / 1024;

const { gc } = globalThis as { readonly gc?: () => void };

/** Memory that is still needed. */
function held(): number {
  gc?.();
  gc?.();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return megabytes(heapUsed + arrayBuffers);
}

/** The most that the process took since it was asked last, and what it takes now. */
function highest(): number {
  const status = readFileSync('/proc/self/status', 'utf8');
  const kilobytes = Number(/VmHWM:\s+(\d+)/.exec(status)?.[1]);
  writeFileSync('/proc/self/clear_refs', '5');
  return kilobytes / 1024;
}

const resident = (): number => megabytes(process.memoryUsage().rss);

interface Work {
  readonly seconds: number;
  /** Above what the process took before, in megabytes. */
  readonly peak: number;
  /** Milliseconds without a word. */
  readonly silence: number;
}

async function measured<Result>(work: (pause: Pause) => Promise<Result>): Promise<[Work, Result]> {
  held();
  highest();
  const before = resident();
  const start = performance.now();
  let last = start;
  let silence = 0;
  const beat = (): undefined => {
    silence = Math.max(silence, performance.now() - last);
    last = performance.now();
  };
  const result = await work(beat);
  beat();
  const seconds = (performance.now() - start) / 1000;
  return [{ seconds, peak: highest() - before, silence }, result];
}

type Figures = Record<string, number>;

const figures = (name: string, { seconds, peak, silence }: Work): Figures => ({
  [`${name} s`]: seconds,
  [`${name} peak`]: peak,
  [`${name} silence`]: silence,
});

async function onGrid(bytes: Uint8Array): Promise<Figures> {
  registerFunctions();
  guardFiles();
  const atFirst = held();
  const [reading, read] = await measured((pause) => inSteps(readForGrid(bytes), pause));
  const { stored } = read;
  const kept = {};
  const options = { storedValues: stored, keptFormulas: kept, file: { bytes } };
  const [laying, { model }] = await measured((pause) =>
    inSteps(wholeModel(read.data, options), pause),
  );
  Object.assign(read, { data: {} });
  const [checking, { opened }] = await measured((pause) =>
    checkOpened(model, { bytes, stored }, kept, pause),
  );
  const holds = held() - atFirst;
  const cell = { sheetId: 'file-1', row: 3, col: 12, content: 'typed' };
  quietly(() => model.dispatch('UPDATE_CELL', cell as never));
  const [saving] = await measured((pause) => inSteps(savingIntoFile(opened, model), pause));
  return {
    ...figures('read', reading),
    ...figures('lay', laying),
    ...figures('check', checking),
    ...figures('save', saving),
    holds,
  };
}

/** The grid's library by itself, with none of what is mended of it. */
async function byLibrary(bytes: Uint8Array): Promise<Figures> {
  const read = { data: atOnce(readForGrid(bytes)).data };
  const withData = held();
  const [laying, model] = await measured(async () => new Model(read.data));
  // The data are the caller's own and go with him.
  const before = held() - withData;
  model.getters.getSheetIds();
  return { 'library s': laying.seconds, 'library holds': before };
}

async function byTerminal(bytes: Uint8Array): Promise<Figures> {
  const [checking] = await measured(async () => checkSheets(openSheets(bytes)));
  const [reading] = await measured(async () => openBook(bytes));
  const [handing] = await measured(async () => handOver(bytes));
  return {
    ...figures('check', checking),
    ...figures('farm', reading),
    ...figures('hand-over', handing),
  };
}

const ways = { grid: onGrid, library: byLibrary, terminal: byTerminal } as const;

const bytesOf = (name: string): Uint8Array => {
  const [, kind, size] = /^(numbers|records) ([\d.]+) MB$/.exec(name) ?? [];
  return kind === undefined
    ? new Uint8Array(readFileSync(name))
    : largeWorkbook(kind as 'numbers' | 'records', Number(size));
};

const MARK = 'figures: ';

function apart(way: keyof typeof ways, name: string): Figures {
  const args = ['--expose-gc', process.argv[1] ?? '', '--apart', way, name];
  const { stdout } = spawnSync(process.execPath, args, {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'inherit'],
    maxBuffer: 1e8,
  });
  const line = stdout.split('\n').find((one) => one.startsWith(MARK));
  if (line === undefined) throw new Error(`${name} could not be measured (${way})`);
  return JSON.parse(line.slice(MARK.length)) as Figures;
}

function row(name: string): string {
  const [grid, library, terminal] = [
    apart('grid', name),
    apart('library', name),
    apart('terminal', name),
  ];
  const whole = (figure: number | undefined): string => Math.round(figure ?? NaN).toString();
  const of = (all: Figures, work: string): string =>
    `${(all[`${work} s`] ?? NaN).toFixed(1)} s, ${whole(all[`${work} peak`])} MB, ${whole(all[`${work} silence`])} ms`;
  const cells = [
    name.split('/').at(-1) ?? name,
    of(grid, 'read'),
    of(grid, 'lay'),
    of(grid, 'check'),
    of(grid, 'save'),
    `${whole(grid['holds'])} MB`,
    `${whole(library['library holds'])} MB`,
    ...['check', 'farm', 'hand-over'].map(
      (work) =>
        `${(terminal[`${work} s`] ?? NaN).toFixed(1)} s, ${whole(terminal[`${work} peak`])} MB`,
    ),
  ];
  return `| ${cells.join(' | ')} |`;
}

const [first, way, name = ''] = process.argv.slice(2);
console.debug = () => undefined;
console.warn = () => undefined;
if (first === '--apart') {
  const of = ways[way as keyof typeof ways];
  console.log(MARK + JSON.stringify(await of(bytesOf(name))));
  process.exit(0);
}
const given = process.argv
  .slice(2)
  .map((path) => resolve(path))
  .filter(existsSync);
const made = ['numbers', 'records'].flatMap((kind) =>
  [0.1, 1, 5].map((size) => `${kind} ${size} MB`),
);
console.log(
  '| file | read: time, memory, longest silence | laid out: time, memory, longest silence | formulas checked | saved | held with the grid | held by the library alone | check | farm | hand-over |',
);
console.log(`| ${Array.from({ length: 10 }, () => '---').join(' | ')} |`);
for (const one of given.length > 0 ? given : made) console.log(row(one));
