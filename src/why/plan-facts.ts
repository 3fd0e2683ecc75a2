import { tokenize } from '@borgar/fx';
import { NAMESPACE } from '../functions/card-list';
import type { Card } from '../functions/card';
import { mayCallGill } from '../functions/gill-calls';
import { type Basis, keepingBasis } from '../plan/basis';
import { BookCells, type BookSnapshot } from '../plan/book-snapshot';
import { findTyped } from '../plan/find-typed';
import { planWorkbook } from '../plan/plan';
import { presetOf } from '../plan/presets';
import { toShown } from '../plan/quantities';
import { NoPlanFound, readBook } from '../plan/read-book';
import { typedOfPlan } from '../plan/typed-of-plan';
import type { WorkbookModel } from '../plan/workbook-model';
import type { TypedKind } from './leaf';
import { keyOf } from './traced-cells';

/** What is known of a workbook beyond its cells, where it holds a plan. */
export interface PlanFacts {
  /** Cells that the plan has somebody type, by `keyOf`. */
  readonly typed: ReadonlyMap<string, TypedKind>;
  /** A formula in which functions that are written out stand as calls again, and what else it rests on. */
  readonly recovered: (formula: string) => Recovered;
  /** What could not be found out, in sentences. */
  readonly notes: readonly string[];
}

export interface Recovered {
  readonly formula: string;
  /** Cards that were written out and are calls again. */
  readonly calls: ReadonlySet<Card>;
  /** Cards of which only a step, or figures, stand in the formula. */
  readonly rests: readonly Card[];
}

const KEY = 12;

/** Finds the texts that stand for functions inside formulas. */
class Recovery {
  private readonly byStart = new Map<string, Basis[]>();

  constructor(basis: readonly Basis[]) {
    for (const entry of basis) {
      if (entry.text.length < KEY) continue;
      const start = entry.text.slice(0, KEY);
      const list = this.byStart.get(start);
      if (list) list.push(entry);
      else this.byStart.set(start, [entry]);
    }
    for (const list of this.byStart.values()) list.sort((a, b) => b.text.length - a.text.length);
  }

  private at(formula: string, place: number): Basis | undefined {
    return this.byStart
      .get(formula.slice(place, place + KEY))
      ?.find(({ text }) => formula.startsWith(text, place));
  }

  recovered(formula: string): Recovered {
    const calls = new Set<Card>();
    const rests = new Set<Card>();
    let out = '';
    for (let i = 0; i < formula.length; i++) {
      const found = this.at(formula, i);
      if (!found) {
        out += formula[i];
      } else if (found.args) {
        calls.add(found.card);
        const args = found.args.map((arg) => this.recovered(arg));
        for (const arg of args) {
          for (const card of arg.calls) calls.add(card);
          for (const card of arg.rests) rests.add(card);
        }
        out += `${NAMESPACE}.${found.card.id}(${args.map((arg) => arg.formula).join(',')})`;
        i += found.text.length - 1;
      } else {
        rests.add(found.card);
        out += formula[i];
      }
    }
    return { formula: out, calls, rests: [...rests] };
  }
}

/** Formulas as the plan writes them, whatever quotes and blanks another program put in. */
const asWritten = (formula: string): string =>
  tokenize(formula, { mergeRefs: true })
    .filter(({ type }) => type !== 'whitespace' && type !== 'newline')
    .map(({ value }) => value)
    .join('');

const nothing: PlanFacts = {
  typed: new Map(),
  recovered: (formula) => ({ formula, calls: new Set(), rests: [] }),
  notes: [],
};

/** Whether the first call of a plan stands in its place. */
function isLive({ sheets }: WorkbookModel, cells: BookCells): boolean {
  for (const { name, rows } of sheets) {
    for (const [row, line] of rows.entries()) {
      const column = line.findIndex((cell) => mayCallGill(cell?.formula ?? ''));
      if (column >= 0) return mayCallGill(cells.at({ sheet: name, row, column }).formula ?? '');
    }
  }
  return false;
}

/** What a plan's own declarations say of its workbook; of any other workbook nothing. */
export function planFacts(book: BookSnapshot): PlanFacts {
  const cells = new BookCells(book);
  let reading: ReturnType<typeof readBook>;
  try {
    reading = readBook(cells);
  } catch (problem) {
    if (problem instanceof NoPlanFound) return nothing;
    throw problem;
  }
  const { units, farm, faults } = reading;
  const typed = new Map<string, TypedKind>();
  const found = findTyped(cells, typedOfPlan(units), '');
  for (const { typed: declared, cell } of found.figures) {
    if (!cell || cell.formula !== undefined) continue;
    if ('farm' in declared.to) typed.set(keyOf(cell), { isPreset: false });
    else {
      const preset = presetOf(declared.to.preset);
      const usual =
        'quantity' in preset && preset.usual !== undefined
          ? toShown(preset.usual, preset.quantity, units)
          : preset.usual;
      typed.set(keyOf(cell), { isPreset: true, ...(usual !== undefined && { usual }) });
    }
  }
  for (const { rows } of found.registers) {
    for (const cell of rows.flatMap((row) => row.cells)) {
      if (cell && cell.formula === undefined) typed.set(keyOf(cell), { isPreset: false });
    }
  }
  if (!farm) {
    return {
      ...nothing,
      typed,
      notes: [
        `The farm cannot be read from this plan (${faults[0]?.says ?? 'a typed cell is wrong'}), so that formulas are shown without the functions that they say in plain form.`,
      ],
    };
  }
  const live = keepingBasis(() => planWorkbook(farm, { formulas: 'live' }));
  // A live plan has no functions written out beside the steps that it shares with the plain one.
  const bases = isLive(live.made, cells)
    ? live.basis
    : [...keepingBasis(() => planWorkbook(farm, { formulas: 'plain' })).basis, ...live.basis];
  for (const { name, rows } of live.made.sheets) {
    rows.forEach((line, row) =>
      line.forEach((planCell, column) => {
        const value = planCell?.formula === undefined ? planCell?.value : undefined;
        if (typeof value !== 'number') return;
        const cell = cells.at({ sheet: name, row, column });
        const key = keyOf(cell);
        if (!typed.has(key) && cell.formula === undefined && cell.value === value)
          typed.set(key, { isPreset: false, isWorking: true });
      }),
    );
  }
  const recovery = new Recovery(bases);
  return {
    typed,
    recovered: (formula) => recovery.recovered(asWritten(formula)),
    notes: [],
  };
}
