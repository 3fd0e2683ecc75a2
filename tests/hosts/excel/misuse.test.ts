import { describe, expect, it } from 'vitest';
import { openExcel } from '../../tools/excel-open';
import { addressOf } from '../../tools/excel-workbook';

type Batch = (context: Excel.RequestContext) => Promise<unknown>;

const cells = (context: Excel.RequestContext, address = 'A1:B2'): Excel.Range =>
  context.workbook.worksheets.getItem('Mine').getRange(address);

/** Each is code that Excel would refuse, or misunderstand without a word; and how the witness tells of it. */
const planted: Readonly<Record<string, readonly [misuse: Batch, told: RegExp]>> = {
  'a property that was never loaded': [
    async (context) => {
      const range = cells(context);
      await context.sync();
      return range.values;
    },
    /^PropertyNotLoaded/,
  ],
  'a property that is read before Excel answered': [
    async (context) => cells(context).load('values').values,
    /^PropertyNotLoaded/,
  ],
  'the items of a collection that were not loaded': [
    async (context) => context.workbook.worksheets.items.length,
    /^PropertyNotLoaded/,
  ],
  'the answer of a method before Excel gave it': [
    async (context) => {
      const parts = context.workbook.customXmlParts;
      parts.add('<farm xmlns="urn:gillbed:farm:1"/>');
      const found = parts.getByNamespace('urn:gillbed:farm:1').load('items/id');
      await context.sync();
      return found.items[0]?.getXml().value;
    },
    /^ValueNotLoaded/,
  ],
  'something that is not there': [
    async (context) => {
      const sheet = context.workbook.worksheets.getItemOrNullObject('Ponds');
      await context.sync();
      sheet.activate();
      await context.sync();
    },
    /^InvalidObjectPath/,
  ],
  'a sheet that is not there': [
    async (context) => {
      context.workbook.worksheets.getItem('Ponds').activate();
      await context.sync();
    },
    /^ItemNotFound.*Ponds/,
  ],
  'an object of another context': [
    async (context) => {
      const other = new Excel.RequestContext();
      context.workbook.names.add('Some_name', cells(other));
      await context.sync();
    },
    /^InvalidRequestContext/,
  ],
  'cells that were let go': [
    async (context) => {
      const range = cells(context).untrack();
      await context.sync();
      range.select();
      await context.sync();
    },
    /^InvalidObjectPath/,
  ],
  'a run that does not wait': [(() => undefined) as unknown as Batch, /^RunMustReturnPromise/],
  'a property that does not exist': [
    async (context) => {
      cells(context).load('colour');
      await context.sync();
    },
    /colour/,
  ],
  'a property that cannot be written': [
    async (context) => {
      (cells(context) as { address: string }).address = 'A1';
    },
    /^TypeError: .*address/,
  ],
  'a member that the library does not have': [
    async (context) => context.workbook.worksheets.getItem('Mine').notes.add('A1', 'text'),
    /^TypeError/,
  ],
  'a member that nobody looked after': [
    async (context) => {
      cells(context).clear();
      await context.sync();
    },
    /^ApiNotFound: Range.clear is not served/,
  ],
  'a block that does not fit its cells': [
    async (context) => {
      cells(context).formulas = [['a', 'b', 'c']];
      await context.sync();
    },
    /^InvalidArgument: the block does not fit A1:B2/,
  ],
  'a large block that does not fit its cells': [
    async (context) => {
      cells(context, 'A1:B1000').formulas = Array.from({ length: 1000 }, () => ['a', 'b', 'c']);
      await context.sync();
    },
    /^InvalidArgument: the block does not fit/,
  ],
  'no number': [
    async (context) => {
      cells(context, 'A1').formulas = [[NaN]];
      await context.sync();
    },
    /^InvalidArgument: .* is given null/,
  ],
  'a formula that speaks of no sheet': [
    async (context) => {
      cells(context, 'A1').formulas = [["='No such sheet'!A1"]];
      await context.sync();
    },
    /^ItemNotFound.*No such sheet/,
  ],
  'a formula that is too long': [
    async (context) => {
      cells(context, 'A1').formulas = [[`=${'1+'.repeat(4096)}1`]];
      await context.sync();
    },
    /^InvalidArgument: a formula of 8194 characters/,
  ],
  'a word that an enumeration has not': [
    async (context) => {
      cells(context).format.horizontalAlignment = 'Middle' as 'Left';
      await context.sync();
    },
    /^InvalidArgument: RangeFormat.horizontalAlignment does not take "Middle"/,
  ],
  'text where a number is due': [
    async (context) => {
      cells(context).format.rowHeight = 'tall' as unknown as number;
      await context.sync();
    },
    /^InvalidArgument: RangeFormat.rowHeight/,
  ],
  'inner edges of a single row': [
    async (context) => {
      cells(context, 'A1:B1').format.borders.getItem('InsideHorizontal').color = '#000000';
      await context.sync();
    },
    /^InvalidArgument: A1:B1 has no InsideHorizontal/,
  ],
  'a name that is taken': [
    async (context) => {
      context.workbook.names.add('Taken', cells(context));
      context.workbook.names.add('taken', cells(context));
      await context.sync();
    },
    /^ItemAlreadyExists/,
  ],
  'a name that looks like a cell': [
    async (context) => {
      context.workbook.names.add('AB12', cells(context));
      await context.sync();
    },
    /^InvalidArgument: no name/,
  ],
  'a sheet of a name that is too long': [
    async (context) => {
      context.workbook.worksheets.add('A name of more than thirty-one letters');
      await context.sync();
    },
    /^InvalidArgument: no name for a sheet/,
  ],
  'a table whose heads are alike': [
    async (context) => {
      cells(context).formulas = [
        ['Fish', 'Fish'],
        [1, 2],
      ];
      context.workbook.worksheets.getItem('Mine').tables.add(cells(context), true);
      await context.sync();
    },
    /^InvalidArgument: a table needs/,
  ],
  'a list from nowhere': [
    async (context) => {
      cells(context).dataValidation.rule = { list: { inCellDropDown: true, source: '=Nowhere' } };
      await context.sync();
    },
    /^InvalidArgument: no source of a list/,
  ],
  'more areas than one call takes': [
    async (context) => {
      const list = Array.from({ length: 3000 }, (_, i) =>
        addressOf({ row: i, column: 0, rows: 1, columns: 1 }),
      );
      context.workbook.worksheets.getItem('Mine').getRanges(list.join(',')).format.wrapText = true;
      await context.sync();
    },
    /^InvalidArgument: a list of areas/,
  ],
  'a request that is too large': [
    async (context) => {
      cells(context, 'A1:B1200').formulas = Array.from({ length: 1200 }, () => [
        'x'.repeat(2500),
        'y'.repeat(2500),
      ]);
      await context.sync();
    },
    /^RequestPayloadSizeLimitExceeded/,
  ],
};

describe('the witness finds planted misuse, even where the error is caught', () => {
  it('of twenty kinds and more', () => {
    expect(Object.keys(planted).length).toBeGreaterThanOrEqual(20);
  });

  it.each(Object.entries(planted))('%s', async (_, [misuse, told]) => {
    const { host } = openExcel({ sheets: ['Mine'] });
    await Excel.run(misuse).catch(() => undefined);
    const faults = host.faults.splice(0);
    expect(faults.join('\n')).toMatch(told);
  });

  it('a member of a newer Excel than there is', async () => {
    const { host } = openExcel({ sheets: ['Mine'], sets: { ExcelApi: '1.8' } });
    await Excel.run(
      async (context) => context.workbook.worksheets.getItem('Mine').pageLayout,
    ).catch(() => undefined);
    expect(host.faults.splice(0).join()).toMatch(/^ApiNotFound: .*Worksheet.pageLayout.*1\.9/);
  });
});
