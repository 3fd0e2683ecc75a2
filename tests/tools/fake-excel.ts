/**
 * An open workbook that behaves as Excel's API is documented to: calls only queue until sync, a property
 * can be read only after it was loaded and synced, a batch that fails keeps what ran before the failure.
 * What no test reads (colours, borders, page set-up) is kept in a journal only.
 * One file without imports, so that a browser test can put it into a page as well.
 */
export type Value = string | number | boolean;

interface FakeCell {
  formula: Value;
  value: Value;
}

export interface FakeSheet {
  name: string;
  readonly cells: Map<string, FakeCell>;
  readonly tables: { name: string; address: string }[];
  readonly charts: { type: string; title: string; series: string[] }[];
  readonly lists: string[];
  /** Addresses of columns out of sight. */
  readonly hidden: string[];
  readonly notes: Map<string, string>;
}

export class FakeOfficeError extends Error {
  constructor(
    readonly code: string,
    message = code,
  ) {
    super(message);
  }
}

interface Box {
  row: number;
  column: number;
  rows: number;
  columns: number;
}

const letters = (column: number): string =>
  column < 26
    ? String.fromCharCode(65 + column)
    : letters(Math.floor(column / 26) - 1) + letters(column % 26);
const addressOf = ({ row, column, rows, columns }: Box): string => {
  const first = `${letters(column)}${row + 1}`;
  return rows * columns === 1 ? first : `${first}:${letters(column + columns - 1)}${row + rows}`;
};
const columnOf = (text: string): number =>
  [...text].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;

const MAX_ROWS = 1048576;

function boxOf(address: string): Box {
  const plain = address.replaceAll('$', '').toUpperCase();
  const [from = '', to = from] = plain.split(':');
  const corner = (text: string, lastRow: boolean): { row: number; column: number } => {
    const match = /^([A-Z]{1,3})(\d*)$/.exec(text);
    if (!match) throw new FakeOfficeError('InvalidArgument', `no address: ${address}`);
    const row = match[2] ? Number(match[2]) - 1 : lastRow ? MAX_ROWS - 1 : 0;
    return { row, column: columnOf(match[1] as string) };
  };
  const a = corner(from, false);
  const b = corner(to, true);
  return { ...a, rows: b.row - a.row + 1, columns: b.column - a.column + 1 };
}

/** As typed into a cell: an apostrophe keeps text as it is; what looks like a number or date becomes one. */
function typed(entry: Value): Value {
  if (typeof entry !== 'string') return entry;
  if (entry.startsWith("'")) return entry.slice(1);
  if (/^\s*-?[\d.,]+\s*%?$/.test(entry)) return Number(entry.replace(/[^\d.-]/g, ''));
  if (/^\d{1,4}[-/.]\d{1,2}([-/.]\d{1,4})?$/.test(entry)) return 45000;
  if (/^(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)\w* \d+$/i.test(entry)) return 45000;
  if (/^(true|false)$/i.test(entry)) return /^t/i.test(entry);
  return entry;
}

const quotesOff = (text: string): string => text.replace(/"(?:[^"]|"")*"/g, '""');

export class FakeExcel {
  sheets: FakeSheet[] = [];
  names = new Map<string, string>();
  farmParts: { id: string; xml: string }[] = [];
  active = '';
  selection = { sheet: '', address: 'A1' };
  structureProtected = false;
  /** Round trips so far. */
  syncs = 0;
  /** Queued calls that ran. */
  operations = 0;
  /** The call that fails, counted from 1; 0 for none. */
  failAtOperation = 0;
  /** Called before each round trip. */
  beforeSync: (() => void) | undefined;
  /** Round trips after which Excel knows the GILL functions. */
  functionsKnownAfter = 0;
  /** Values of formula cells; 0 where it has none. */
  compute: (formula: string) => Value = () => 0;
  unsupported: string[] = [];
  readonly journal: string[] = [];
  readonly newWorkbooks: string[] = [];
  private readonly listeners = new Set<() => unknown>();
  private partId = 0;

