import { beforeAll, describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { handOver, type HandedOver } from '../../src/handover/hand-over';
import { computedValues } from '../../src/engine/engine';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { openBook } from '../../src/ooxml/open-book';
import { readArea } from '../../src/plan/addresses';
import type { ComputedValues } from '../../src/plan/computed-values';
import type { WorkbookModel } from '../../src/plan/workbook-model';
import { sampleFarm } from '../tools/farms';
import { few } from '../tools/how-many';
import { recalculated, type SheetValues } from '../tools/libreoffice';
import { schemaFaults } from '../tools/schema';

interface Sample {
  readonly model: WorkbookModel;
  readonly live: ComputedValues;
  readonly handed: HandedOver;
  readonly found: SheetValues;
}

const samples = new Map<string, Sample>();
const names = few(2, ['quillwater', 'larkfield-school', 'aldermoor-springs'] as const);
let model: WorkbookModel;
let live: ComputedValues;
let handed: HandedOver;
let found: SheetValues;

beforeAll(async () => {
  const made = names.map((name) => {
    const farm = name === 'quillwater' ? readFarm(demoFarm) : sampleFarm(name);
    const model = planWorkbook(farm, { formulas: 'live' });
    const live = computedValues(model);
    return { name, model, live, handed: handOver(writeXlsx(model, live)) };
  });
  const values = await recalculated(
    new Map(made.map(({ name, handed }) => [`${name}.xlsx`, handed.bytes])),
  );
  for (const { name, ...rest } of made)
    samples.set(name, { ...rest, found: values.get(`${name}.xlsx`) as SheetValues });
  ({ model, live, handed, found } = samples.get('quillwater') as Sample);
});

const same = (a: unknown, b: unknown): boolean =>
  a instanceof GillError || b instanceof GillError
    ? a instanceof GillError && b instanceof GillError
    : typeof a === 'number' && typeof b === 'number'
      ? Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a))
      : (a ?? '') === (b ?? '');

describe.each(names)('the helpers of %s, handed over', (name) => {
  it('show no error that the plan did not show, and what LibreOffice computes stands in the file', () => {
    const { handed, found, model, live } = samples.get(name) as Sample;
    const cells = openBook(handed.bytes);
    const steps = cells.sheets.find((sheet) => sheet.name === 'Steps');
    const rows = steps?.values ?? [];
    expect(rows.length).toBeGreaterThan(100);
    const wrong: string[] = [];
    rows.forEach(([from, stored], r) => {
      if (r === 0) return;
      const value = found('Steps', r, 1);
      const [sheet = '', address = ''] = String(from).split('!');
      const place = readArea(address);
      const before = place && live(sheet, place.row, place.column);
      if (value instanceof GillError && !(before instanceof GillError))
        wrong.push(`${String(from)}: ${value.code} in the helper, ${String(before)} in the plan`);
      else if (!same(value, stored))
        wrong.push(`${String(from)}: ${String(value)} computed, ${String(stored)} stored`);
    });
    for (const sheet of model.sheets) {
      sheet.rows.forEach((row, r) =>
        row.forEach((_, c) => {
          const value = found(sheet.name, r, c);
          if (value instanceof GillError && !(live(sheet.name, r, c) instanceof GillError))
            wrong.push(`${sheet.name} ${r},${c}: ${value.code}`);
        }),
      );
    }
    expect(wrong).toEqual([]);
  });
});

describe('the live demo plan, handed over', () => {
  it('turns every GILL formula into a plain one', () => {
    expect(handed.turned.length).toBeGreaterThan(100);
    expect(handed.turned.filter((turned) => turned.became !== 'formula')).toEqual([]);
  });

  it('shows the same in every computed cell once LibreOffice has recalculated it', () => {
    let compared = 0;
    const differences: string[] = [];
    for (const sheet of model.sheets) {
      sheet.rows.forEach((row, r) =>
        row.forEach((cell, c) => {
          if (cell?.formula === undefined) return;
          const expected = live(sheet.name, r, c);
          const value = found(sheet.name, r, c);
          compared += 1;
          if (!same(expected, value))
            differences.push(`${sheet.name} ${r},${c}: ${String(value)}, not ${String(expected)}`);
        }),
      );
    }
    expect(compared).toBeGreaterThan(1000);
    expect(differences).toEqual([]);
  });

  it('passes the schema check', () => {
    expect(schemaFaults(handed.bytes)).toBe('');
  });
});
