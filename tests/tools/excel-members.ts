/** The members of Excel's API that the workbook in memory serves; whatever else is asked for fails the test. */
import {
  addressOf,
  type Box,
  boxOf,
  type ChartInMemory,
  insideSheet,
  MAX_COLUMNS,
  MAX_ROWS,
  Refusal,
  type SheetInMemory,
  type TableInMemory,
  type WorkbookInMemory,
} from './excel-workbook';

/** An object on Excel's side: the API's name of its class, and what it stands for. */
export interface Served {
  readonly type: string;
  readonly target: unknown;
  /** A stand-in for something that is not there. */
  readonly isNull?: true;
}

/** A function's result on the wire: its call, whether it succeeded, the value. */
export type HandedOver = readonly [id: number, succeeded: boolean, value: unknown, ...unknown[]];

export interface Desk {
  readonly workbook: WorkbookInMemory;
  /** Values of an enumeration, as the library has them; empty where it has no such enumeration. */
  words(enumeration: string): readonly string[];
  /** Objects that the library asked to be kept until it lets them go. */
  readonly kept: Map<string, Served>;
  /** Results of functions as the library hands them over. */
  readonly results: HandedOver[];
}

type Arguments = readonly unknown[];
type Check = (value: unknown, desk: Desk) => boolean;

export interface Members {
  /** Objects behind a property, or answered by a method. */
  readonly objects?: Readonly<Record<string, (desk: Desk, self: never, args: Arguments) => Served>>;
  readonly methods?: Readonly<
    Record<string, (desk: Desk, self: never, args: Arguments) => unknown>
  >;
  /** Properties that are written: what they accept, and what comes of it where that matters. */
  readonly writes?: Readonly<
    Record<string, Check | readonly [Check, (desk: Desk, self: never, value: never) => void]>
  >;
  readonly reads?: Readonly<Record<string, (desk: Desk, self: never) => unknown>>;
  readonly items?: (desk: Desk, self: never) => readonly Served[];
  /** By what the library finds it again. */
  readonly id?: (self: never) => string;
}

const text: Check = (value) => typeof value === 'string';
const truth: Check = (value) => typeof value === 'boolean';
const colour: Check = (value) => /^#[\da-f]{6}$/i.test(String(value));
const oneOf =
  (enumeration: string): Check =>
  (value, desk) =>
    desk.words(enumeration).includes(String(value));
const within =
  (least: number, most: number): Check =>
  (value) =>
    typeof value === 'number' && value >= least && value <= most;

/** Throws where an argument is not of its kind. */
function want(check: Check, desk: Desk, value: unknown, what: string): void {
  if (!check(value, desk)) {
    throw new Refusal('InvalidArgument', `${what} does not take ${JSON.stringify(value)}`);
  }
}

interface RangeTarget {
  readonly sheet: SheetInMemory;
  readonly box: Box;
}
interface AreasTarget {
  readonly sheet: SheetInMemory;
  readonly boxes: readonly Box[];
}
interface ChartTarget {
  readonly chart: ChartInMemory;
}

/** Excel is asked to tell of something. */
const listened =
  (what: string) =>
  ({ workbook }: Desk): void =>
    void workbook.tellsOf.add(what);
const part =
  (type: string) =>
  (_: Desk, self: unknown): Served => ({ type, target: self });

const range = (sheet: SheetInMemory, box: Box): Served => ({
  type: 'Range',
  target: { sheet, box: insideSheet(box) } satisfies RangeTarget,
});

const usedRange = (sheet: SheetInMemory, within?: Box): Served => {
  const box = sheet.used(within);
  return box ? range(sheet, box) : { type: 'Range', target: undefined, isNull: true };
};

const wholeSheet: Box = { row: 0, column: 0, rows: MAX_ROWS, columns: MAX_COLUMNS };

const fullAddress = ({ sheet, box }: RangeTarget): string =>
  `${/^\w+$/.test(sheet.name) ? sheet.name : `'${sheet.name.replaceAll("'", "''")}'`}!${addressOf(box)}`;

