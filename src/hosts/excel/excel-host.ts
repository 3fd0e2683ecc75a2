import { VERSION } from '../../functions/version';
import { download } from '../../sidebar/download';
import { farmFromXml, FARM_NAMESPACE } from '../../ooxml/farm-xml';
import type { BookSnapshot, CellPlace } from '../../plan/book-snapshot';
import { plansIn } from '../../plan/read-book';
import type { Area } from '../../plan/workbook-model';
import type { Host, OpenSheet, Selection } from '../../sidebar/host';
import { excelSentence } from './excel-errors';
import { officeIsDark, onOfficeTheme } from './office-theme';
import { enterInExcel } from './enter-in-excel';
import { fileBytes, openAsNewWorkbook } from './excel-file';
import { buildInExcel } from './excel-writer';
import { FollowedBook, type Told } from './followed-book';

const has = (set: string, version: string): boolean =>
  Office.context.requirements.isSetSupported(set, version);

/**
 * Whether the library that is loaded has a member of worksheets. A newer Excel promises what an older library
 * does not know; nothing is asked of Excel here.
 */
const sheetsHave = (member: string): boolean =>
  member in new Excel.RequestContext().workbook.worksheets.getActiveWorksheet();

/** The least that the builder needs: 1.9 brought lists of areas and page layout. */
const canBuild = (): boolean =>
  has('ExcelApi', '1.9') && sheetsHave('getRanges') && sheetsHave('pageLayout');

const canNote = (): boolean => has('ExcelApi', '1.18') && sheetsHave('notes');

function limits(): string[] {
  const found: string[] = [];
  if (!canBuild()) {
    found.push(
      'This Excel is too old to build plans in (it needs Excel 2021 or later, or Excel on the web). Functions work.',
    );
  } else if (!canNote()) {
    found.push('This Excel cannot be given notes on cells; plans are built without them.');
  }
  return found;
}

/** Office's own script says its version in no documented place. */
function about(): string {
  const { OSF } = globalThis as { OSF?: { ConstantNames?: { FileVersion?: string } } };
  const script = OSF?.ConstantNames?.FileVersion;
  // Missing in the oldest Excel, whatever the types say.
  const { diagnostics } = Office.context as { diagnostics?: Office.ContextInformation };
  const excel = diagnostics?.version;
  return [
    `Gillbed ${VERSION}`,
    ...(excel ? [`Excel ${excel}`] : []),
    ...(script ? [`Office’s script ${script}`] : []),
  ].join(' · ');
}

/** Waits out a cell that is being edited, and turns whatever Excel throws into a sentence. */
async function run<T>(work: (context: Excel.RequestContext) => Promise<T>): Promise<T> {
  try {
    return await Excel.run({ delayForCellEdit: true }, work);
  } catch (thrown) {
    throw new Error(excelSentence(thrown));
  }
}

/** "Sheet1!B5:D9" or "'My sheet'!B5" without the sheet. */
const withoutSheet = (address: string): string => address.slice(address.lastIndexOf('!') + 1);

type Values = readonly (readonly (string | number | boolean)[])[];

/** More cells than this are read only as far as they are used: a whole column has a million. */
const MAX_CELLS = 20_000;

async function readRange(context: Excel.RequestContext, range: Excel.Range): Promise<Selection> {
  range.load('address, cellCount');
  const sheet = range.worksheet.load('name');
  const used = range.getUsedRangeOrNullObject(true).load('address');
  await context.sync();
  const whole = range.cellCount >= 0 && range.cellCount <= MAX_CELLS;
  if (!whole && used.isNullObject) {
    const [first = 'A1'] = withoutSheet(range.address).split(':');
    return { sheet: sheet.name, address: /\d/.test(first) ? first : `${first}1`, values: [['']] };
  }
  const read = (whole ? range : used).load('address, values');
  await context.sync();
  return {
    sheet: sheet.name,
    address: withoutSheet(read.address),
    values: read.values as Values,
  };
}

const readSelection = (): Promise<Selection> =>
  run((context) => readRange(context, context.workbook.getSelectedRange()));

const readCells = (name: string | undefined, address: string): Promise<Selection> =>
  run(async (context) => {
    const { worksheets } = context.workbook;
    if (name === undefined) {
      return readRange(context, worksheets.getActiveWorksheet().getRange(address));
    }
    const sheet = worksheets.getItemOrNullObject(name).load('name');
    await context.sync();
    if (sheet.isNullObject) throw new Error(`There is no sheet called "${name}".`);
    return readRange(context, sheet.getRange(address));
  });

