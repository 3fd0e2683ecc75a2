import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { checkSheets } from '../../src/check/check';
import { handOver } from '../../src/handover/hand-over';
import { repair } from '../../src/handover/repair';
import { openSheets } from '../../src/ooxml/open-sheets';
import { Package } from '../../src/ooxml/package';
import { UnreadableFile } from '../../src/ooxml/unreadable-file';
import { readWorkbookParts } from '../../src/ooxml/workbook-parts';
import { cellAddress } from '../../src/plan/addresses';
import { changedElsewhere } from '../tools/changed-elsewhere';
import { changedParts } from '../tools/foreign-workbooks';
import { convert } from '../tools/libreoffice';
import { schemaErrors } from '../tools/schema';
import { openOnGrid } from '../tools/workbench-file';
import { allOf, report } from './one-by-one';

/**
 * npm run soak:workbooks -- [--schema] [--libreoffice] [--every n] [--from n] [folder]
 * Opens every workbook of a folder on the workbench's grid, changes one cell, saves, checks it, hands it over and
 * repairs it, and prints what became of it.
 * Files are worked on one after the other in another process, which is ended where one takes a minute or takes it
 * down; a new one goes on with the next file.
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
  /** Parts in which something else changes than the typed cell, and sentences about it. */
  readonly elsewhere?: number;
  readonly losses?: number;
  /** Parts that hand-over and repair change in a file without GILL functions; the time of these and of a check. */
  readonly others?: number;
  readonly othersMs?: number;
  readonly schema?: 'same' | 'worse';
  readonly libreOffice?: 'same' | 'different' | 'cannot open';
}

const TYPED = 'x0042y';

/** What LibreOffice shows in all sheets of one of the files, but for the typed cell. */
function shown(files: ReadonlyMap<string, Uint8Array>, name: string): string {
  return [...files]
    .filter(([file]) => file.startsWith(`${name}-`))
    .map(([file, csv]) => {
      const text = new TextDecoder().decode(csv).replaceAll(TYPED, '');
      // Blank columns and lines that the typed cell brings along.
      return `${file.slice(name.length)}\n${text.replace(/,+$/gm, '').replace(/\n+$/, '')}`;
    })
    .join('\n');
}

/** So many workbooks go to LibreOffice at a time. */
const AT_A_TIME = 20;

/** Whether LibreOffice shows the same in the files as they were and as they were saved, by name. */
function seenByLibreOffice(
  pairs: readonly (readonly [name: string, before: Uint8Array, after: Uint8Array])[],
): Map<string, NonNullable<Outcome['libreOffice']>> {
  const seen = new Map<string, NonNullable<Outcome['libreOffice']>>();
  const compare = (batch: typeof pairs): void => {
    const files = new Map(
      batch.flatMap(([name, before, after]) => [
        [`${name}-before.xlsx`, before] as const,
        [`${name}-after.xlsx`, after] as const,
      ]),
    );
    let out: ReadonlyMap<string, Uint8Array>;
    try {
      out = convert(files, 'csv', 'usual');
    } catch {
      // One file that LibreOffice stumbles over takes the others down with it.
      const [only] = batch;
      if (batch.length === 1 && only) seen.set(only[0], 'cannot open');
      else for (const one of batch) compare([one]);
      return;
    }
    for (const [name] of batch) {
      const [was, is] = [shown(out, `${name}-before`), shown(out, `${name}-after`)];
      seen.set(name, was === '' ? 'cannot open' : was === is ? 'same' : 'different');
    }
  };
  for (let at = 0; at < pairs.length; at += AT_A_TIME) compare(pairs.slice(at, at + AT_A_TIME));
  return seen;
}

async function work(path: string, schema: boolean, keep: string | undefined): Promise<Outcome> {
  const bytes = new Uint8Array(readFileSync(path));
  const name = path.split('/').at(-1) ?? path;
  const base = { name, kiloBytes: Math.round(bytes.length / 1024) };
  countMemoryAnew();
  const started = performance.now();
  try {
    const grid = await openOnGrid(bytes);
    const unasked = changedParts(bytes, grid.save().bytes).length;
    const id = grid.model.getters.getSheetIds()[0] ?? '';
    const { getters } = grid.model;
    const col = getters.getNumberCols(id) - 2;
    // A cell under a merge takes nothing.
    let row = 3;
    while (getters.isInMerge({ sheetId: id, row, col })) row += 1;
    grid.type(0, cellAddress(row, col), TYPED);
    const { bytes: saved, losses } = grid.save();
    const milliseconds = Math.round(performance.now() - started);
    const megaBytes = highestMemory();
    const asked = changedParts(bytes, saved).length;
    const part = readWorkbookParts(Package.open(bytes)).sheets[0]?.part ?? '';
    const elsewhere = changedElsewhere(bytes, saved, part, cellAddress(row, col)).length;
    const said = losses.length;
    readWorkbookParts(Package.open(saved));
    const readFrom = performance.now();
    checkSheets(openSheets(bytes));
    // None of these files calls GILL functions: nothing of them changes.
    const copies = [handOver(bytes).bytes, repair(bytes).bytes];
    const others = copies.flatMap((copy) => changedParts(bytes, copy)).length;
    const othersMs = Math.round(performance.now() - readFrom);
    const outcome: Outcome = {
      ...base,
      kind: 'saved',
      milliseconds,
      megaBytes,
      unasked,
      asked,
      elsewhere,
      losses: said,
      others,
      othersMs,
    };
    const known = schema ? new Set(schemaErrors(bytes)) : undefined;
    const worse = known && schemaErrors(saved).some((error) => !known.has(error));
    if (keep !== undefined) writeFileSync(join(keep, name), saved);
    return { ...outcome, ...(known && { schema: worse ? 'worse' : 'same' }) };
  } catch (fault) {
    const said = fault instanceof Error ? fault.message : String(fault);
    return { ...base, kind: fault instanceof UnreadableFile ? 'refused' : 'exception', said };
  }
}

