import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { Package } from '../../src/ooxml/package';
import { UnreadableFile } from '../../src/ooxml/unreadable-file';
import { readWorkbookParts } from '../../src/ooxml/workbook-parts';
import { cellAddress } from '../../src/plan/addresses';
import { changedParts } from '../tools/foreign-workbooks';
import { convert } from '../tools/libreoffice';
import { schemaErrors } from '../tools/schema';
import { openOnGrid } from '../tools/workbench-file';

/**
 * npm run soak:workbooks -- [--schema] [--libreoffice] [--every n] [folder]
 * Opens every workbook of a folder on the workbench's grid, changes one cell, saves, and prints what became of it.
 * Each file is worked on in a process of its own, which is ended after a minute.
 */

const LIMIT_MS = 60_000;
/** The schema check and LibreOffice take their own time. */
const OTHERS_MS = 300_000;

interface Outcome {
  readonly name: string;
  readonly kind: 'saved' | 'refused' | 'exception' | 'hang';
  readonly said?: string;
  readonly kiloBytes: number;
  readonly milliseconds?: number;
  readonly megaBytes?: number;
  /** Parts that a save without a change changes. */
  readonly unasked?: number;
  /** Parts that one typed cell changes. */
  readonly asked?: number;
  readonly schema?: 'same' | 'worse';
  readonly libreOffice?: 'same' | 'different' | 'cannot open';
}

/** What LibreOffice shows in all sheets, but for the typed cell. */
function shown(bytes: Uint8Array, typed: string): string {
  const files = convert(new Map([['book.xlsx', bytes]]), 'csv', 'usual');
  return [...files]
    .map(([name, csv]) => `${name}\n${new TextDecoder().decode(csv).replaceAll(typed, '')}`)
    .join('\n')
    .replace(/,+$/gm, '')
    .replace(/\n+$/g, '');
}

async function work(path: string, schema: boolean, libreOffice: boolean): Promise<Outcome> {
  const bytes = new Uint8Array(readFileSync(path));
  const name = path.split('/').at(-1) ?? path;
  const base = { name, kiloBytes: Math.round(bytes.length / 1024) };
  const started = performance.now();
  try {
    const grid = await openOnGrid(bytes);
    const unasked = changedParts(bytes, grid.save().bytes).length;
    const id = grid.model.getters.getSheetIds()[0] ?? '';
    const typed = 'x0042y';
    grid.type(0, cellAddress(3, grid.model.getters.getNumberCols(id) - 2), typed);
    const saved = grid.save().bytes;
    const milliseconds = Math.round(performance.now() - started);
    const megaBytes = Math.round(process.resourceUsage().maxRSS / 1024);
    const asked = changedParts(bytes, saved).length;
    readWorkbookParts(Package.open(saved));
    const outcome: Outcome = { ...base, kind: 'saved', milliseconds, megaBytes, unasked, asked };
    const known = schema ? new Set(schemaErrors(bytes)) : undefined;
    const worse = known && schemaErrors(saved).some((error) => !known.has(error));
    let seen: Outcome['libreOffice'];
    if (libreOffice) {
      try {
        const before = shown(bytes, typed);
        seen = before === shown(saved, typed) ? 'same' : 'different';
      } catch {
        seen = 'cannot open';
      }
    }
    return {
      ...outcome,
      ...(known && { schema: worse ? 'worse' : 'same' }),
      ...(seen && { libreOffice: seen }),
    };
  } catch (fault) {
    const said = fault instanceof Error ? fault.message : String(fault);
    return { ...base, kind: fault instanceof UnreadableFile ? 'refused' : 'exception', said };
  }
}

const MARK = 'outcome: ';