async function readFarm(): Promise<string | undefined> {
  return run(async (context) => {
    const parts = context.workbook.customXmlParts.getByNamespace(FARM_NAMESPACE).load('items/id');
    await context.sync();
    const last = parts.items.at(-1);
    if (!last) return undefined;
    const xml = last.getXml();
    await context.sync();
    // eslint-disable-next-line office-addins/load-object-before-read -- a method's result, not a property
    return farmFromXml(xml.value);
  });
}

/**
 * Cells that are asked for in one request: Excel on the web answers with at most 5 MB, and a formula, which is
 * asked for beside its value, may have some thousand letters all down a register.
 */
const CELLS_AT_A_TIME = 1000;

interface Block {
  readonly sheet: number;
  readonly range: Excel.Range;
}

/** Rows of the used ranges, in groups that fit one request each. */
function* blocks(used: readonly Excel.Range[]): Generator<Block[]> {
  let group: Block[] = [];
  let cells = 0;
  for (const [sheet, range] of used.entries()) {
    if (range.isNullObject) continue;
    const { rowCount, columnCount } = range;
    const most = Math.max(1, Math.floor(CELLS_AT_A_TIME / columnCount));
    for (let row = 0; row < rowCount; row += most) {
      const rows = Math.min(most, rowCount - row);
      if (cells + rows * columnCount > CELLS_AT_A_TIME && group.length > 0) {
        yield group;
        group = [];
        cells = 0;
      }
      const block = range
        .getRow(row)
        .untrack()
        .getResizedRange(rows - 1, 0);
      group.push({ sheet, range: block.load('formulas, values') });
      cells += rows * columnCount;
    }
  }
  if (group.length > 0) yield group;
}

async function readSheets(): Promise<readonly OpenSheet[]> {
  return run(async (context) => {
    const sheets = context.workbook.worksheets.load('items/name');
    await context.sync();
    const used = sheets.items.map((sheet) =>
      sheet.getUsedRangeOrNullObject(true).load('address, rowCount, columnCount'),
    );
    await context.sync();
    const read = sheets.items.map(() => ({ formulas: [] as Values[], values: [] as Values[] }));
    for (const group of blocks(used)) {
      // eslint-disable-next-line office-addins/no-context-sync-in-loop -- one answer could be too large
      await context.sync();
      for (const { sheet, range } of group) {
        read[sheet]?.formulas.push(range.formulas as Values);
        read[sheet]?.values.push(range.values as Values);
        range.untrack();
      }
    }
    return sheets.items.flatMap((sheet, i) => {
      const range = used[i];
      const parts = read[i];
      if (!range || !parts || range.isNullObject) return [];
      const [from = 'A1'] = withoutSheet(range.address).split(':');
      return [
        {
          name: sheet.name,
          from: from.replaceAll('$', ''),
          formulas: parts.formulas.flat(),
          values: parts.values.flat(),
        },
      ];
    });
  });
}

function onSelection(listener: (selection: Selection) => void): () => void {
  let ended = false;
  let stop: (() => void) | undefined;
  const changed = async (): Promise<void> => {
    // Several blocks, a chart or a shape may be selected: then there is nothing to tell.
    const selection = await readSelection().catch(() => undefined);
    if (selection && !ended) listener(selection);
  };
  void run(async (context) => {
    const handler = context.workbook.onSelectionChanged.add(changed);
    await context.sync();
    stop = () =>
      void Excel.run(handler.context as Excel.RequestContext, async (inner) => {
        handler.remove();
        await inner.sync();
      });
    if (ended) stop();
  }).catch(() => undefined);
  return () => {
    ended = true;
    stop?.();
  };
}

/** What is done where Excel tells that the workbook has changed. */
interface Heard {
  readonly edited: (edit: Excel.WorksheetChangedEventArgs) => void;
  readonly computed: () => void;
  /** Lines were sorted, a sheet came or went. */
  readonly moved: () => void;
}

/** Listens from now on; answers of what Excel tells. */
async function onEdits({ edited, computed, moved }: Heard): Promise<Told> {
  if (!has('ExcelApi', '1.9')) return 'nothing';
  const tellsAll = has('ExcelApi', '1.10');
  const done = (work: () => void) => (): Promise<void> => Promise.resolve(work());
  return run(async (context) => {
    const { worksheets } = context.workbook;
    worksheets.onChanged.add((edit) => Promise.resolve(edited(edit)));
    if (tellsAll) {
      worksheets.onCalculated.add(done(computed));
      worksheets.onRowSorted.add(done(moved));
      worksheets.onColumnSorted.add(done(moved));
      worksheets.onAdded.add(done(moved));
      worksheets.onDeleted.add(done(moved));
    }
    await context.sync();
    return tellsAll ? ('all' as const) : ('edits' as const);
  }).catch(() => 'nothing' as const);
}

