import { CompiledFormula } from '@odoo/o-spreadsheet';
import type { SharedFormulaParts } from './shared-formula-parts';

type Getters = Parameters<typeof CompiledFormula.Compile>[2];
type Ranges = CompiledFormula['rangeDependencies'];
type Range = Ranges[number];

/** A formula as the library takes it apart. */
export interface TakenApart {
  /** What it has in common with those that differ by their references alone. */
  readonly alike: CompiledFormula;
  readonly ranges: Ranges;
}

/** A reference to a cell or a block, with its sheet; and before it what only looks like one: texts in quotes. */
const PARTS =
  /"(?:[^"]|"")*"|'(?:[^']|'')*'(?!!)|(?<![\w.$'"!#@\]])((?:(?:'(?:[^']|'')+'|[A-Za-z_][\w.]*)!)?\$?[A-Z]{1,2}\$?[1-9]\d{0,5}(?::\$?[A-Z]{1,2}\$?[1-9]\d{0,5})?)(?![\w.(!:#'])/g;

/** Templates as long as a formula of some workbook is of their kind: the next workbook's are mostly the same. */
const inUse = new Map<string, WeakRef<CompiledFormula>>();

const isSame = (a: Range | undefined, b: Range | undefined): boolean =>
  JSON.stringify(a) === JSON.stringify(b);

/**
 * Formulas that differ by their references alone, as those of a column do, are taken apart once. What the references of
 * such a formula are is held against what the library found in the first of them; where it found others, each formula
 * of the kind is left to the library.
 */
export class FormulaTemplates {
  private readonly unlike = new Set<string>();
  private readonly ranges = new Map<string, Range>();

  constructor(private readonly shared: SharedFormulaParts) {}

  takeApart(text: string, sheetId: string, getters: Getters): TakenApart {
    const references: string[] = [];
    const key = text.replaceAll(PARTS, (part, reference?: string) => {
      if (reference === undefined) return part;
      references.push(reference);
      return reference.includes(':') ? '\u0001R' : '\u0001C';
    });
    if (this.unlike.has(key)) return this.byLibrary(text, sheetId, getters);
    const template = inUse.get(key)?.deref();
    const ranges = references.map((reference) => this.range(reference, sheetId, getters));
    if (template) return { alike: template, ranges };
    const first = this.byLibrary(text, sheetId, getters);
    const isAlike =
      !first.alike.isBadExpression &&
      first.ranges.length === ranges.length &&
      first.ranges.every((range, i) => isSame(range, ranges[i]));
    if (isAlike) inUse.set(key, new WeakRef(first.alike));
    else this.unlike.add(key);
    return first;
  }

  private byLibrary(text: string, sheetId: string, getters: Getters): TakenApart {
    const compiled = CompiledFormula.Compile(text, sheetId, getters);
    return {
      alike: compiled.isBadExpression ? compiled : this.shared.share(compiled),
      ranges: this.shared.rangesOf(compiled),
    };
  }

  /** The same range for each formula that names it. */
  private range(reference: string, sheetId: string, getters: Getters): Range {
    const key = `${sheetId} ${reference}`;
    const known = this.ranges.get(key);
    if (known) return known;
    const written = { rangeDependencies: [getters.getRangeFromSheetXC(sheetId, reference)] };
    const [range] = this.shared.rangesOf(written) as [Range];
    this.ranges.set(key, range);
    return range;
  }

  /** Once all formulas are there: later their references may stand for something else. */
  forget(): void {
    this.unlike.clear();
    for (const [key, template] of inUse) if (!template.deref()) inUse.delete(key);
    this.ranges.clear();
    this.shared.forgetRanges();
  }
}