  constructor(sheetNames: readonly string[] = ['Sheet1']) {
    for (const name of sheetNames) this.addSheet(name);
    this.active = sheetNames[0] ?? '';
    this.selection.sheet = this.active;
  }

  addSheet(name: string): FakeSheet {
    if (!/^[^\\/?*[\]:]{1,31}$/.test(name)) throw new FakeOfficeError('InvalidArgument', name);
    if (this.sheets.some((sheet) => sheet.name.toLowerCase() === name.toLowerCase())) {
      throw new FakeOfficeError('ItemAlreadyExists', name);
    }
    const sheet: FakeSheet = {
      name,
      cells: new Map(),
      tables: [],
      charts: [],
      lists: [],
      hidden: [],
      notes: new Map(),
    };
    this.sheets.push(sheet);
    return sheet;
  }

  sheet(name: string): FakeSheet {
    const found = this.sheets.find((sheet) => sheet.name.toLowerCase() === name.toLowerCase());
    if (!found) throw new FakeOfficeError('ItemNotFound', name);
    return found;
  }

  checkNewName(name: string): void {
    const taken = [
      ...this.names.keys(),
      ...this.sheets.flatMap((s) => s.tables.map((t) => t.name)),
    ];
    if (!/^[\p{L}_][\p{L}\d_.]*$/u.test(name) || /^[A-Z]{1,3}\d+$/i.test(name)) {
      throw new FakeOfficeError('InvalidArgument', name);
    }
    if (taken.some((text) => text.toLowerCase() === name.toLowerCase())) {
      throw new FakeOfficeError('ItemAlreadyExists', name);
    }
  }

  /** Writes a block as typed; formulas may only speak of sheets that are there. */
  write(sheet: FakeSheet, box: Box, entries: readonly (readonly (Value | null)[])[]): void {
    if (this.protectedSheets.has(sheet.name)) throw new FakeOfficeError('AccessDenied');
    if (entries.length !== box.rows || entries.some((row) => row.length !== box.columns)) {
      throw new FakeOfficeError('InvalidArgument', 'the block does not fit its range');
    }
    entries.forEach((row, r) =>
      row.forEach((entry, c) => {
        const key = addressOf({ row: box.row + r, column: box.column + c, rows: 1, columns: 1 });
        if (entry === null) return;
        if (entry === '') sheet.cells.delete(key);
        else if (typeof entry === 'string' && entry.startsWith('=')) {
          this.checkFormula(entry);
          const unknown = entry.includes('GILL.') && this.syncs <= this.functionsKnownAfter;
          sheet.cells.set(key, { formula: entry, value: unknown ? '#NAME?' : this.compute(entry) });
        } else sheet.cells.set(key, { formula: typed(entry), value: typed(entry) });
      }),
    );
  }