/** What the pane asks of the open workbook as a whole, and who wants to hear that it has changed. */
function followed() {
  const listeners = new Set<() => void>();
  const tell = (): void => {
    for (const listener of listeners) listener();
  };
  let told: Told = 'nothing';
  let asked: Promise<void> | undefined;
  const book = new FollowedBook(
    // The file has names and cells in one; each read by itself would be hundreds of requests.
    async () => {
      const { openBook } = await import('../../ooxml/open-book');
      return openBook(await fileBytes());
    },
    () => told,
  );
  const anew = (): void => {
    book.forget();
    tell();
  };
  /** From now on Excel tells of edits. */
  const listen = (): Promise<void> =>
    (asked ??= onEdits({
      edited: (edit) => {
        book.edited(edit);
        tell();
      },
      computed: () => book.computed(),
      moved: anew,
    }).then((answer) => {
      told = answer;
    }));
  /** Who comes back to the pane sees what is there: the file is read again where it may be otherwise. */
  const back = (): void => {
    if (told !== 'all') return anew();
    run((context) => book.isCurrent(context))
      .catch(() => false)
      .then((isCurrent) => {
        if (!isCurrent) anew();
      })
      .catch(() => undefined);
  };
  return {
    book,
    read: async (again: readonly CellPlace[] = []): Promise<BookSnapshot> => {
      await listen();
      return run((context) => book.read(context, again));
    },
    onChange: (listener: () => void): (() => void) => {
      if (listeners.size === 0) window.addEventListener('focus', back);
      listeners.add(listener);
      void listen();
      return () => {
        listeners.delete(listener);
        if (listeners.size === 0) window.removeEventListener('focus', back);
      };
    },
  };
}

const NOWHERE: Area = { row: 0, column: 0, rows: 1, columns: 1 };

async function holdsPlan(): Promise<boolean> {
  return run(async (context) => {
    const names = context.workbook.names.load('items/name');
    await context.sync();
    return (
      plansIn({ names: names.items.map(({ name }) => ({ name, sheet: '', area: NOWHERE })) })
        .length > 0
    );
  });
}

/** The open workbook in Excel, as the sidebar sees it. */
export function excelHost(): Host {
  const { book, read, onChange } = followed();
  /** What the pane writes itself is read again, whether or not Excel tells of it. */
  const writing = async <T>(work: Promise<T>): Promise<T> => {
    try {
      return await work;
    } finally {
      book.forget();
    }
  };
  return {
    kind: 'excel',
    limits: limits(),
    about: about(),
    dark: officeIsDark,
    onDark: onOfficeTheme,
    buildWarning:
      'Excel cannot undo this step: the new sheets stay until you delete them. Your own sheets, names and tables are not touched.',
    build: (plan, progress, cancel) =>
      canBuild()
        ? writing(buildInExcel(plan, { notes: canNote() }, progress, cancel))
        : Promise.reject(new Error(limits()[0])),
    removeSheet: (name) =>
      writing(
        run(async (context) => {
          context.workbook.worksheets.getItem(name).delete();
          await context.sync();
        }),
      ),
    holdsPlan,
    readFarm,
    selection: readSelection,
    read: readCells,
    onSelection,
    putFormula: (sheet, address, formulas) =>
      writing(
        run(async (context) => {
          const [from = address] = address.split(':');
          const range = context.workbook.worksheets
            .getItem(sheet)
            .getRange(from)
            .getResizedRange(formulas.length - 1, (formulas[0]?.length ?? 1) - 1);
          range.formulas = formulas.map((row) => [...row]);
          await context.sync();
        }),
      ),
    putFormulas: (sheet, cells) =>
      writing(
        run(async (context) => {
          const found = context.workbook.worksheets.getItem(sheet);
          for (const { address, formula } of cells) found.getRange(address).formulas = [[formula]];
          await context.sync();
        }),
      ),
    // Table.resize came with 1.13.
    lengthensTables: has('ExcelApi', '1.13'),
    async enter(cells, longer) {
      await run((context) => enterInExcel(context, cells, longer));
      if (longer.length > 0) book.forget();
      else book.entered(cells);
    },
    book: read,
    onChange,
    goTo: (sheet, address) =>
      run(async (context) => {
        const found = context.workbook.worksheets.getItem(sheet);
        found.activate();
        found.getRange(address).select();
        await context.sync();
      }),
    readSheets,
    fileBytes,
    async openCopy(name, bytes) {
      if (has('ExcelApi', '1.8') && (await openAsNewWorkbook(bytes))) return 'opened';
      download(name, bytes, 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet');
      return 'downloaded';
    },
  };
}
