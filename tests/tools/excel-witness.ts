/** An Excel for tests: Microsoft's own client library over a workbook in memory. */
import { Executor, type Query } from './excel-executor';
import type { BridgeMessage, Library } from './excel-wire';
import { boxOf, type Value, WorkbookInMemory } from './excel-workbook';

/** Requirement sets and the highest version of each; a set that is not named is there in every version. */
export type Sets = Readonly<Record<string, string>>;

/** An Excel of today that promises more than the library knows. */
export const newestSets: Sets = { ExcelApi: '1.20', CustomFunctionsRuntime: '1.5' };

const holds = (least: string, most: string): boolean => {
  const [a = 0, b = 0] = least.split('.').map(Number);
  const [c = 0, d = 0] = most.split('.').map(Number);
  return a < c || (a === c && b <= d);
};

/** Selection events have this number, and all events this category (read in the library). */
const SELECTION_CHANGED = 2;
const CELLS_CHANGED = 10;
const EVENT_CATEGORY = 65536;
/** Of what happens to sheets, as the library numbers it. */
const HAPPENINGS = { Added: 13, Deleted: 15, Calculated: 16, RowSorted: 19, ColumnSorted: 20 };

/** Calls of functions: their category, kinds and what they may carry (read in the library). */
const FUNCTION_CATEGORY = 1;
const INVOCATION = 1000;
const CANCELLATION = 1001;
const ERRORS_AS_ARGUMENTS = 4;

export interface FunctionCall {
  readonly id: string;
  readonly args: readonly unknown[];
}
export interface FunctionResult {
  readonly id: number;
  readonly succeeded: boolean;
  readonly value: unknown;
}

export interface WitnessOptions {
  readonly sheets?: readonly string[];
  readonly sets?: Sets;
  /** As Office names it; Excel on the web opens new workbooks in another way. */
  readonly platform?: 'OfficeOnline' | 'PC' | 'Mac';
  /** A workbook that is open already. */
  readonly workbook?: WorkbookInMemory;
}

/** Slices of the workbook's file: Office's older calls do not go over the bridge, so that these are our own. */
export class FileInMemory {
  bytes = new Uint8Array();
  /** The step of reading that fails: opening is 0, slices count from 1. */
  failAtStep = -1;
  /** Files opened and not closed; Excel keeps only two. */
  open = 0;

  readonly getFileAsync = (
    _: string,
    { sliceSize }: { sliceSize: number },
    done: (result: unknown) => void,
  ): void =>
    done(
      this.answer(0, () => {
        this.open += 1;
        return {
          sliceCount: Math.ceil(this.bytes.length / sliceSize),
          getSliceAsync: (i: number, got: (result: unknown) => void) =>
            got(
              this.answer(i + 1, () => ({
                data: [...this.bytes.subarray(i * sliceSize, (i + 1) * sliceSize)],
              })),
            ),
          closeAsync: () => {
            this.open -= 1;
          },
        };
      }),
    );

  private answer(step: number, value: () => unknown): object {
    return step === this.failAtStep
      ? { status: 'failed', error: { code: 5001, message: `no file at step ${step}` } }
      : { status: 'succeeded', value: value() };
  }
}

export class Witness {
  readonly workbook: WorkbookInMemory;
  readonly host: Executor;
  readonly file = new FileInMemory();
  /** Milliseconds before each answer, as a host far away would take them. */
  answersAfterMs = 0;
  private invocations = 0;

  constructor(
    private readonly library: Library,
    {
      sheets,
      sets = newestSets,
      platform = 'OfficeOnline',
      workbook = new WorkbookInMemory(sheets),
    }: WitnessOptions = {},
  ) {
    this.workbook = workbook;
    this.host = new Executor(this.workbook, (enumeration) =>
      Object.values(
        (this.library.Excel as unknown as Record<string, Record<string, string>>)[enumeration] ??
          {},
      ),
    );
    this.library.onSend((text) => this.receive(text));
    // The library's own globals cannot be stubbed, but written over.
    Object.assign(globalThis, { Excel: this.watched(), Office: this.office(sets, platform) });
  }

  /** The library's Office, and of its older calls those few that do not go over the bridge. */
  private office(sets: Sets, platform: string): typeof Office {
    const isSetSupported = (set: string, version = '1.1'): boolean => {
      const most = sets[set];
      return most === undefined || holds(version, most);
    };
    const ours = {
      onReady: () => Promise.resolve({ host: 'Excel', platform }),
      context: { platform, document: this.file, requirements: { isSetSupported } },
    };
    return Object.create(
      this.library.Office,
      Object.getOwnPropertyDescriptors(ours),
    ) as typeof Office;
  }

  /** Selects a place as a person does: the library is told, and its listeners. */
  async select(sheet: string, address: string): Promise<void> {
    this.workbook.selection = { sheet, address };
    const entries = [
      {
        messageCategory: EVENT_CATEGORY,
        messageType: SELECTION_CHANGED,
        targetId: '',
        message: '{}',
      },
    ];
    this.library.send({ type: 3, message: { entries } });
    await settled();
  }

