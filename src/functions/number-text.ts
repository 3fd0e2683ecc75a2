/** What a comma before three digits is: "1,250" is 1250 in one country and 1.25 in the next. */
export type Commas = 'ask' | 'thousands';

export interface NumberText {
  /** The number, or both where the text may be either. */
  readonly values: readonly [number] | readonly [whole: number, decimal: number];
  /** What stands behind it. */
  readonly rest: string;
}

/** Digits with points, commas, and spaces before groups of three. */
const NUMBER_THEN_REST =
  /^([+-]?)((?:\d+(?:[.,]\d+|[ \u00a0\u202f]\d{3}(?!\d))*\.?|[.,]\d+)(?:[eE][+-]?\d+)?)(?:\s*([^\s\d.,].*))?$/s;

const GROUPS = { ',': /^\d{1,3}(?:,\d{3})+$/, '.': /^\d{1,3}(?:\.\d{3})+$/ };

/** The values of digits without a sign; undefined where the marks are set as nobody sets them. */
function valuesOf(digits: string, commas: Commas): NumberText['values'] | undefined {
  const [mantissa = '', exponent = '0'] = digits.toLowerCase().split('e');
  const spaced = /\s/.test(mantissa);
  const marks = mantissa.replace(/\s/g, '').replace(/[^.,]/g, '');
  const compact = mantissa.replace(/\s/g, '');
  const scaled = (text: string): number => Number(`${text}e${exponent}`);
  const last = marks.at(-1) as ',' | '.' | undefined;
  if (last === undefined) return [scaled(compact)];
  const at = compact.lastIndexOf(last);
  const [before, behind] = [compact.slice(0, at), compact.slice(at + 1)];
  const decimal = (whole: string): [number] => [scaled(`${whole || '0'}.${behind || '0'}`)];
  if (marks.length === 1) {
    if (last === '.') return decimal(before);
    const isGroup = !spaced && behind.length === 3 && /^[1-9]\d{0,2}$/.test(before);
    if (commas === 'thousands') return isGroup ? [scaled(before + behind)] : undefined;
    return isGroup ? [scaled(before + behind), ...decimal(before)] : decimal(before);
  }
  if (spaced) return undefined;
  const other = last === ',' ? '.' : ',';
  if (!marks.includes(other)) {
    return GROUPS[last].test(compact) ? [scaled(compact.replaceAll(last, ''))] : undefined;
  }
  const isMixed = marks.indexOf(last) === marks.length - 1 && GROUPS[other].test(before);
  if (!isMixed || (last === ',' && commas === 'thousands')) return undefined;
  return decimal(before.replaceAll(other, ''));
}

/** Customary units of the United States, where a comma parts thousands. */
const CUSTOMARY =
  /(?:^|[^a-z])(?:gal(?:lons?)?|gp[hmd]|lbs?|pounds?|oz|ounces?|ft[23]?|feet|foot|in(?:ch(?:es)?)?|sqft|yd|yards?|acres?|cfm|(?:deg|°)? ?f|btu|psi|hp)(?:$|[^a-z])/i;

/**
 * A number as people write it, at the beginning of a text: "25.5 °C", "25,5 °C", "1,250.5 kg", "1 250 kg".
 * Undefined where it begins with none.
 */
export function numberText(text: string, commas: Commas = 'ask'): NumberText | undefined {
  const [, sign, digits, rest = ''] = NUMBER_THEN_REST.exec(text.trim()) ?? [];
  if (digits === undefined) return undefined;
  const values = valuesOf(digits, CUSTOMARY.test(rest) ? 'thousands' : commas);
  if (!values?.every(Number.isFinite)) return undefined;
  const signed = values.map((value) => (sign === '-' ? -value : value));
  return { values: signed as unknown as NumberText['values'], rest: rest.trim() };
}
