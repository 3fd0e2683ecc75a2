interface Zone {
  readonly top: number;
  readonly left: number;
  readonly bottom?: number | undefined;
  readonly right?: number | undefined;
  readonly hasHeader?: boolean;
}

interface Range {
  readonly zone: Zone;
  readonly unboundedZone: Zone;
  readonly parts: readonly { readonly colFixed: boolean; readonly rowFixed: boolean }[];
}

/** What the library takes a formula apart into. */
interface Parts {
  readonly tokens: readonly { readonly type: string; readonly value: string }[];
  readonly symbols: readonly string[];
  readonly literalValues: object;
  readonly rangeDependencies: readonly Range[];
}

/**
 * Formulas that differ by the cells they read alone, as those of a column do, share what the library takes them
 * apart into. It shares the same itself where it copies a formula with other cells.
 */
export class SharedFormulaParts {
  private readonly tokens = new Map<string, Pick<Parts, 'tokens' | 'symbols'>>();
  private readonly fixed = new Map<string, Range['parts']>();
  private readonly literals = new Map<string, Parts['literalValues']>();

  /** Has a formula that was just compiled take the parts of an earlier one like it. */
  share(compiled: object): void {
    const formula = compiled as Parts;
    const { tokens, symbols, literalValues } = formula;
    const key = tokens.map(({ type, value }) => `${type} ${value}`).join('|');
    const known = this.tokens.get(key);
    if (known) Object.assign(formula, known);
    else this.tokens.set(key, { tokens, symbols });
    const values = JSON.stringify(literalValues);
    const literals = this.literals.get(values);
    if (literals) Object.assign(formula, { literalValues: literals });
    else this.literals.set(values, literalValues);
    for (const range of formula.rangeDependencies) this.shareOf(range);
  }

  /** Which parts of a reference stand behind a "$": there are few kinds. A range that has ends has them once. */
  private shareOf(range: Range): void {
    const key = range.parts.map(({ colFixed, rowFixed }) => `${colFixed} ${rowFixed}`).join('|');
    const parts = this.fixed.get(key);
    if (parts) Object.assign(range, { parts });
    else this.fixed.set(key, range.parts);
    const { zone, unboundedZone: given } = range;
    const isBounded =
      zone.left === given.left &&
      zone.top === given.top &&
      zone.right === given.right &&
      zone.bottom === given.bottom &&
      given.hasHeader === undefined;
    if (isBounded) Object.assign(range, { unboundedZone: zone });
  }
}
