import { tokenize } from '@borgar/fx';
import { cards, NAMESPACE } from './card-list';

/**
 * Formulas as files store them. A custom function keeps its name there with every dot turned into an
 * underscore; spreadsheet functions younger than the file format carry a prefix. Names inside text,
 * sheet names and the like stay as they are.
 */
const STORED_PREFIX = `_xldudf_${NAMESPACE}_`;

/** Spreadsheet functions that files name with a prefix. */
const NEWER_FUNCTIONS = new Set(
  [
    'ACOT AGGREGATE ARABIC BITAND BITOR BITXOR CEILING.MATH CONCAT COVARIANCE.P COVARIANCE.S DAYS',
    'FLOOR.MATH FORECAST.LINEAR IFNA IFS ISFORMULA ISOWEEKNUM MAXIFS MINIFS MODE.MULT MODE.SNGL',
    'NORM.DIST NORM.INV NUMBERVALUE PERCENTILE.EXC PERCENTILE.INC QUARTILE.INC RANK.EQ STDEV.P STDEV.S',
    'SWITCH TEXTJOIN UNICHAR UNICODE VAR.P VAR.S XOR LET LAMBDA SEQUENCE UNIQUE XLOOKUP XMATCH',
    'TEXTBEFORE TEXTAFTER TEXTSPLIT VSTACK HSTACK TOCOL TOROW TAKE DROP RANDARRAY ANCHORARRAY SINGLE',
  ].flatMap((names) => names.split(' ')),
);
const WORKSHEET_FUNCTIONS = new Set(['FILTER', 'SORT', 'SORTBY']);

/** The name under which a file stores the function of an id. */
export const storedName = (id: string): string => `${STORED_PREFIX}${id.replaceAll('.', '_')}`;

const shownById = new Map(cards.map(({ id }) => [`${NAMESPACE}.${id}`, storedName(id)]));
const shownByStored = new Map(
  cards.map(({ id }) => [storedName(id).toUpperCase(), `${NAMESPACE}.${id}`]),
);

const MAY_NEED_STORING = new RegExp(
  `(?<![\\w.])(?:${NAMESPACE}\\.[\\w.]*|${[...NEWER_FUNCTIONS, ...WORKSHEET_FUNCTIONS].join('|').replaceAll('.', '\\.')})\\s*\\(`,
  'i',
);

/** A quick look that spares most formulas being taken apart; true as well for names that stand in a text. */
const mayNeedStoring = (formula: string): boolean => MAY_NEED_STORING.test(formula);

function rewritten(formula: string, rename: (name: string) => string): string {
  return tokenize(formula, { mergeRefs: true })
    .map(({ type, value }) => (type === 'func' ? rename(value) : value))
    .join('');
}

const MAY_CALL_GILL = new RegExp(`${NAMESPACE}\\.`, 'i');

/** Which functions a formula calls does not hang on its figures: formulas of one column are taken apart once. */
const callsByShape = new Map<string, readonly string[]>();
const MAX_SHAPES = 1000;

/** The stored names of the GILL functions that a formula (without "=") calls, each once. */
export function storedCalls(formula: string): readonly string[] {
  if (!MAY_CALL_GILL.test(formula)) return [];
  // Figures of a function's own name (CO2) stay.
  const shape = formula.replace(/\d+(?!\d|\s*\()/g, '1');
  const known = callsByShape.get(shape);
  if (known) return known;
  const found = tokenize(shape, { mergeRefs: true }).flatMap(({ type, value }) => {
    const stored = type === 'func' ? shownById.get(value.toUpperCase()) : undefined;
    return stored === undefined ? [] : [stored];
  });
  const calls = [...new Set(found)];
  if (callsByShape.size >= MAX_SHAPES) callsByShape.clear();
  callsByShape.set(shape, calls);
  return calls;
}

/**
 * A formula as shown (without "=") in the form that files hold. Throws where it calls a GILL function
 * that does not exist: such a cell would never compute.
 */
export function storedFormula(formula: string): string {
  if (!mayNeedStoring(formula)) return formula;
  return rewritten(formula, (name) => {
    const upper = name.toUpperCase();
    const ours = shownById.get(upper);
    if (ours !== undefined) return ours;
    if (upper.startsWith(`${NAMESPACE}.`)) throw new Error(`There is no function ${name}`);
    if (WORKSHEET_FUNCTIONS.has(upper)) return `_xlfn._xlws.${name}`;
    return NEWER_FUNCTIONS.has(upper) ? `_xlfn.${name}` : name;
  });
}

const IS_STORED = /_xl(?:fn|dudf)/i;

/** A stored formula as a spreadsheet shows it. */
export const shownFormula = (formula: string): string =>
  IS_STORED.test(formula)
    ? rewritten(
        formula,
        (name) => shownByStored.get(name.toUpperCase()) ?? name.replace(/^_xlfn\.(_xlws\.)?/i, ''),
      )
    : formula;