  private checkFormula(formula: string): void {
    if (formula.length > 8192) throw new FakeOfficeError('InvalidArgument', 'formula too long');
    for (const match of quotesOff(formula).matchAll(
      /(?:'((?:[^']|'')+)'|([\p{L}_][\p{L}\d_.]*))!/gu,
    )) {
      this.sheet((match[1] ?? match[2] ?? '').replaceAll("''", "'"));
    }
  }

  cell(sheet: string, address: string): FakeCell | undefined {
    return this.sheet(sheet).cells.get(address);
  }

  used(sheet: FakeSheet, within?: Box): Box | undefined {
    const places = [...sheet.cells.keys()]
      .map(boxOf)
      .filter(
        (p) =>
          !within ||
          (p.row >= within.row &&
            p.row < within.row + within.rows &&
            p.column >= within.column &&
            p.column < within.column + within.columns),
      );
    if (places.length === 0) return undefined;
    const rows = places.map((p) => p.row);
    const columns = places.map((p) => p.column);
    const row = Math.min(...rows);
    const column = Math.min(...columns);
    return {
      row,
      column,
      rows: Math.max(...rows) - row + 1,
      columns: Math.max(...columns) - column + 1,
    };
  }

  read(sheet: FakeSheet, box: Box, what: keyof FakeCell): Value[][] {
    return Array.from({ length: box.rows }, (_, r) =>
      Array.from({ length: box.columns }, (_, c) => {
        const key = addressOf({ row: box.row + r, column: box.column + c, rows: 1, columns: 1 });
        return sheet.cells.get(key)?.[what] ?? '';
      }),
    );
  }

  select(sheet: string, address: string): void {
    this.selection = { sheet, address };
    for (const listener of this.listeners) void listener();
  }

  newPartId(): string {
    this.partId += 1;
    return `part-${this.partId}`;
  }

  listen(listener: () => unknown): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** What stands for the global `Excel`. */
  readonly Excel = {
    RequestContext: ((workbook: FakeExcel) =>
      class extends FakeContext {
        constructor() {
          super(workbook);
        }
      })(this),
    run: async <T>(first: object, second?: (context: FakeContext) => Promise<T>): Promise<T> => {
      const work = second ?? (first as (context: FakeContext) => Promise<T>);
      const context = new FakeContext(this);
      const result = await work(context);
      await context.sync();
      return result;
    },
    createWorkbook: async (base64: string): Promise<void> => {
      if (this.unsupported.includes('createWorkbook'))
        throw new FakeOfficeError('GeneralException');
      this.newWorkbooks.push(base64);
    },
  };

  /** What the open workbook's file holds. */
  file = new Uint8Array();
  /** The step of reading the file that fails: its opening is 0, its slices count from 1. */
  failAtFileStep = -1;
  /** Files that were opened and not closed; Excel keeps only two. */
  openFiles = 0;
  /** Sheets that let nobody change their cells. */
  readonly protectedSheets = new Set<string>();

  private readonly document = {
    getFileAsync: (
      _: string,
      { sliceSize }: { sliceSize: number },
      done: (result: unknown) => void,
    ) => {
      const answer = (step: number, value: () => unknown) =>
        step === this.failAtFileStep
          ? { status: 'failed', error: { code: 5001, message: `no file at step ${step}` } }
          : { status: 'succeeded', value: value() };
      done(
        answer(0, () => {
          this.openFiles += 1;
          return {
            sliceCount: Math.ceil(this.file.length / sliceSize),
            getSliceAsync: (i: number, got: (result: unknown) => void) =>
              got(
                answer(i + 1, () => ({
                  data: [...this.file.subarray(i * sliceSize, (i + 1) * sliceSize)],
                })),
              ),
            closeAsync: () => {
              this.openFiles -= 1;
            },
          };
        }),
      );
    },
  };

  /** What stands for the global `Office`. */
  readonly Office = {
    onReady: async () => ({ host: 'Excel', platform: 'OfficeOnline' }),
    FileType: { Compressed: 'compressed' },
    AsyncResultStatus: { Succeeded: 'succeeded' },
    context: {
      document: this.document,
      officeTheme: undefined as { isDarkTheme: boolean } | undefined,
      requirements: {
        isSetSupported: (set: string, version: string) =>
          !this.unsupported.includes(`${set} ${version}`),
      },
    },
  };
}

type Load = () => Readonly<Record<string, unknown>>;

