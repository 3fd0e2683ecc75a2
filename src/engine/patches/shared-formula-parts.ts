interface Zone {
  readonly top: number;
  readonly left: number;
  readonly bottom?: number | undefined;
  readonly right?: number | undefined;
  readonly hasHeader?: boolean;
}

interface Range {
  readonly sheetId: string;
  readonly prefixSheet?: boolean;
  readonly invalidSheetName?: string;
  readonly invalidXc?: string;
  readonly zone: Zone;
  readonly unboundedZone: Zone;
  readonly parts: readonly { readonly colFixed: boolean; readonly rowFixed: boolean }[];
}

/** What the library takes a formula apart into. */
interface Parts {
  readonly tokens: readonly { readonly type: string; readonly value: string }[];
  readonly symbols: readonly string[];
  readonly literalValues: object;
  readonly normalizedFormula: string;
  readonly rangeDependencies: readonly Range[];
}

/** Further to the right, or of a sheet that is not there, ranges are not worth looking for. */
const MAX_COLUMN = 2 ** 10;

/**
 * Formulas that differ by the cells they read alone, as those of a column do, share what the library takes them
 * apart into, and formulas that read the same cell share what says so. It shares the same itself where it copies a
 * formula with other cells.
 */
export class SharedFormulaParts {
  private readonly tokens = new Map<string, Pick<Parts, 'tokens' | 'symbols'>>();
  private readonly alike = new Map<string, Map<string, object>>();
  private readonly fixed = new Map<
    string,
    { readonly parts: Range['parts']; readonly id: number }
  >();
  private readonly literals = new Map<string, Parts['literalValues']>();
  /** Ranges of one cell by their sheet. */
  private readonly ranges = new Map<string, Map<number, Range>>();

  /** An earlier formula like one that was just compiled, which may read other cells; or itself. */
  share<Formula extends object>(compiled: Formula): Formula {
    const formula = compiled as unknown as Parts;
    const { tokens, symbols, literalValues, normalizedFormula } = formula;
    // The tokens of a cell and of a block are the same, what is done with them is not.
    const written = tokens.map(({ type, value }) => `${type} ${value}`).join('|');
    const key = `${normalizedFormula} ${written}`;
    const values = JSON.stringify(literalValues);
    let alike = this.alike.get(key);
    if (!alike) this.alike.set(key, (alike = new Map()));
    const known = alike.get(values);
    if (known) return known as Formula;
    alike.set(values, compiled);
    const shared = this.tokens.get(key);
    if (shared) Object.assign(formula, shared);
    else this.tokens.set(key, { tokens, symbols });
    const literals = this.literals.get(values);
    if (literals) Object.assign(formula, { literalValues: literals });
    else this.literals.set(values, literalValues);
    return compiled;
  }

  /** What a formula reads. */
  rangesOf<Ranges>({ rangeDependencies }: { readonly rangeDependencies: Ranges }): Ranges {
    const ranges = rangeDependencies as unknown as readonly Range[];
    return ranges.map((range) => this.shareOf(range)) as unknown as Ranges;
  }

  /** Once all formulas are there. */
  forgetRanges(): void {
    this.ranges.clear();
  }

  /** Which parts of a reference stand behind a "$": there are few kinds. A range that has ends has them once. */
  private shareOf(range: Range): Range {
    const key = range.parts.map(({ colFixed, rowFixed }) => `${colFixed} ${rowFixed}`).join('|');
    let fixed = this.fixed.get(key);
    if (fixed) Object.assign(range, { parts: fixed.parts });
    else this.fixed.set(key, (fixed = { parts: range.parts, id: this.fixed.size }));
    const { zone, unboundedZone: given } = range;
    const isBounded =
      zone.left === given.left &&
      zone.top === given.top &&
      zone.right === given.right &&
      zone.bottom === given.bottom &&
      given.hasHeader === undefined;
    if (!isBounded) return range;
    Object.assign(range, { unboundedZone: zone });
    const isOneCell = zone.left === zone.right && zone.top === zone.bottom;
    const isKnown = range.invalidSheetName === undefined && range.invalidXc === undefined;
    return isOneCell && isKnown && zone.left >= 0 && zone.left < MAX_COLUMN
      ? this.sameCell(range, fixed.id)
      : range;
  }

  private sameCell(range: Range, kind: number): Range {
    const { sheetId, zone, prefixSheet } = range;
    let ofSheet = this.ranges.get(sheetId);
    if (!ofSheet) this.ranges.set(sheetId, (ofSheet = new Map()));
    const place = zone.top * MAX_COLUMN + zone.left;
    const id = (place * 32 + kind) * 2 + (prefixSheet === true ? 1 : 0);
    const known = ofSheet.get(id);
    if (!known) ofSheet.set(id, range);
    return known ?? range;
  }
}
