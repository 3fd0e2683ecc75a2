import { inSteps, type Pause, type Steps } from '../../plan/in-steps';
import type { PlanModel } from '../../plan/workbook-model';
import type { KeptGrid } from './earlier-work';
import type { Work, WorkToKeep } from './kept-work';
import type { SheetTexts } from './packed-sheets';
import { packingThen } from './packed-then';
import type { OpenedWorkbook } from './save-into-file';

/**
 * The work of the last visit in the browser's own store. A large entry takes the browser a while in which the page
 * stands still, so that it is kept as many small ones; what does not change while a file is open is kept once.
 */

const DATABASE = 'gillbed-workbench';
/** In the first all was one entry; a build of the page that knows no other must not take these for it. */
const VERSION = 2;
const STORE = 'work';
const CURRENT = 'current';

const done = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('The browser refused to store it'));
  });

async function inStore<T>(
  mode: IDBTransactionMode,
  work: (objects: IDBObjectStore) => Promise<T>,
): Promise<T> {
  const opening = indexedDB.open(DATABASE, VERSION);
  opening.onupgradeneeded = () => {
    const { result } = opening;
    if (!result.objectStoreNames.contains(STORE)) result.createObjectStore(STORE);
  };
  const database = await done(opening);
  try {
    const change = database.transaction(STORE, mode);
    const ended = new Promise<void>((resolve, reject) => {
      const fail = (): void => reject(change.error ?? new Error('The browser refused to store it'));
      change.oncomplete = () => resolve();
      change.onabort = fail;
      change.onerror = fail;
    });
    const result = work(change.objectStore(STORE));
    await Promise.all([result, ended]);
    return await result;
  } finally {
    database.close();
  }
}

/** Work whose sheets, file and plans are entries of their own. */
interface Head extends Omit<Work, 'stored' | 'opened' | 'plans'> {
  /** How many texts each sheet has. */
  readonly texts: Readonly<Record<string, number>>;
  /** Of the build of the page that computed what is in them; left out where they hold no values. */
  readonly program?: string;
  /** What the entries are called that hold the plans. */
  readonly plans: Readonly<Record<string, string>>;
  readonly opened?: Pick<OpenedWorkbook, 'kept' | 'atOpening'> & { readonly name: string };
}

/** A file as it was opened. */
interface FileEntry {
  readonly bytes: Uint8Array;
  /** How many texts say what the grid held then. */
  readonly texts: number;
}

type Entries = (readonly [key: string, value: unknown])[];

/** What is kept once has a name. */
const names = new WeakMap<object, string>();

function nameOf(one: object): string {
  let name = names.get(one);
  if (name === undefined) names.set(one, (name = `${Date.now()} ${Math.random()}`));
  return name;
}

/** What the grid held when its file was opened stays the same entry once it is unpacked. */
export function unpackedFrom(kept: KeptGrid, now: object): void {
  const name = names.get(kept);
  if (name !== undefined) names.set(now, name);
}

const sheetKey = (id: string, n: number): string => `sheet ${id} ${n}`;
const fileKey = (name: string): string => `file ${name}`;
const thenKey = (name: string, n: number): string => `file ${name} ${n}`;
const planKey = (name: string): string => `plan ${name}`;

/** What is written each time, and what once. */
interface Packed {
  readonly head: Head;
  readonly entries: Entries;
  readonly once: ReadonlyMap<string, () => Steps<Entries>>;
}

function* fileEntries(name: string, { bytes, before }: OpenedWorkbook): Steps<Entries> {
  const texts = yield* packingThen(before);
  const file: FileEntry = { bytes, texts: texts.length };
  return [[fileKey(name), file], ...texts.map((text, n) => [thenKey(name, n), text] as const)];
}

