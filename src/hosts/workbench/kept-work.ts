import type { WorkbookData } from '@odoo/o-spreadsheet';
import { putTogether } from '../../engine/sheet-contents';
import type { StoredValues } from '../../engine/patches/open-with-stored-values';
import { unpackedSheets, type PackedSheets } from './packed-sheets';
import type { OpenedWorkbook } from './save-into-file';
import type { Plans } from './workbook-from';

/** The sheets of a workbook with what their formulas gave. */
export interface StoredWork {
  /** The build of the page that computed it: another one may compute something else. */
  readonly program: string;
  readonly sheets: PackedSheets;
}

/** A file as it was read. */
export interface FreshFile {
  readonly bytes: Uint8Array;
  readonly stored: StoredValues;
  /** Kinds of things of the file that the grid does not show. */
  readonly unseen: readonly string[];
}

/** What is on the workbench. */
export interface Work {
  /** The whole of it, or the frame alone where its sheets are stored. */
  readonly data: Partial<WorkbookData>;
  /** Left out where a formula may give something else by now: then everything is computed. */
  readonly stored?: StoredWork;
  /** The file that it was opened from, into which it is saved. */
  readonly opened?: OpenedWorkbook;
  /** Kinds of things of that file that the grid does not show. */
  readonly unseen?: readonly string[];
  /** A file whose formulas have not been looked at yet. */
  readonly fresh?: FreshFile;
  /** The farm from which its plan was made, as JSON. */
  readonly farm?: string;
  /** The plans whose sheets are in it, by the prefix of their ids. */
  readonly plans?: Plans;
  /** The demo plan as it came, not yet touched: it may be replaced without asking. */
  readonly untouchedDemo?: boolean;
}

/** The workbook with all that its sheets hold. */
export const wholeData = ({ data, stored }: Work): Partial<WorkbookData> =>
  stored ? putTogether(data, unpackedSheets(stored.sheets)) : data;

const DATABASE = 'gillbed-workbench';
const STORE = 'work';
const CURRENT = 'current';

const done = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('The browser refused to store it'));
  });

async function store(mode: IDBTransactionMode): Promise<[IDBDatabase, IDBObjectStore]> {
  const opening = indexedDB.open(DATABASE, 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore(STORE);
  const database = await done(opening);
  return [database, database.transaction(STORE, mode).objectStore(STORE)];
}

async function inStore<T>(
  mode: IDBTransactionMode,
  work: (objects: IDBObjectStore) => IDBRequest<T>,
): Promise<T> {
  const [database, objects] = await store(mode);
  try {
    return await done(work(objects));
  } finally {
    database.close();
  }
}

/** The work of the last visit to this browser; undefined on the first. */
export async function readKept(): Promise<Work | undefined> {
  const kept = await inStore<Work | undefined>('readonly', (objects) => objects.get(CURRENT));
  // An earlier build kept the whole, and what its formulas gave beside it.
  if (kept?.stored && !('sheets' in kept.stored)) Reflect.deleteProperty(kept, 'stored');
  return kept;
}

/** Keeps the work in this browser until the next visit; it goes nowhere else. */
export async function keep(work: Work): Promise<void> {
  await inStore('readwrite', (objects) => objects.put(work, CURRENT));
}

export async function forget(): Promise<void> {
  await inStore('readwrite', (objects) => objects.clear());
}