/** A proxy object of the API: reads need load and sync, unknown members go to the journal. */
function clientObject(
  context: FakeContext,
  path: string,
  members: Readonly<Record<string, unknown>>,
  setters: Readonly<Record<string, (value: never) => void>> = {},
  load?: Load,
): unknown {
  const loaded = new Map<string, unknown>();
  const bags = new Map<string, unknown>();
  const readable = load ? ['isNullObject', ...(loadable.get(path) ?? [])] : [];
  const proxy: unknown = new Proxy(() => undefined, {
    // Every member is there, as in the newest library.
    has: () => true,
    get(_, key) {
      if (typeof key === 'symbol' || key === 'then' || key === 'toJSON') return undefined;
      if (key === 'context') return context;
      if (key === 'untrack') return () => proxy;
      if (key === 'load') {
        return (wanted: string | string[]) => {
          const list = Array.isArray(wanted) ? wanted : wanted.split(',');
          context.queue(`load ${path}`, () => {
            const found = load?.() ?? {};
            for (const text of [
              ...list.map((name) => name.trim().split('/')[0] as string),
              'isNullObject',
            ]) {
              if (text in found) loaded.set(text, found[text]);
            }
          });
          return proxy;
        };
      }
      if (loaded.has(key)) return loaded.get(key);
      if (readable.includes(key)) throw new FakeOfficeError('PropertyNotLoaded', `${path}.${key}`);
      if (key in members) return members[key];
      if (!bags.has(key)) bags.set(key, clientObject(context, `${path}.${key}`, {}));
      return bags.get(key);
    },
    set(_, key, value: unknown) {
      const name = String(key);
      const setter = setters[name] as ((value: unknown) => void) | undefined;
      context.queue(`${path}.${name} = ${JSON.stringify(value)}`, () => setter?.(value));
      return true;
    },
    apply(_, __, args) {
      context.queue(`${path}(${args.length})`, () => undefined);
      return clientObject(context, `${path}()`, {});
    },
  });
  return proxy;
}

/** Properties that must be loaded before they can be read, by the kind of object. */
const loadable = new Map([
  ['worksheets', ['items']],
  ['worksheet', ['name']],
  ['names', ['items']],
  ['tables', ['items']],
  ['parts', ['items']],
  ['protection', ['protected']],
  ['range', ['values', 'formulas', 'address', 'cellCount', 'rowCount', 'columnCount']],
]);

export class FakeContext {
  private pending: { what: string; run: () => void }[] = [];
  readonly workbook: unknown;

  constructor(private readonly excel: FakeExcel) {
    const { names } = excel;
    const worksheets = clientObject(
      this,
      'worksheets',
      {
        add: (name: string) => {
          this.queue(`add sheet ${name}`, () => excel.addSheet(name));
          return this.worksheet(name);
        },
        getItem: (name: string) => this.worksheet(name),
        getItemOrNullObject: (name: string) => this.worksheet(name, false, true),
        getActiveWorksheet: () => this.worksheet(excel.active),
      },
      {},
      () => ({ items: excel.sheets.map(({ name }) => this.worksheet(name, true)) }),
    );
    this.workbook = clientObject(this, 'workbook', {
      worksheets,
      names: clientObject(
        this,
        'names',
        {
          add: (name: string, range: { fakeAddress: string }) =>
            this.queue(`add name ${name}`, () => {
              excel.checkNewName(name);
              names.set(name, range.fakeAddress);
            }),
        },
        {},
        () => ({
          items: [...names.keys()].map((name) =>
            clientObject(this, 'item', {
              name,
              delete: () => this.queue('delete name', () => names.delete(name)),
            }),
          ),
        }),
      ),
      tables: clientObject(this, 'tables', {}, {}, () => ({
        items: excel.sheets.flatMap((sheet) => sheet.tables.map(({ name }) => ({ name }))),
      })),
      protection: clientObject(this, 'protection', {}, {}, () => ({
        protected: excel.structureProtected,
      })),
      customXmlParts: this.xmlParts(),
      getSelectedRange: () =>
        this.range(
          () => excel.sheet(excel.selection.sheet),
          () => boxOf(excel.selection.address),
        ),
      onSelectionChanged: {
        add: (listener: () => unknown) => {
          let stop: (() => void) | undefined;
          this.queue('listen', () => {
            stop = excel.listen(listener);
          });
          return { context: this, remove: () => stop?.() };
        },
      },
    });
  }

  queue(what: string, run: () => void): void {
    this.pending.push({ what, run });
  }