const served = (arg: unknown, type: string): unknown => {
  const given = arg as Partial<Served> | undefined;
  if (given?.type !== type) throw new Refusal('InvalidArgument', `a ${type} is wanted`);
  return given.target;
};

const sides = {
  tall: ['InsideHorizontal'],
  wide: ['InsideVertical'],
};

/** Inner edges are there only where an area has more than one row or column. */
function border(desk: Desk, self: unknown, [side]: Arguments): Served {
  want(oneOf('BorderIndex'), desk, side, 'RangeBorderCollection.getItem');
  const target = self as Partial<RangeTarget & AreasTarget>;
  for (const box of target.box ? [target.box] : (target.boxes ?? [])) {
    if (
      (sides.tall.includes(String(side)) && box.rows === 1) ||
      (sides.wide.includes(String(side)) && box.columns === 1)
    ) {
      throw new Refusal('InvalidArgument', `${addressOf(box)} has no ${String(side)}`);
    }
  }
  return { type: 'RangeBorder', target: self };
}

const MAX_ADDRESS_LIST_LENGTH = 8192;

function areas(sheet: SheetInMemory, address: unknown): Served {
  if (String(address).length > MAX_ADDRESS_LIST_LENGTH) {
    throw new Refusal('InvalidArgument', 'a list of areas of more than 8192 characters');
  }
  const boxes = String(address).split(',').map(boxOf);
  return { type: 'RangeAreas', target: { sheet, boxes } satisfies AreasTarget };
}

function newTable(sheet: SheetInMemory, from: RangeTarget): Served {
  const { box } = from;
  const heads = sheet.read({ ...box, rows: 1 }, 'value')[0] ?? [];
  if (
    heads.some((head) => typeof head !== 'string' || head === '') ||
    new Set(heads.map((head) => String(head).toLowerCase())).size < heads.length
  ) {
    throw new Refusal('InvalidArgument', 'a table needs different words as heads');
  }
  const overlaps = sheet.tables
    .map(({ address }) => boxOf(address))
    .some(
      (other) =>
        other.row < box.row + box.rows &&
        box.row < other.row + other.rows &&
        other.column < box.column + box.columns &&
        box.column < other.column + other.columns,
    );
  if (overlaps) throw new Refusal('InvalidArgument', 'tables cannot overlap');
  const table: TableInMemory = {
    name: `Table${sheet.tables.length + 1}`,
    address: addressOf(box),
  };
  sheet.tables.push(table);
  return { type: 'Table', target: table };
}

/** A list's words or its source; bounds are numbers or formulas. */
function checkRule(
  desk: Desk,
  sheet: SheetInMemory,
  rule: Readonly<Record<string, unknown>>,
): void {
  const [[kind, body] = ['', undefined], ...more] = Object.entries(rule);
  if (more.length > 0 || !body) throw new Refusal('InvalidArgument', 'a rule has one kind');
  if (kind === 'list') {
    const { source } = body as { source: string };
    const good = source.startsWith('=')
      ? desk.workbook.names.has(source.slice(1))
      : source.length > 0 && source.length <= 255;
    if (!good) throw new Refusal('InvalidArgument', `no source of a list: ${source}`);
    sheet.lists.push(source);
    return;
  }
  if (!['wholeNumber', 'decimal', 'date'].includes(kind)) {
    throw new Refusal('InvalidArgument', `no kind of rule: ${kind}`);
  }
  const { formula1, formula2, operator } = body as Readonly<Record<string, unknown>>;
  want(oneOf('DataValidationOperator'), desk, operator, 'a rule’s operator');
  if (formula1 === undefined || (operator === 'Between') !== (formula2 !== undefined)) {
    throw new Refusal('InvalidArgument', 'a rule without its bounds');
  }
}

const series = (chart: ChartInMemory, index: number): Served => {
  const found = chart.series[index];
  if (!found) throw new Refusal('InvalidArgument', `no series ${index}`);
  return { type: 'ChartSeries', target: found };
};

const fontWrites: Members['writes'] = {
  name: text,
  size: within(1, 409),
  color: colour,
  bold: truth,
  italic: truth,
};
const borderWrites: Members['writes'] = {
  style: oneOf('BorderLineStyle'),
  weight: oneOf('BorderWeight'),
  color: colour,
};