function packed(work: WorkToKeep): Packed {
  const { stored, opened, plans = {}, ...rest } = work;
  const entries: [string, unknown][] = [];
  const texts: Record<string, number> = {};
  for (const [id, { texts: all }] of Object.entries(stored.sheets)) {
    texts[id] = all.length;
    all.forEach((text, n) => entries.push([sheetKey(id, n), text]));
  }
  const once = new Map<string, () => Steps<Entries>>();
  const planNames = Object.entries(plans).map(([prefix, plan]) => {
    const name = nameOf(plan);
    once.set(planKey(name), function* () {
      yield 0;
      return [[planKey(name), plan]];
    });
    return [prefix, name] as const;
  });
  const fileName = opened && nameOf(opened.before);
  if (opened && fileName !== undefined) {
    once.set(fileKey(fileName), () => fileEntries(fileName, opened));
  }
  const head: Head = {
    ...rest,
    texts,
    plans: Object.fromEntries(planNames),
    ...(stored.program !== undefined && { program: stored.program }),
    ...(opened &&
      fileName !== undefined && {
        opened: { kept: opened.kept, atOpening: opened.atOpening, name: fileName },
      }),
  };
  return { head, entries, once };
}

/** Writes entries in one change of the store; false, with nothing changed, where it lacks some that are kept once. */
const written = ({ head, entries, once }: Packed, made: Entries, atOnce: boolean) =>
  inStore('readwrite', async (objects) => {
    const there = new Set((await done(objects.getAllKeys())).map(String));
    const making = new Set(made.map(([key]) => key));
    for (const key of once.keys()) if (!there.has(key) && !making.has(key)) return false;
    const all: Entries = [...made, ...entries, [CURRENT, head]];
    const wanted = new Set(all.map(([key]) => key));
    const isKept = (key: string): boolean =>
      wanted.has(key) || [...once.keys()].some((one) => key === one || key.startsWith(`${one} `));
    for (const key of there) if (!isKept(key)) objects.delete(key);
    for (const [key, value] of all) {
      const put = objects.put(value, key);
      if (!atOnce) await done(put);
    }
    return true;
  });

/**
 * Keeps the work in this browser until the next visit; it goes nowhere else. `pause` is asked between steps; with
 * none it is written at once, for a page that may be gone the next moment.
 */
export async function keep(work: WorkToKeep, pause?: Pause): Promise<void> {
  const stop: Pause = pause ?? (() => undefined);
  const all = packed(work);
  if (await written(all, [], !pause)) return;
  const made: Entries = [];
  for (const make of all.once.values()) made.push(...(await inSteps(make(), stop)));
  await written(all, made, !pause);
}

/** The work of the last visit to this browser; undefined on the first. */
export const readKept = (): Promise<Work | undefined> =>
  inStore('readonly', async (objects) => {
    const get = async <T>(key: string): Promise<T> => (await done(objects.get(key))) as T;
    const kept = await get<Work | Head | undefined>(CURRENT);
    if (!kept || !('texts' in kept)) return earlier(kept);
    const { texts, program, plans: planNames, opened: file, ...rest } = kept;
    const read = async (key: (n: number) => string, count: number): Promise<string[]> => {
      const all: string[] = [];
      for (let n = 0; n < count; n++) all.push(await get<string>(key(n)));
      return all;
    };
    const sheets: Record<string, SheetTexts> = {};
    for (const [id, count] of Object.entries(texts)) {
      sheets[id] = { texts: await read((n) => sheetKey(id, n), count) };
    }
    const plans: Record<string, PlanModel> = {};
    for (const [prefix, name] of Object.entries(planNames)) {
      const plan = await get<PlanModel>(planKey(name));
      names.set(plan, name);
      plans[prefix] = plan;
    }
    let opened: Work['opened'];
    if (file) {
      const { name, ...others } = file;
      const { bytes, texts: count } = await get<FileEntry>(fileKey(name));
      const before = { texts: await read((n) => thenKey(name, n), count) };
      names.set(before, name);
      opened = { ...others, bytes, before };
    }
    return {
      ...rest,
      plans,
      stored: { ...(program !== undefined && { program }), sheets },
      ...(opened && { opened }),
    };
  });

/** Earlier builds kept all in one entry, and at first what formulas gave beside it. */
function earlier(kept: Work | undefined): Work | undefined {
  if (kept?.stored && !('sheets' in kept.stored)) Reflect.deleteProperty(kept, 'stored');
  return kept;
}

export const forget = (): Promise<void> =>
  inStore('readwrite', async (objects) => void (await done(objects.clear())));
