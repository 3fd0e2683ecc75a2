import { afterEach, expect, it, vi } from 'vitest';
import { excelHost } from '../../../src/hosts/excel/excel-host';
import { cellAddress } from '../../../src/plan/addresses';
import { planWorkbook } from '../../../src/plan/plan';
import { openFarm, typeInto } from '../../../src/sidebar/open-farm';
import { BookDraft } from '../../../src/sidebar/plan/book-draft';
import { openExcel } from '../../tools/excel-open';
import { settled, type Witness } from '../../tools/excel-witness';
import { sampleFarm } from '../../tools/farms';
import { fileOf } from '../../tools/there-and-back';

const farm = sampleFarm('larkfield-school');

/** A plan in Excel, and the pane's form over it. */
async function opened() {
  const excel: Witness = openExcel({ sheets: ['Mine'] });
  // The library brings a window of its own.
  vi.stubGlobal('window', new EventTarget());
  const host = excelHost();
  await host.build(
    planWorkbook(farm, { formulas: 'plain' }),
    () => undefined,
    new AbortController().signal,
  );
  excel.file.bytes = Uint8Array.from(fileOf(farm, 'plain'));
  const told = vi.fn();
  host.onChange(told);
  const draft: BookDraft = new BookDraft(
    await openFarm(host),
    async (cells) => {
      await typeInto(host, cells);
      draft.follow(await openFarm(host));
    },
    (says) => expect(says).toBe(''),
  );
  const cellOf = async (path: string) => {
    const place = (await openFarm(host)).reading.places.get(path);
    if (!place) throw new Error(`no cell for ${path}`);
    return { sheet: place.sheet, address: cellAddress(place.row, place.column) };
  };
  const cells = (): Map<string, unknown> =>
    new Map(
      excel.workbook.sheets.flatMap(({ name, cells: all }) =>
        [...all].map(([key, { formula }]): [string, unknown] => [`${name} ${key}`, formula]),
      ),
    );
  return { excel, host, draft, told, cellOf, cells };
}

afterEach(() => vi.unstubAllGlobals());

it('shows what the cells say, and types into them', async () => {
  const { excel, host, draft, told, cellOf, cells } = await opened();
  expect(await host.holdsPlan()).toBe(true);
  const volume = await cellOf('tanks[0].volume');
  const total = await cellOf('water.total');
  // From now on the file cannot be read: only what was edited is looked at.
  excel.file.failAtStep = 0;

  await excel.type(volume.sheet, volume.address, 333);
  expect(told).toHaveBeenCalledTimes(1);
  expect(draft.get('tanks[0].volume')).not.toBe(333);
  draft.follow(await openFarm(host));
  expect(draft.get('tanks[0].volume')).toBe(333);
  // 1 US gallon is 231 cubic inches of 2.54 cm each (NIST Handbook 44, appendix C).
  expect(draft.check().farm?.tanks[0]?.volume).toBeCloseTo(333 * 231 * 2.54 ** 3 * 1e-3, 6);

  const before = cells();
  draft.set('tanks[0].volume', 444);
  expect(cells()).toEqual(before);
  draft.finished(['tanks[0].volume']);
  await settled();
  await settled();
  const differing = [...cells()].filter(([key, one]) => before.get(key) !== one);
  expect(differing.map(([, one]) => one)).toEqual([444]);
  expect(excel.workbook.cell(volume.sheet, volume.address)?.value).toBe(444);
  expect(draft.get('tanks[0].volume')).toBe(444);

  // What cannot be read is said beside its field, which shows no figure of before.
  await excel.type(total.sheet, total.address, 'plenty');
  draft.follow(await openFarm(host));
  const { farm: read, wrong } = draft.check();
  expect(read).toBeUndefined();
  expect(wrong).toMatchObject([{ path: 'water.total', where: total }]);
  expect(wrong[0]?.sentence).toMatch(/^Must be a number .*; got "plenty"/);
  expect(draft.shown('water.total')).toBe('plenty');

  // Cells that have moved, and whatever no edit tells of, want the whole file.
  await excel.edited('Tanks', '7:7', 'RowInserted');
  await expect(openFarm(host)).rejects.toThrow('no file at step 0');
  excel.file.failAtStep = -1;
  await openFarm(host);
  excel.file.failAtStep = 0;
  await openFarm(host);
  const calls = told.mock.calls.length;
  window.dispatchEvent(new Event('focus'));
  expect(told).toHaveBeenCalledTimes(calls + 1);
  await expect(openFarm(host)).rejects.toThrow('no file at step 0');
});
