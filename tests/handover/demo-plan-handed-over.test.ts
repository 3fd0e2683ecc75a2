import { beforeAll, describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { handOver, type HandedOver } from '../../src/handover/hand-over';
import { computedValues } from '../../src/engine/engine';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { recalculated, type SheetValues } from '../tools/libreoffice';
import { schemaFaults } from '../tools/schema';

const model = planWorkbook(readFarm(demoFarm), { formulas: 'live' });
const live = computedValues(model);
let handed: HandedOver;
let found: SheetValues;

beforeAll(async () => {
  handed = handOver(writeXlsx(model, live));
  const files = new Map([['demo.xlsx', handed.bytes]]);
  found = (await recalculated(files)).get('demo.xlsx') as SheetValues;
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
          const same =
            expected instanceof GillError
              ? value instanceof GillError
              : typeof expected === 'number' && typeof value === 'number'
                ? Math.abs(value - expected) <= 1e-9 * Math.max(1, Math.abs(expected))
                : (value ?? '') === (expected ?? '');
          if (!same)
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