/** Has the highest memory of this process counted anew, where the system can. */
function countMemoryAnew(): void {
  try {
    writeFileSync('/proc/self/clear_refs', '5');
  } catch {
    // Elsewhere the figure is that of all files so far.
  }
}

function highestMemory(): number {
  try {
    const status = readFileSync('/proc/self/status', 'utf8');
    return Math.round(Number(/VmHWM:\s+(\d+)/.exec(status)?.[1]) / 1024);
  } catch {
    return Math.round(process.resourceUsage().maxRSS / 1024);
  }
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
    ['nothing changed but that cell', count(({ elsewhere }) => elsewhere === 0)],
    ['values taken out, and said', count(({ elsewhere, losses }) => !!elsewhere && !!losses)],
    ['changed without a word', count(({ elsewhere, losses }) => !!elsewhere && !losses)],
    ['hand-over and repair change no part', count(({ others }) => others === 0)],
    ['schema: no new fault', count(({ schema }) => schema === 'same')],
    ['schema: new faults', count(({ schema }) => schema === 'worse')],
    ['LibreOffice shows the same elsewhere', count(({ libreOffice }) => libreOffice === 'same')],
    ['LibreOffice shows something else', count(({ libreOffice }) => libreOffice === 'different')],
    ['LibreOffice cannot open it', count(({ libreOffice }) => libreOffice === 'cannot open')],
    ['median time, ms', times[Math.floor(times.length / 2)] ?? '-'],
    ['longest time, ms', largest(({ milliseconds }) => milliseconds)],
    ['check, hand-over and repair, longest, ms', largest(({ othersMs }) => othersMs)],
    ['most memory of the process, MB', largest(({ megaBytes }) => megaBytes)],
  ];
  const notable = outcomes.flatMap((one) => {
    const isFine =
      one.kind === 'saved' &&
      one.unasked === 0 &&
      one.others === 0 &&
      (one.elsewhere === 0 || !!one.losses) &&
      one.schema !== 'worse' &&
      one.libreOffice !== 'different';
    return isFine ? [] : [`  ${one.name}: ${one.said ?? JSON.stringify(one)}`];
  });
  return [...lines.map(([what, figure]) => `${what.padEnd(42)} ${figure}`), ...notable].join('\n');
}

const flags = process.argv.slice(2);
const schema = flags.includes('--schema');
const libreOffice = flags.includes('--libreoffice');
const numberOf = (flag: string, usual: number): number =>
  flags.includes(flag) ? Number(flags[flags.indexOf(flag) + 1]) : usual;
const every = numberOf('--every', 1);
const from = numberOf('--from', 0);
console.warn = () => undefined;
console.debug = () => undefined;
const keepAt = flags.indexOf('--keep');
if (flags.includes('--apart')) {
  const keep = keepAt >= 0 ? flags[keepAt + 1] : undefined;
  for (const path of flags.slice(flags.indexOf('--') + 1)) {
    report(await work(path, schema, keep));
  }
  process.exit(0);
}
const given = flags.find(
  (flag, i) => !flag.startsWith('--') && !/^--(?:every|from)$/.test(flags[i - 1] ?? ''),
);
const folder = [
  given ?? '../shared/foreign-workbooks/files',
  '../../shared/foreign-workbooks/files',
]
  .map((path) => resolve(path))
  .find(existsSync);
if (folder === undefined) {
  console.log('There is no folder of workbooks; name one: npm run soak:workbooks -- FOLDER');
} else {
  const files = readdirSync(folder)
    .filter((name) => name.endsWith('.xlsx'))
    .filter((_, i) => i >= from && (i - from) % every === 0);
  const keep = mkdtempSync(join(tmpdir(), 'gillbed-saved-'));
  const pass = [...(schema ? ['--schema'] : []), ...(libreOffice ? ['--keep', keep] : [])];
  const outcomes = await allOf<Outcome>(
    files.map((name) => join(folder, name)),
    {
      flags: pass,
      limit: LIMIT_MS + (pass.length > 0 ? OTHERS_MS : 0),
      ended: (name, kind, said) => ({ name, kind, kiloBytes: 0, said }),
    },
  );
  const bytes = (path: string): Uint8Array => new Uint8Array(readFileSync(path));
  const pairs = outcomes.flatMap(({ name, kind }) =>
    libreOffice && kind === 'saved'
      ? [[name, bytes(join(folder, name)), bytes(join(keep, name))] as const]
      : [],
  );
  const seen = seenByLibreOffice(pairs);
  rmSync(keep, { recursive: true, force: true });
  const withSeen = outcomes.map((outcome): Outcome => {
    const libreOffice = seen.get(outcome.name);
    return { ...outcome, ...(libreOffice && { libreOffice }) };
  });
  console.log(table(withSeen));
}