export const members: Readonly<Record<string, Members>> = {
  Workbook: {
    objects: {
      application: part('Application'),
      worksheets: part('WorksheetCollection'),
      names: part('NamedItemCollection'),
      tables: part('TableCollection'),
      customXmlParts: part('CustomXmlPartCollection'),
      protection: part('WorkbookProtection'),
      getSelectedRange: ({ workbook }) =>
        range(workbook.sheet(workbook.selection.sheet), boxOf(workbook.selection.address)),
    },
    methods: {
      _RemoveReference: ({ kept }, _, [id]) => void kept.delete(String(id)),
      // Excel on the web opens a new workbook by this one.
      createAndOpenWorkbook: ({ workbook }, _, [file]) =>
        void workbook.newWorkbooks.push(String(file)),
    },
  },
  Application: {
    methods: { suspendScreenUpdatingUntilNextSync: () => undefined },
    objects: {
      createWorkbook: (_, __, [file]) => ({ type: 'WorkbookCreated', target: String(file) }),
    },
  },
  WorkbookCreated: {
    id: (file: string) => file,
    methods: { open: ({ workbook }, file: string) => void workbook.newWorkbooks.push(file) },
  },
  CustomFunctions: {
    methods: {
      setInvocationArrayResults: ({ results }, _, [more]) =>
        void results.push(...(more as readonly HandedOver[])),
    },
  },
  WorkbookProtection: { reads: { protected: ({ workbook }) => workbook.structureProtected } },
  WorksheetCollection: {
    methods: {
      _RegisterDataChangedEvent: ({ workbook }) => {
        workbook.tellsEdits = true;
      },
      _RegisterCalculatedEvent: listened('Calculated'),
      _RegisterRowSortedEvent: listened('RowSorted'),
      _RegisterColumnSortedEvent: listened('ColumnSorted'),
      _RegisterAddedEvent: listened('Added'),
      _RegisterDeletedEvent: listened('Deleted'),
    },
    objects: {
      add: ({ workbook }, _, [name]) => ({
        type: 'Worksheet',
        target: workbook.addSheet(String(name)),
      }),
      getItem: ({ workbook }, _, [key]) => ({
        type: 'Worksheet',
        target: workbook.sheet(String(key)),
      }),
      getItemOrNullObject: ({ workbook }, _, [key]) => {
        const target = workbook.findSheet(String(key));
        return { type: 'Worksheet', target, ...(!target && { isNull: true as const }) };
      },
      getActiveWorksheet: ({ workbook }) => ({
        type: 'Worksheet',
        target: workbook.sheet(workbook.active),
      }),
    },
    items: ({ workbook }) => workbook.sheets.map((target) => ({ type: 'Worksheet', target })),
  },
  Worksheet: {
    id: ({ id }: SheetInMemory) => id,
    reads: {
      id: (_, { id }: SheetInMemory) => id,
      name: (_, { name }: SheetInMemory) => name,
    },
    // On the wire it has a name of its own.
    writes: { gridlines: truth, tabColor: colour },
    objects: {
      getRange: (_, sheet: SheetInMemory, [address]) =>
        range(sheet, address === null ? wholeSheet : boxOf(String(address))),
      getCell: (_, sheet: SheetInMemory, [row, column]) =>
        range(sheet, { row: Number(row), column: Number(column), rows: 1, columns: 1 }),
      getRangeByIndexes: (_, sheet: SheetInMemory, [row, column, rows, columns]) =>
        range(sheet, {
          row: Number(row),
          column: Number(column),
          rows: Number(rows),
          columns: Number(columns),
        }),
      getRanges: (_, sheet: SheetInMemory, [address]) => areas(sheet, address),
      getUsedRangeOrNullObject: (_, sheet: SheetInMemory) => usedRange(sheet),
      tables: part('TableCollection'),
      charts: part('ChartCollection'),
      freezePanes: part('WorksheetFreezePanes'),
      pageLayout: part('PageLayout'),
      notes: part('NoteCollection'),
    },
    methods: {
      activate: ({ workbook }, sheet: SheetInMemory) => {
        workbook.active = sheet.name;
      },
      delete: ({ workbook }, sheet: SheetInMemory) => workbook.deleteSheet(sheet),
    },
  },
  Range: {
    reads: {
      address: (_, self: RangeTarget) => fullAddress(self),
      rowCount: (_, { box }: RangeTarget) => box.rows,
      columnCount: (_, { box }: RangeTarget) => box.columns,
      cellCount: (_, { box }: RangeTarget) => box.rows * box.columns,
      values: (_, { sheet, box }: RangeTarget) => sheet.read(box, 'value'),
      formulas: (_, { sheet, box }: RangeTarget) => sheet.read(box, 'formula'),
    },
    writes: {
      formulas: [
        Array.isArray,
        ({ workbook }, { sheet, box }: RangeTarget, block) => workbook.write(sheet, box, block),
      ],
      numberFormat: (value) => text(value, undefined as never) || Array.isArray(value),
      columnHidden: [
        truth,
        (_, { sheet, box }: RangeTarget, hidden) => {
          if (hidden) sheet.hidden.push(addressOf({ ...box, row: 0, rows: 1 }));
        },
      ],
    },
    objects: {
      worksheet: (_, { sheet }: RangeTarget) => ({ type: 'Worksheet', target: sheet }),
      format: part('RangeFormat'),
      dataValidation: part('DataValidation'),
      conditionalFormats: part('ConditionalFormatCollection'),
      getUsedRangeOrNullObject: (_, { sheet, box }: RangeTarget) => usedRange(sheet, box),
      getEntireColumn: (_, { sheet, box }: RangeTarget) =>
        range(sheet, { ...box, row: 0, rows: MAX_ROWS }),
      getResizedRange: (_, { sheet, box }: RangeTarget, [rows, columns]) =>
        range(sheet, {
          ...box,
          rows: box.rows + Number(rows),
          columns: box.columns + Number(columns),
        }),
      // What the library makes of getResizedRange where Excel is too old for it.
      getLastCell: (_, { sheet, box }: RangeTarget) =>
        range(sheet, {
          row: box.row + box.rows - 1,
          column: box.column + box.columns - 1,
          rows: 1,
          columns: 1,
        }),
      getOffsetRange: (_, { sheet, box }: RangeTarget, [rows, columns]) =>
        range(sheet, {
          ...box,
          row: box.row + Number(rows),
          column: box.column + Number(columns),
        }),
      // The library itself cuts large blocks into rows by these two.
      getRow: (_, { sheet, box }: RangeTarget, [row]) =>
        range(sheet, { ...box, row: box.row + Number(row), rows: 1 }),
      getBoundingRect: (_, { sheet, box }: RangeTarget, [other]) => {
        const to = (served(other, 'Range') as RangeTarget).box;
        const row = Math.min(box.row, to.row);
        const column = Math.min(box.column, to.column);
        return range(sheet, {
          row,
          column,
          rows: Math.max(box.row + box.rows, to.row + to.rows) - row,
          columns: Math.max(box.column + box.columns, to.column + to.columns) - column,
        });
      },
    },
    methods: {
      _KeepReference: () => undefined,
      _ValidateArraySize: (_, { box }: RangeTarget, [rows, columns]) => {
        if (rows !== box.rows || columns !== box.columns) {
          throw new Refusal('InvalidArgument', `the block does not fit ${addressOf(box)}`);
        }
      },
      select: ({ workbook }, { sheet, box }: RangeTarget) => {
        workbook.selection = { sheet: sheet.name, address: addressOf(box) };
      },
      merge: (_, { sheet, box }: RangeTarget) => void sheet.merged.push(addressOf(box)),
      // One row over all rows; how formulas move along is left out, since they are written anew.
      copyFrom: ({ workbook }, { sheet, box }: RangeTarget, [from]) => {
        const source = served(from, 'Range') as RangeTarget;
        if (source.box.rows !== 1 || source.box.columns !== box.columns) {
          throw new Refusal('InvalidArgument', `not one row as wide as ${addressOf(box)}`);
        }
        const [line = []] = source.sheet.read(source.box, 'formula');
        workbook.write(
          sheet,
          box,
          Array.from({ length: box.rows }, () => line),
        );
      },
    },
  },
  RangeAreas: {
    objects: { format: part('RangeFormat') },
    methods: { _KeepReference: () => undefined },
  },
  RangeFormat: {
    objects: {
      font: part('RangeFont'),
      fill: part('RangeFill'),
      borders: part('RangeBorderCollection'),
    },
    writes: {
      wrapText: truth,
      horizontalAlignment: oneOf('HorizontalAlignment'),
      verticalAlignment: oneOf('VerticalAlignment'),
      columnWidth: within(0, 1500),
      rowHeight: within(0, 409.5),
    },
  },
  RangeFont: { writes: fontWrites },
  RangeFill: { writes: { color: colour } },
  RangeBorderCollection: { objects: { getItem: border } },
  RangeBorder: { writes: borderWrites },
  DataValidation: {
    writes: {
      rule: [
        (value) => typeof value === 'object' && value !== null,
        (desk, { sheet }: RangeTarget, rule) => checkRule(desk, sheet, rule),
      ],
      errorAlert: (value, desk) => {
        const { title, message, style, showAlert } = value as Readonly<Record<string, unknown>>;
        return (
          String(title).length <= 32 &&
          String(message).length <= 255 &&
          truth(showAlert, desk) &&
          oneOf('DataValidationAlertStyle')(style, desk)
        );
      },
    },
  },
  ConditionalFormatCollection: {
    objects: {
      add: (desk, self, [type]) => {
        want(oneOf('ConditionalFormatType'), desk, type, 'ConditionalFormatCollection.add');
        return { type: 'ConditionalFormat', target: self };
      },
    },
  },
  ConditionalFormat: { objects: { custom: part('CustomConditionalFormat') }, id: () => '{format}' },
  CustomConditionalFormat: {
    objects: { rule: part('ConditionalFormatRule'), format: part('ConditionalRangeFormat') },
  },
  ConditionalFormatRule: {
    writes: {
      formula: [
        (value) => String(value).startsWith('='),
        ({ workbook }, { sheet }: RangeTarget, formula) => {
          workbook.checkFormula(formula);
          sheet.conditions.push(formula);
        },
      ],
    },
  },
  ConditionalRangeFormat: {
    objects: {
      font: part('ConditionalRangeFont'),
      fill: part('ConditionalRangeFill'),
      borders: part('ConditionalRangeBorderCollection'),
    },
  },
  ConditionalRangeFont: { writes: { color: colour, bold: truth, italic: truth } },
  ConditionalRangeFill: { writes: { color: colour } },
  ConditionalRangeBorderCollection: {
    objects: {
      getItem: (desk, self, [side]) => {
        want(
          oneOf('ConditionalRangeBorderIndex'),
          desk,
          side,
          'ConditionalRangeBorderCollection.getItem',
        );
        return { type: 'ConditionalRangeBorder', target: self };
      },
    },
  },
  ConditionalRangeBorder: {
    writes: { style: oneOf('ConditionalRangeBorderLineStyle'), color: colour },
  },
  NoteCollection: {
    objects: {
      add: (_, sheet: SheetInMemory, [address, content]) => {
        sheet.notes.set(addressOf(boxOf(String(address))), String(content));
        return { type: 'Note', target: String(content) };
      },
    },
  },
  Note: { id: (content: string) => content },
  WorksheetFreezePanes: {
    methods: {
      freezeAt: (_, sheet: SheetInMemory, [from]) => {
        sheet.frozen = addressOf((served(from, 'Range') as RangeTarget).box);
      },
      freezeRows: (desk, sheet: SheetInMemory, [rows]) => {
        want(within(1, 1000), desk, rows, 'freezeRows');
        sheet.frozen = `${String(rows)} rows`;
      },
      freezeColumns: (desk, sheet: SheetInMemory, [columns]) => {
        want(within(1, 100), desk, columns, 'freezeColumns');
        sheet.frozen = `${String(columns)} columns`;
      },
    },
  },
  PageLayout: {
    objects: { headersFooters: part('HeaderFooterGroup') },
    writes: {
      orientation: oneOf('PageOrientation'),
      paperSize: oneOf('PaperType'),
      zoom: (value) =>
        typeof value === 'object' &&
        Object.entries(value as object).every(
          ([key, pages]) =>
            ['horizontalFitToPages', 'verticalFitToPages', 'scale'].includes(key) &&
            Number.isInteger(pages) &&
            pages > 0,
        ),
    },
    methods: {
      setPrintTitleRows: (_, __, [rows]) => void boxOf(String(rows)),
      setPrintTitleColumns: (_, __, [columns]) => void boxOf(String(columns)),
      setPrintArea: (_, sheet: SheetInMemory, [address]) => void areas(sheet, address),
    },
  },
  HeaderFooterGroup: { objects: { defaultForAllPages: part('HeaderFooter') } },
  HeaderFooter: {
    writes: Object.fromEntries(
      ['leftFooter', 'centerFooter', 'rightFooter'].map((name) => [
        name,
        (value: unknown) => text(value, undefined as never) && String(value).length <= 255,
      ]),
    ),
  },
  TableCollection: {
    objects: {
      add: (_, self: SheetInMemory, [from]) => newTable(self, served(from, 'Range') as RangeTarget),
      getItem: (_, { tables }: SheetInMemory, [key]) => {
        const target = tables.find(({ name }) => name === key);
        if (!target) throw new Refusal('ItemNotFound', `no table ${String(key)}`);
        return { type: 'Table', target };
      },
    },
    items: ({ workbook }) =>
      workbook.sheets.flatMap(({ tables }) => tables.map((target) => ({ type: 'Table', target }))),
  },
  Table: {
    id: ({ address }: TableInMemory) => address,
    reads: { name: (_, { name }: TableInMemory) => name },
    methods: {
      // The heads stay where they are.
      resize: (_, table: TableInMemory, [to]) => {
        const { box } = served(to, 'Range') as RangeTarget;
        const { row, column } = boxOf(table.address);
        if (box.row !== row || box.column !== column || box.rows < 2) {
          throw new Refusal('InvalidArgument', `${table.name} cannot be ${addressOf(box)}`);
        }
        table.address = addressOf(box);
      },
    },
    writes: {
      name: [
        text,
        ({ workbook }, table: TableInMemory, name) => {
          workbook.checkNewName(name);
          table.name = name;
        },
      ],
      style: (value) => /^TableStyle(Light|Medium|Dark)\d{1,2}$/.test(String(value)),
      showFilterButton: truth,
      showBandedRows: truth,
    },
  },
  NamedItemCollection: {
    objects: {
      add: ({ workbook }, _, [name, to]) => {
        workbook.checkNewName(String(name));
        const target = String(name);
        workbook.names.set(target, fullAddress(served(to, 'Range') as RangeTarget));
        return { type: 'NamedItem', target };
      },
      getItem: ({ workbook }, _, [name]) => {
        const target = [...workbook.names.keys()].find((text) => text === name);
        if (target === undefined) throw new Refusal('ItemNotFound', `no name ${String(name)}`);
        return { type: 'NamedItem', target };
      },
    },
    items: ({ workbook }) =>
      [...workbook.names.keys()].map((target) => ({ type: 'NamedItem', target })),
  },
  NamedItem: {
    id: (name: string) => name,
    reads: {
      name: (_, name: string) => name,
      formula: ({ workbook }, name: string) => `=${workbook.names.get(name) ?? '#REF!'}`,
    },
    methods: { delete: ({ workbook }, name: string) => void workbook.names.delete(name) },
  },
  CustomXmlPartCollection: {
    objects: {
      add: ({ workbook }, _, [xml]) => {
        const target = workbook.newId('part');
        workbook.xmlParts.push({ id: target, xml: String(xml) });
        return { type: 'CustomXmlPart', target };
      },
      getItem: ({ workbook }, _, [id]) => {
        if (!workbook.xmlParts.some((part) => part.id === id)) throw new Refusal('ItemNotFound');
        return { type: 'CustomXmlPart', target: id };
      },
      getByNamespace: (_, __, [namespace]) => ({
        type: 'CustomXmlPartScopedCollection',
        target: String(namespace),
      }),
    },
  },
  CustomXmlPartScopedCollection: {
    objects: {
      getItem: (_, __, [id]) => ({ type: 'CustomXmlPart', target: id }),
    },
    items: ({ workbook }, namespace: string) =>
      workbook.xmlParts
        .filter(({ xml }) => xml.includes(`"${namespace}"`))
        .map(({ id }) => ({ type: 'CustomXmlPart', target: id })),
  },
  CustomXmlPart: {
    id: (id: string) => id,
    reads: { id: (_, id: string) => id },
    methods: {
      getXml: ({ workbook }, id: string) => workbook.xmlParts.find((part) => part.id === id)?.xml,
      delete: ({ workbook }, id: string) => {
        workbook.xmlParts = workbook.xmlParts.filter((part) => part.id !== id);
      },
    },
  },
  ChartCollection: {
    objects: {
      add: (desk, sheet: SheetInMemory, [type, from, by]) => {
        want(oneOf('ChartType'), desk, type, 'ChartCollection.add');
        want(oneOf('ChartSeriesBy'), desk, by, 'ChartCollection.add');
        const values = fullAddress(served(from, 'Range') as RangeTarget);
        const chart: ChartInMemory = {
          type: String(type),
          title: '',
          series: [{ name: '', values, categories: '' }],
        };
        sheet.charts.push(chart);
        return { type: 'Chart', target: { chart } satisfies ChartTarget };
      },
    },
  },
  Chart: {
    id: ({ chart }: ChartTarget) => chart.title,
    objects: {
      title: part('ChartTitle'),
      legend: part('ChartLegend'),
      axes: part('ChartAxes'),
      series: part('ChartSeriesCollection'),
    },
    methods: {
      setPosition: (_, __, [from, to]) => {
        served(from, 'Range');
        served(to, 'Range');
      },
    },
  },
  ChartTitle: {
    writes: {
      text: [
        text,
        (_, { chart }: ChartTarget, title) => {
          chart.title = title;
        },
      ],
    },
    objects: { format: part('ChartTitleFormat') },
  },
  ChartTitleFormat: { objects: { font: part('ChartFont') } },
  ChartFont: { writes: { color: colour } },
  ChartLegend: { writes: { visible: truth, position: oneOf('ChartLegendPosition') } },
  ChartAxes: { objects: { categoryAxis: part('ChartAxis'), valueAxis: part('ChartAxis') } },
  ChartAxis: { objects: { title: part('ChartAxisTitle') } },
  ChartAxisTitle: { writes: { text } },
  ChartSeriesCollection: {
    objects: {
      getItemAt: (_, { chart }: ChartTarget, [index]) => series(chart, Number(index)),
      add: (_, { chart }: ChartTarget, [name]) => {
        chart.series.push({ name: String(name), values: '', categories: '' });
        return series(chart, chart.series.length - 1);
      },
    },
  },
  ChartSeries: {
    writes: {
      name: [
        text,
        (_, self: ChartInMemory['series'][number], name) => {
          self.name = name;
        },
      ],
      markerStyle: oneOf('ChartMarkerStyle'),
      markerForegroundColor: colour,
      markerBackgroundColor: colour,
    },
    methods: {
      setValues: (_, self: ChartInMemory['series'][number], [from]) => {
        self.values = fullAddress(served(from, 'Range') as RangeTarget);
      },
      setXAxisValues: (_, self: ChartInMemory['series'][number], [from]) => {
        self.categories = fullAddress(served(from, 'Range') as RangeTarget);
      },
    },
    objects: { format: part('ChartSeriesFormat') },
  },
  ChartSeriesFormat: { objects: { fill: part('ChartFill'), line: part('ChartLineFormat') } },
  ChartFill: {
    methods: {
      setSolidColor: (desk, _, [value]) => want(colour, desk, value, 'ChartFill.setSolidColor'),
    },
  },
  ChartLineFormat: {
    writes: { color: colour, lineStyle: oneOf('ChartLineStyle'), weight: within(0.25, 1584) },
  },
};