  async sync(): Promise<void> {
    const batch = this.pending;
    this.pending = [];
    if (batch.length === 0) return;
    await Promise.resolve();
    this.excel.beforeSync?.();
    this.excel.syncs += 1;
    for (const { what, run } of batch) {
      this.excel.operations += 1;
      if (this.excel.operations === this.excel.failAtOperation) {
        throw new FakeOfficeError('GeneralException', `at ${what}`);
      }
      this.excel.journal.push(what);
      run();
    }
  }

  private xmlParts(): unknown {
    const { excel } = this;
    const part = (id: string): unknown =>
      clientObject(this, 'part', {
        id,
        getXml: () => {
          const result = { value: '' };
          this.queue('xml', () => {
            result.value = excel.farmParts.find((part) => part.id === id)?.xml ?? '';
          });
          return result;
        },
        delete: () =>
          this.queue('delete part', () => {
            excel.farmParts = excel.farmParts.filter((part) => part.id !== id);
          }),
      });
    return clientObject(this, 'customXmlParts', {
      add: (xml: string) =>
        this.queue('add part', () => excel.farmParts.push({ id: excel.newPartId(), xml })),
      getItem: part,
      getByNamespace: (namespace: string) =>
        clientObject(this, 'parts', {}, {}, () => ({
          items: excel.farmParts
            .filter((part) => part.xml.includes(`"${namespace}"`))
            .map((one) => part(one.id)),
        })),
    });
  }

  private worksheet(name: string, loadedName = false, orNull = false): unknown {
    const { excel } = this;
    const sheet = (): FakeSheet => excel.sheet(name);
    const at = (box: () => Box): unknown => this.range(sheet, box);
    const ranges = (address: string): unknown => {
      this.queue(`ranges of ${name}`, () => {
        if (address.length > 8192) throw new FakeOfficeError('InvalidArgument', 'too many areas');
        sheet();
        address.split(',').forEach(boxOf);
      });
      return clientObject(this, `areas(${address})`, {});
    };
    return clientObject(
      this,
      'worksheet',
      {
        ...(loadedName && { name }),
        getRange: (address: string) => at(() => boxOf(address)),
        getCell: (row: number, column: number) => at(() => ({ row, column, rows: 1, columns: 1 })),
        getRangeByIndexes: (row: number, column: number, rows: number, columns: number) =>
          at(() => {
            if (rows < 1 || columns < 1)
              throw new FakeOfficeError('InvalidArgument', 'empty range');
            return { row, column, rows, columns };
          }),
        getRanges: ranges,
        getUsedRangeOrNullObject: () => this.usedRange(sheet),
        activate: () =>
          this.queue(`activate ${name}`, () => {
            excel.active = sheet().name;
          }),
        delete: () =>
          this.queue(`delete sheet ${name}`, () => {
            const found = sheet();
            if (excel.sheets.length === 1) throw new FakeOfficeError('InvalidOperation');
            excel.sheets = excel.sheets.filter((sheet) => sheet !== found);
          }),
        tables: { add: (range: { fakeAddress: string }) => this.table(sheet, range) },
        charts: { add: (type: string) => this.chart(sheet, type) },
        notes: {
          add: (address: string, text: string) =>
            this.queue('note', () => sheet().notes.set(address, text)),
        },
      },
      {},
      loadedName
        ? undefined
        : () => {
            const there =
              !orNull ||
              excel.sheets.some((sheet) => sheet.name.toLowerCase() === name.toLowerCase());
            return { isNullObject: !there, ...(there && { name: sheet().name }) };
          },
    );
  }

