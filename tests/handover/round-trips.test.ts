import { writeXlsx as libraryWriter } from 'hucre/xlsx';
import { beforeAll, describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { storedFormula } from '../../src/functions/stored-name';
import { handOver, type HandedOver } from '../../src/handover/hand-over';
import { unpack } from '../../src/ooxml/unpack';
import { computedValues } from '../../src/engine/engine';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { openBook } from '../../src/ooxml/open-book';
import { fullAddress } from '../../src/plan/addresses';
import type { ComputedValues } from '../../src/plan/computed-values';
import { convert, recalculated, type SheetValues } from '../tools/libreoffice';
import { schemaFaults } from '../tools/schema';
import { lines, names, RECORDS, recordsModel, sums } from './records-model';

const model = recordsModel();
let live: ComputedValues;
const inputs = new Map<string, Uint8Array>();
const outputs = new Map<string, HandedOver>();
let found: Map<string, SheetValues>;

/** The same records as another program writes them. */
async function byLibrary(): Promise<Uint8Array> {
  const sheets = model.sheets.map((sheet) => {
    const cells = new Map<string, object>();
    sheet.rows.forEach((row, r) =>
      row.forEach((cell, c) => {
        if (!cell?.formula) return;
        const value = live(sheet.name, r, c);
        cells.set(`${r},${c}`, {
          type: 'formula',
          formula: storedFormula(cell.formula),
          ...(value === undefined || value instanceof GillError ? {} : { formulaResult: value }),
          ...(cell.spill && {
            formulaType: 'array',
            formulaRef: fullAddress('', {
              row: r,
              column: c,
              ...cell.spill,
            })
              .replace(/^.*!/, '')
              .replaceAll('$', ''),
            formulaDynamic: true,
          }),
        });
      }),
    );
    return {
      name: sheet.name,
      rows: sheet.rows.map((row) => row.map((cell) => cell?.value ?? null)),
      cells,
    };
  });
  const namedRanges = names.map((name) => ({
    name: name.name,
    range: fullAddress(name.sheet, name.area),
  }));
  return new Uint8Array(await libraryWriter({ sheets, namedRanges } as never));
}

beforeAll(async () => {
  live = computedValues(recordsModel('Records'));
  inputs.set('own.xlsx', writeXlsx(model, live));
  inputs.set('library.xlsx', await byLibrary());
  const saved = convert(
    new Map([['office.xlsx', inputs.get('library.xlsx') as Uint8Array]]),
    'xlsx',
    'usual',
  );
  inputs.set('office.xlsx', saved.get('office.xlsx') as Uint8Array);
  for (const [name, bytes] of inputs) outputs.set(name, handOver(bytes));
  found = await recalculated(new Map([...outputs].map(([name, made]) => [name, made.bytes])));
});

const writers = [
  ['own.xlsx', 'Gillbed’s own writer'],
  ['library.xlsx', 'a general workbook library'],
  ['office.xlsx', 'LibreOffice'],
] as const;

/** The last two have no plain form: text with a unit in a cell, and a block inside another function. */
const withPlainForm = sums.slice(0, -2);

describe.each(writers)('%s, written by %s', (file) => {
  it.each(withPlainForm.map((cell, i) => [cell.formula as string, i] as const))('%s', (_, i) => {
    const { spill } = withPlainForm[i] ?? {};
    for (let r = 0; r < (spill?.rows ?? 1); r++) {
      for (let c = 0; c < (spill?.columns ?? 1); c++) {
        const row = (lines[i] as number) + r;
        const expected = live('Sums', row, c);
        const value = found.get(file)?.('Sums', row, c);
        if (expected instanceof GillError) {
          expect(value).toBeInstanceOf(GillError);
        } else if (typeof expected === 'number') {
          expect(typeof value).toBe('number');
          expect(Math.abs((value as number) - expected)).toBeLessThanOrEqual(
            1e-9 * Math.max(1, Math.abs(expected)),
          );
        } else {
          expect(value).toBe(expected);
        }
      }
    }
  });

  it('reports what became of every formula', () => {
    const { turned } = outputs.get(file) as HandedOver;
    expect(turned).toHaveLength(sums.length);
    expect(turned.filter((turned) => turned.became === 'formula')).toHaveLength(
      withPlainForm.length,
    );
    expect(turned.at(-2)?.why).toContain('"78 degF"');
    const last = turned.at(-1);
    expect(last?.why).toContain('inside another formula');
    // LibreOffice keeps no value for a function that it does not know.
    expect(last?.became).toMatch(file === 'office.xlsx' ? /value|left/ : /value/);
  });

  it('leaves no GILL call behind', () => {
    const parts = unpack((outputs.get(file) as HandedOver).bytes);
    const sheets = [...parts].filter(([name]) => /worksheets\/[^/]+\.xml$/.test(name));
    const text = sheets.map(([, bytes]) => new TextDecoder().decode(bytes)).join('');
    // The last one keeps its call where the file held no value for it.
    const left = (outputs.get(file) as HandedOver).turned.filter(
      (turned) => turned.became === 'left',
    );
    expect(text.match(/gill[._]/gi)?.length ?? 0).toBe(left.length);
    expect(text).toContain('<f>');
  });

  it('shows no error in a helper that is caught where the helper is read', () => {
    const cells = openBook((outputs.get(file) as HandedOver).bytes);
    const helpers = cells.sheets.find(({ name }) => name === 'Steps')?.values ?? [];
    const caught = helpers.flatMap(([from, stored], row) =>
      [14, 15].map((i) => `Sums!A${(lines[i] as number) + 1}`).includes(String(from))
        ? [[stored, found.get(file)?.('Steps', row, 1)]]
        : [],
    );
    expect(caught).toEqual([
      ['no answer', 'no answer'],
      ['no answer', 'no answer'],
    ]);
  });

  it('passes the schema check where the input did', () => {
    if (schemaFaults(inputs.get(file) as Uint8Array) === '') {
      expect(schemaFaults((outputs.get(file) as HandedOver).bytes)).toBe('');
    }
  });
});

describe('what is not touched', () => {
  it('stays byte for byte: every part but those with GILL calls and what names the new sheet', () => {
    const before = unpack(inputs.get('own.xlsx') as Uint8Array);
    const after = unpack((outputs.get('own.xlsx') as HandedOver).bytes);
    const changed = [...before]
      .filter(([name, bytes]) => {
        const now = after.get(name);
        return !now || Buffer.compare(Buffer.from(bytes), Buffer.from(now)) !== 0;
      })
      .map(([name]) => name);
    expect(changed.sort()).toEqual([
      '[Content_Types].xml',
      'xl/_rels/workbook.xml.rels',
      'xl/workbook.xml',
      'xl/worksheets/sheet2.xml',
    ]);
    expect(RECORDS).toBe(model.sheets[0]?.name);
  });

  it('gives values only where values are asked for', () => {
    const { turned } = handOver(inputs.get('own.xlsx') as Uint8Array, { values: true });
    expect(turned.filter((turned) => turned.became === 'formula')).toEqual([]);
    expect(turned.filter((turned) => turned.became === 'value').length).toBeGreaterThan(
      sums.length - 3,
    );
  });

  it('gives the same bytes on every run', () => {
    const again = handOver(inputs.get('own.xlsx') as Uint8Array).bytes;
    expect(
      Buffer.compare(
        Buffer.from(again),
        Buffer.from((outputs.get('own.xlsx') as HandedOver).bytes),
      ),
    ).toBe(0);
  });
});
