import { beforeAll, describe, expect, it } from 'vitest';
import { computedValues } from '../../src/engine/engine';
import { Recalculation } from '../../src/engine/recalculation';
import { openTraced } from '../../src/ooxml/open-book';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import {
  BookCells,
  type CellPlace,
  placeText,
  type SnapshotValue,
} from '../../src/plan/book-snapshot';
import { planWorkbook } from '../../src/plan/plan';
import { explainCell, type AskedBook, type Step } from '../../src/why/explain-cell';
import { leafOf } from '../../src/why/leaf';
import { storedEvaluation } from '../../src/why/stored-evaluation';
import { planFacts } from '../../src/why/plan-facts';
import { filledCells, keyOf, tracedCell } from '../../src/why/traced-cells';
import { sampleFarm } from '../tools/farms';
import { few, howMany } from '../tools/how-many';

/** Conditions and picks that are computed a second time. */
const SAMPLE = howMany(200, 600);

const plans = few(2, [
  ['live', 'larkfield-school'],
  ['plain', 'larkfield-school'],
  ['live', 'quillwater'],
  ['plain', 'quillwater'],
] as const);

describe.each(plans)('every computed cell of the %s plan of %s', (formulas, name) => {
  const steps = new Map<string, Step>();
  const evaluated = new Map<
    string,
    { value: SnapshotValue | undefined; at: CellPlace; formula: string }
  >();
  let book: AskedBook;
  let everyCell: CellPlace[] = [];
  let computed: CellPlace[] = [];

  beforeAll(() => {
    const model = planWorkbook(sampleFarm(name), { formulas });
    const snapshot = openTraced(writeXlsx(model, computedValues(model)));
    const cells = new BookCells(snapshot);
    const all = model.sheets.flatMap(({ name, rows }) =>
      filledCells(
        {
          sheet: name,
          area: { row: 0, column: 0, rows: rows.length, columns: cells.width(name) },
        },
        cells,
      ),
    );
    const stored = storedEvaluation(cells);
    book = {
      cells,
      facts: planFacts(snapshot),
      evaluate: (formula, at) => {
        const key = `${at.sheet}!${formula}`;
        const known = evaluated.get(key);
        if (known) return known.value;
        const value = stored(formula, at);
        evaluated.set(key, { value, at, formula });
        return value;
      },
    };
    everyCell = all;
    computed = all.filter(({ formula }) => formula !== undefined);
    for (const place of computed) {
      const step = explainCell(place, book);
      if (step) steps.set(keyOf(place), step);
    }
  });

  it('is explained, without dangling references', () => {
    expect(computed.length).toBeGreaterThan(name === 'quillwater' ? 7_000 : 3_000);
    expect(steps.size).toBe(computed.length);
    expect([...steps.values()].filter(({ lost }) => lost.length > 0)).toEqual([]);
    expect(
      [...steps.values()].filter(({ label }) => label === '').map(({ where }) => where),
    ).toEqual([]);
  });

  it('rests on other cells, on a function with its source, or on what its formula says itself', () => {
    const bare = [...steps.values()].filter(
      ({ formula, reads, calls, rests }) =>
        // A word or a figure alone is its own end.
        !/^(?:"[^"]*"|-?[\d.]+)$/.test(formula) && reads.length + calls.length + rests.length === 0,
    );
    expect(bare.map(({ where, formula }) => `${where} ${formula}`)).toEqual([]);
    const sourceless = [...steps.values()].flatMap(({ calls, rests }) =>
      [...calls.map(({ card }) => card), ...rests].filter(({ sources }) => sources.length === 0),
    );
    expect(sourceless).toEqual([]);
  });

  it('leads down to typed cells, words and tables, without circles', () => {
    const state = new Map<string, 'open' | 'done'>();
    const circles: string[] = [];
    const ends = new Map<string, number>();
    const visit = (place: CellPlace): void => {
      const key = keyOf(place);
      if (state.get(key) === 'done') return;
      if (state.get(key) === 'open') {
        circles.push(placeText(place));
        return;
      }
      state.set(key, 'open');
      const step = steps.get(key);
      if (!step) {
        const cell = tracedCell(place, book.cells);
        const { kind } = leafOf(cell, book.cells, book.facts.typed);
        ends.set(kind, (ends.get(kind) ?? 0) + 1);
      } else {
        for (const { area } of step.reads) filledCells(area, book.cells).forEach(visit);
      }
      state.set(key, 'done');
    };
    computed.forEach(visit);
    expect(circles).toEqual([]);
    for (const kind of ['typed', 'preset', 'table'])
      expect(ends.get(kind), kind).toBeGreaterThan(10);
  });

  it('explains the same from stored values as from computed ones', () => {
    const all = [...evaluated.values()].filter(({ value }) => value !== undefined);
    const step = Math.ceil(all.length / SAMPLE);
    const some = all.filter((_, i) => i % step === 0);
    expect(some.length).toBeGreaterThan(SAMPLE / 2);
    const engine = new Recalculation(book.cells, everyCell);
    const other = some.flatMap(({ value, at, formula }) => {
      const computed = engine.evaluate(formula, at);
      // A block of cells is no value.
      if (computed === undefined) return [];
      const same =
        typeof value === 'number' && typeof computed === 'number'
          ? Math.abs(value - computed) <= 1e-9 * Math.max(1, Math.abs(computed))
          : value === computed;
      return same ? [] : [`${placeText(at)} ${formula}: ${String(value)}, not ${String(computed)}`];
    });
    expect(other).toEqual([]);
  });

  it('says who published the figures of the table', () => {
    const { cells, facts } = book;
    const kinds = [...steps.values()].flatMap(({ reads }) => reads.map(({ kind }) => kind));
    expect(kinds.some((kind) => kind.startsWith('from the table Species: '))).toBe(true);
    const lettuce = cells.name('Crop_feed_ratio');
    const row = { sheet: 'Crops', row: lettuce?.area.row ?? 0, column: lettuce?.area.column ?? 0 };
    expect(leafOf(cells.at(row), cells, facts.typed).says).toMatch(/^from the table Crops: .{10}/);
  });
});