  private table(sheet: () => FakeSheet, range: { fakeAddress: string }): unknown {
    const table = { name: '', address: '' };
    this.queue('add table', () => {
      const address = range.fakeAddress.slice(range.fakeAddress.lastIndexOf('!') + 1);
      const box = boxOf(address);
      const heads = this.excel.read(sheet(), { ...box, rows: 1 }, 'value')[0] ?? [];
      if (
        heads.some((head) => typeof head !== 'string' || head === '') ||
        new Set(heads).size < heads.length
      ) {
        throw new FakeOfficeError('InvalidArgument', 'a table needs different words as heads');
      }
      Object.assign(table, { name: `Table${sheet().tables.length + 1}`, address });
      sheet().tables.push(table);
    });
    return clientObject(
      this,
      'table',
      {},
      {
        name: (name: string) => {
          this.excel.checkNewName(name);
          table.name = name;
        },
      },
    );
  }

  private chart(sheet: () => FakeSheet, type: string): unknown {
    const chart = { type, title: '', series: [''] };
    this.queue('add chart', () => sheet().charts.push(chart));
    const series = (index: number): unknown =>
      clientObject(
        this,
        'series',
        {},
        {
          name: (name: string) => {
            chart.series[index] = name;
          },
        },
      );
    let count = 1;
    return clientObject(this, 'chart', {
      title: clientObject(
        this,
        'title',
        {},
        {
          text: (text: string) => {
            chart.title = text;
          },
        },
      ),
      series: {
        getItemAt: series,
        add: () => {
          count += 1;
          return series(count - 1);
        },
      },
    });
  }

  private usedRange(sheet: () => FakeSheet, within?: () => Box): unknown {
    const box = (): Box | undefined => this.excel.used(sheet(), within?.());
    return this.range(
      sheet,
      () => box() ?? { row: 0, column: 0, rows: 1, columns: 1 },
      () => !box(),
    );
  }

  private range(sheet: () => FakeSheet, box: () => Box, isNull = (): boolean => false): unknown {
    const { excel } = this;
    const full = (): string => {
      const name = sheet().name;
      return `${/^\w+$/.test(name) ? name : `'${name}'`}!${addressOf(box())}`;
    };
    return clientObject(
      this,
      'range',
      {
        get fakeAddress() {
          return full();
        },
        worksheet: clientObject(this, 'worksheet', {}, {}, () => ({ name: sheet().name })),
        getUsedRangeOrNullObject: () => this.usedRange(sheet, box),
        getRow: (row: number) =>
          this.range(sheet, () => ({ ...box(), row: box().row + row, rows: 1 })),
        getEntireColumn: () =>
          clientObject(
            this,
            'columns',
            {},
            {
              columnHidden: (hidden: boolean) => {
                if (hidden) sheet().hidden.push(addressOf(box()));
              },
            },
          ),
        getResizedRange: (rows: number, columns: number) =>
          this.range(sheet, () => {
            const from = box();
            return { ...from, rows: from.rows + rows, columns: from.columns + columns };
          }),
        select: () =>
          this.queue('select', () => {
            excel.selection = { sheet: sheet().name, address: addressOf(box()) };
          }),
        dataValidation: clientObject(
          this,
          'dataValidation',
          {},
          {
            rule: (rule: { list?: { source: string } }) => {
              const source = rule.list?.source;
              if (source === undefined) return;
              if (
                source.startsWith('=') ? !excel.names.has(source.slice(1)) : source.length > 255
              ) {
                throw new FakeOfficeError('InvalidArgument', `list source ${source}`);
              }
              sheet().lists.push(source);
            },
            errorAlert: ({ title, message }: { title: string; message: string }) => {
              if (title.length > 32 || message.length > 255)
                throw new FakeOfficeError('InvalidArgument');
            },
          },
        ),
      },
      {
        formulas: (entries: Value[][]) => excel.write(sheet(), box(), entries),
        values: (entries: Value[][]) => excel.write(sheet(), box(), entries),
      },
      () => ({
        isNullObject: isNull(),
        address: full(),
        cellCount: box().rows * box().columns,
        rowCount: box().rows,
        columnCount: box().columns,
        values: excel.read(sheet(), box(), 'value'),
        formulas: excel.read(sheet(), box(), 'formula'),
      }),
    );
  }
}