function apart(path: string, flags: readonly string[]): Outcome {
  const args = ['--import', 'tsx', process.argv[1] ?? '', '--one', path, ...flags];
  const { stdout, signal, status } = spawnSync(process.execPath, args, {
    encoding: 'utf8',
    timeout: LIMIT_MS + (flags.length > 0 ? OTHERS_MS : 0),
    killSignal: 'SIGKILL',
  });
  const line = stdout.split('\n').find((one) => one.startsWith(MARK));
  const name = path.split('/').at(-1) ?? path;
  if (line !== undefined) return JSON.parse(line.slice(MARK.length)) as Outcome;
  const kind = signal === 'SIGKILL' ? 'hang' : 'exception';
  return { name, kind, kiloBytes: 0, said: `ended with ${status ?? signal ?? 'nothing'}` };
}

function table(outcomes: readonly Outcome[]): string {
  const count = (is: (one: Outcome) => boolean): number => outcomes.filter(is).length;
  const saved = outcomes.filter(({ kind }) => kind === 'saved');
  const largest = (of: (one: Outcome) => number | undefined): string => {
    const [top] = [...saved].sort((a, b) => (of(b) ?? 0) - (of(a) ?? 0));
    return top ? `${of(top) ?? 0} (${top.name}, ${top.kiloBytes} kB)` : '-';
  };
  const times = saved.map(({ milliseconds = 0 }) => milliseconds).sort((a, b) => a - b);
  const lines: readonly (readonly [string, string | number])[] = [
    ['workbooks', outcomes.length],
    ['opened, changed and saved', saved.length],
    ['refused with a sentence', count(({ kind }) => kind === 'refused')],
    ['raw exceptions', count(({ kind }) => kind === 'exception')],
    ['not done within a minute', count(({ kind }) => kind === 'hang')],
    ['saved untouched: every part to the byte', count(({ unasked }) => unasked === 0)],
    ['one cell typed: one part changed', count(({ asked }) => asked === 1)],
    ['schema: no new fault', count(({ schema }) => schema === 'same')],
    ['schema: new faults', count(({ schema }) => schema === 'worse')],
    ['LibreOffice shows the same elsewhere', count(({ libreOffice }) => libreOffice === 'same')],
    ['LibreOffice shows something else', count(({ libreOffice }) => libreOffice === 'different')],
    ['LibreOffice cannot open it', count(({ libreOffice }) => libreOffice === 'cannot open')],
    ['median time, ms', times[Math.floor(times.length / 2)] ?? '-'],
    ['longest time, ms', largest(({ milliseconds }) => milliseconds)],
    ['most memory of the process, MB', largest(({ megaBytes }) => megaBytes)],
  ];
  const notable = outcomes.flatMap((one) => {
    const isFine =
      one.kind === 'saved' &&
      one.unasked === 0 &&
      one.asked === 1 &&
      one.schema !== 'worse' &&
      one.libreOffice !== 'different';
    return isFine ? [] : [`  ${one.name}: ${one.said ?? JSON.stringify(one)}`];
  });
  return [...lines.map(([what, figure]) => `${what.padEnd(42)} ${figure}`), ...notable].join('\n');
}

const flags = process.argv.slice(2);
const schema = flags.includes('--schema');
const libreOffice = flags.includes('--libreoffice');
const one = flags.indexOf('--one');
const every = flags.includes('--every') ? Number(flags[flags.indexOf('--every') + 1]) : 1;
console.warn = () => undefined;
console.debug = () => undefined;
if (one >= 0) {
  console.log(MARK + JSON.stringify(await work(flags[one + 1] ?? '', schema, libreOffice)));
  process.exit(0);
}
const given = flags.find((flag, i) => !flag.startsWith('--') && flags[i - 1] !== '--every');
const folder = [
  given ?? '../shared/foreign-workbooks/files',
  '../../shared/foreign-workbooks/files',
]
  .map((path) => resolve(path))
  .find(existsSync);
if (folder === undefined) {
  console.log('There is no folder of workbooks; name one: npm run soak:workbooks -- FOLDER');
} else {
  const files = readdirSync(folder).filter((name) => name.endsWith('.xlsx'));
  const pass = flags.filter((flag) => flag === '--schema' || flag === '--libreoffice');
  console.log(
    table(files.filter((_, i) => i % every === 0).map((name) => apart(join(folder, name), pass))),
  );
}