  /** Types into a cell as a person does: whoever asked for it is told. */
  async type(sheet: string, address: string, entry: Value): Promise<void> {
    const edited = this.workbook.sheet(sheet);
    this.workbook.write(edited, boxOf(address), [[entry]]);
    await this.edited(sheet, address);
  }

  /** Tells of an edit; lines that come in or go have a kind of their own. */
  async edited(sheet: string, address: string, changeType = 'RangeEdited'): Promise<void> {
    if (!this.workbook.tellsEdits) return;
    const { id } = this.workbook.sheet(sheet);
    const entries = [
      {
        messageCategory: EVENT_CATEGORY,
        messageType: CELLS_CHANGED,
        targetId: 'Workbook',
        message: JSON.stringify({ changeType, source: 'Local', worksheetId: id, address }),
      },
    ];
    this.library.send({ type: 3, message: { entries } });
    await settled();
  }

  /** Tells of something else that happened to a sheet; Excel computes after most edits. */
  async happened(what: keyof typeof HAPPENINGS, sheet: string): Promise<void> {
    if (!this.workbook.tellsOf.has(what)) return;
    const { id } = this.workbook.sheet(sheet);
    const entries = [
      {
        messageCategory: EVENT_CATEGORY,
        messageType: HAPPENINGS[what],
        targetId: 'Workbook',
        message: JSON.stringify({ source: 'Local', worksheetId: id, address: 'A1' }),
      },
    ];
    this.library.send({ type: 3, message: { entries } });
    await settled();
  }

  /** Calls functions as Excel does, all in one message; answers what comes back of each. */
  async callFunctions(calls: readonly FunctionCall[]): Promise<readonly FunctionResult[]> {
    const first = this.invocations + 1;
    this.invocations += calls.length;
    const entries = calls.map(({ id, args }, i) => ({
      messageCategory: FUNCTION_CATEGORY,
      messageType: INVOCATION,
      targetId: '',
      message: [first + i, id, args, `[Book1]Sheet1!A${i + 1}`, ERRORS_AS_ARGUMENTS],
    }));
    this.library.send({ type: 3, message: { entries } });
    const found = (): readonly FunctionResult[] =>
      this.host.results
        .map(([id, succeeded, value]) => ({ id, succeeded, value }))
        .filter(({ id }) => id >= first && id < first + calls.length)
        .sort((a, b) => a.id - b.id);
    // The library hands results over at its own pace, half a second apart.
    for (let i = 0; found().length < calls.length && i < 500; i++) await settled();
    return found();
  }

  /** Takes a call back before its answer is there. */
  cancel(id: number): void {
    const entry = {
      messageCategory: FUNCTION_CATEGORY,
      messageType: CANCELLATION,
      targetId: '',
      message: { invocationId: id },
    };
    this.library.send({ type: 3, message: { entries: [entry] } });
  }

  /** Sends what only Excel sends. */
  send(message: BridgeMessage): void {
    this.library.send(message);
  }

  /** Requests so far. */
  get requests(): number {
    return this.host.requests.length;
  }

  private receive(text: string): void {
    const { id, type, message } = JSON.parse(text) as BridgeMessage & {
      message: { url: string; body: Query };
    };
    if (type !== 1 || message.url !== 'ProcessQuery') {
      this.host.faults.push(`a message that Excel does not know: ${text.slice(0, 200)}`);
      return;
    }
    const bytes = new TextEncoder().encode(text).length;
    const answer = (): void =>
      this.library.send({
        id: id as number,
        type: 1,
        message: { statusCode: 200, headers: {}, body: this.host.execute(message.body, bytes) },
      });
    if (this.answersAfterMs > 0) setTimeout(answer, this.answersAfterMs);
    else queueMicrotask(answer);
  }

  /** The library, with a look at each error that leaves a run: misuse fails the test even if it is caught. */
  private watched(): typeof Excel {
    const { Excel: real } = this.library;
    const watched = Object.create(real) as typeof Excel;
    watched.run = (async (...args: Parameters<typeof Excel.run>) => {
      try {
        return await real.run(...args);
      } catch (thrown) {
        const { code, message } = thrown as { code?: string; message?: string };
        if (thrown instanceof TypeError || misuse.has(code ?? '')) {
          this.host.faults.push(`${code ?? 'TypeError'}: ${message ?? ''}`);
        }
        throw thrown;
      }
    }) as typeof Excel.run;
    return watched;
  }
}

/** What the library says of a caller who does not know how to use it. */
const misuse = new Set([
  'PropertyNotLoaded',
  'ValueNotLoaded',
  'InvalidObjectPath',
  'InvalidRequestContext',
  'InvalidArgument',
  'RunMustReturnPromise',
  'ApiNotFound',
]);

export const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 5));
