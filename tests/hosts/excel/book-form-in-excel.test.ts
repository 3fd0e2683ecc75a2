import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { excelHost } from '../../../src/hosts/excel/excel-host';
import { cellAddress } from '../../../src/plan/addresses';
import { planWorkbook } from '../../../src/plan/plan';
import { openFarm, typeInto } from '../../../src/sidebar/open-farm';
import { BookDraft } from '../../../src/sidebar/plan/book-draft';
import { openExcel } from '../../tools/excel-open';
import { newestSets, type Sets, settled, type Witness } from '../../tools/excel-witness';
import { sampleFarm } from '../../tools/farms';
import { few } from '../../tools/how-many';
import { fileOf } from '../../tools/there-and-back';

const farm = sampleFarm('larkfield-school');

const plan = planWorkbook(farm, { formulas: 'plain' });
const file = fileOf(farm, 'plain');

/** A plan in Excel, and the pane's form over it. */
async function opened(sets: Sets = newestSets) {
  const excel: Witness = openExcel({ sheets: ['Mine'], sets });
  // The library brings a window of its own.
  vi.stubGlobal('window', new EventTarget());
  const host = excelHost();
  await host.build(plan, () => undefined, new AbortController().signal);
  excel.file.bytes = Uint8Array.from(file);
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

describe('in the newest Excel', () => {
  let shared: Awaited<ReturnType<typeof opened>>;
  beforeAll(async () => {
    shared = await opened();
  });
  afterAll(() => vi.unstubAllGlobals());

  it('shows what the cells say, and types into them', async () => {
    const { excel, host, draft, told, cellOf, cells } = shared;
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

    // Cells that have moved want the whole file.
    await excel.edited('Tanks', '7:7', 'RowInserted');
    await expect(openFarm(host)).rejects.toThrow('no file at step 0');
    excel.file.failAtStep = -1;
    await openFarm(host);
    excel.file.failAtStep = 0;
    await openFarm(host);
  });

  it('reads the file again when somebody comes back where the workbook has changed, and only there', async () => {
    const { excel, host, told, cellOf } = shared;
    const volume = await cellOf('tanks[0].volume');
    await openFarm(host);
    const back = async (): Promise<number> => {
      told.mockClear();
      window.dispatchEvent(new Event('focus'));
      await settled();
      await settled();
      return told.mock.calls.length;
    };
    /** Whether the next look wants the file, which then is read. */
    const readsFile = async (): Promise<boolean> => {
      excel.file.failAtStep = 0;
      const answer = await openFarm(host).then(
        () => false,
        () => true,
      );
      excel.file.failAtStep = -1;
      await openFarm(host);
      return answer;
    };
    const requests = excel.requests;
    expect(await back()).toBe(0);
    // What no event tells of, names among it, is asked for in one request.
    expect(excel.requests - requests).toBe(1);
    expect(await readsFile()).toBe(false);

    // An edit is followed at once; what Excel computed after it is read when somebody comes back.
    await excel.type(volume.sheet, volume.address, 555);
    await excel.happened('Calculated', 'Tanks');
    expect(await readsFile()).toBe(false);
    expect(await back()).toBe(1);
    expect(await readsFile()).toBe(true);
    expect(await back()).toBe(0);

    excel.workbook.names.set('Pond', 'Tanks!$A$1');
    expect(await back()).toBe(1);
    expect(await readsFile()).toBe(true);
    excel.workbook.names.set('Pond', 'Tanks!$A$2');
    expect(await back()).toBe(1);
    expect(await readsFile()).toBe(true);
    expect(await back()).toBe(0);

    for (const what of few(2, ['RowSorted', 'Deleted', 'ColumnSorted', 'Added'] as const)) {
      told.mockClear();
      await excel.happened(what, 'Tanks');
      expect([what, told.mock.calls.length]).toEqual([what, 1]);
      // What was kept is gone, until somebody looks.
      expect([what, await back()]).toEqual([what, 1]);
      await openFarm(host);
      expect([what, await back()]).toEqual([what, 0]);
    }
  });
});

it('reads the file each time somebody comes back where Excel does not tell of all that happens', async () => {
  const { host, told } = await opened({ ...newestSets, ExcelApi: '1.9' });
  for (const times of [1, 2]) {
    await openFarm(host);
    window.dispatchEvent(new Event('focus'));
    expect(told).toHaveBeenCalledTimes(times);
  }
  vi.unstubAllGlobals();
});
