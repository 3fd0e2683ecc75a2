import {
  ConditionalNode,
  ConstantNode,
  FunctionNode,
  type MathNode,
  OperatorNode,
  parse,
  SymbolNode,
} from 'mathjs';
import temml from 'temml';
import { expressionOf } from '../functions/expression';
import { factName, type Formula } from '../functions/formula';
import { unitWord } from '../functions/unit-word';
import { mathTree } from './formula-tree';

const GREEK = ['pi', 'phi', 'delta', 'omega', 'lambda', 'theta', 'epsilon', 'rho', 'mu'];
/** Arguments that are written otherwise by hand. */
const byHand: Readonly<Record<string, string>> = { ph: 'pH', tan: 'TAN' };

/**
 * A symbol of several letters stands upright; digits at its end, and whatever follows a single letter
 * and "_", as an index: NH3, W1, P_v. Other names are words: oxygen_day, crop.bed_days.
 */
function symbolTex(symbol: string): string {
  const name = factName(symbol)?.[1] ?? byHand[symbol] ?? symbol;
  if (GREEK.includes(name)) return `\\${name} `;
  const match = /^([A-Za-z]+)(\d+)$/.exec(name) ?? /^([A-Za-z])_(\w+)$/.exec(name);
  const [, letters = name, index] = match ?? [];
  // The space parts it from a command before it (\cdot T).
  const upright =
    letters.length === 1 ? ` ${letters}` : `\\text{${unitWord(letters.replaceAll('_', ' '))}}`;
  return index === undefined
    ? upright
    : `${upright}_{${index.length === 1 ? index : `\\text{${index}}`}}`;
}

/** As it would be written by hand: 0.000022 as a power of ten, 157570.1 in full. */
function numberTex(value: number): string {
  const inFull = value === 0 || (value >= 1e-4 && value < 1e9);
  const text = inFull ? String(value) : value.toExponential();
  return text.replace(/e\+?(-?\d+)$/, ' \\cdot 10^{$1}');
}

const words = (text: string): string => `\\text{${text}}`;

/** What is no operator in mathematics, in words and signs. */
const functionTex: Readonly<Record<string, (...args: string[]) => string>> = {
  leftOut: (name = '') => `${name}${words(' is left out')}`,
  given: (name = '') => `${name}${words(' is given')}`,
  isNumber: (name = '') => `${name}${words(' is a number')}`,
  same: (one = '', other = '') => `${one} = ${other}`,
  roundUpToWhole: (amount = '') => `\\left\\lceil ${amount} \\right\\rceil `,
  roundDownToWhole: (amount = '') => `\\left\\lfloor ${amount} \\right\\rfloor `,
  floor: (amount = '') => `\\left\\lfloor ${amount} \\right\\rfloor `,
  joined: (one = '', other = '') => `${one}\\,${other}`,
  noAnswer: () => words('no answer'),
  along: (block = '', x = '') => `${block}\\left(${x}\\right)`,
  negativeBinomialQuantile: (sure = '', wanted = '', share = '') =>
    `${words('NB')}^{-1}\\left(${sure};\\, ${wanted},\\, ${share}\\right)`,
  exp: (power = '') => `\\exp\\left(${power}\\right)`,
  acos: (x = '') => `\\arccos\\left(${x}\\right)`,
  asin: (x = '') => `\\arcsin\\left(${x}\\right)`,
};

/** IFs in IFs as one list of cases. */
function casesTex(node: ConditionalNode, options: object): string {
  const lines: string[] = [];
  let rest: MathNode = node;
  while (rest instanceof ConditionalNode) {
    lines.push(`${rest.trueExpr.toTex(options)} & ${words('if ')}${rest.condition.toTex(options)}`);
    rest = rest.falseExpr;
  }
  lines.push(`${rest.toTex(options)} & ${words('otherwise')}`);
  return `\\begin{cases}${lines.join(' \\\\ ')}\\end{cases}`;
}

/** What mathjs would set otherwise; also 1/3 as an exponent on one line, where a fraction is too small to read. */
function handler(node: MathNode, options: object): string | undefined {
  if (node instanceof SymbolNode) return symbolTex(node.name);
  if (node instanceof ConstantNode) {
    if (typeof node.value === 'number') return numberTex(node.value);
    return typeof node.value === 'string' ? words(`“${node.value}”`) : undefined;
  }
  if (node instanceof ConditionalNode) return casesTex(node, options);
  if (node instanceof FunctionNode) {
    const name = (node.fn as SymbolNode).name;
    const known = functionTex[name];
    if (known) return known(...node.args.map((arg) => arg.toTex(options)));
    return undefined;
  }
  if (!(node instanceof OperatorNode)) return undefined;
  const args = node.args as MathNode[];
  if (node.fn === 'and' || node.fn === 'or') {
    return args.map((arg) => arg.toTex(options)).join(words(` ${node.fn} `));
  }
  const [base, power] = args;
  if (node.op !== '^' || !(power instanceof OperatorNode) || power.op !== '/') return undefined;
  if (!(base instanceof SymbolNode)) return undefined;
  const [above, below] = power.args as MathNode[];
  return `${base.toTex(options)}^{${above?.toTex(options)}/${below?.toTex(options)}}`;
}

const tex = (node: MathNode): string =>
  node.toTex({ parenthesis: 'auto', implicit: 'show', handler });

const display = (formula: string): string =>
  `<p class="formula" tabindex="0">${temml.renderToString(formula, { displayMode: true, throwOnError: true })}</p>`;

/** One symbol by itself, for the legend of a formula. */
export const symbolMathml = (name: string): string =>
  temml.renderToString(symbolTex(name), { throwOnError: true });

/** Sets a card's formula as MathML, which browsers draw without help: an equation for the result and for each step. */
export const formulaMathml = (formula: Formula): string =>
  Object.entries(formula)
    .map(([name, text]) => display(`${symbolTex(name)} = ${tex(mathTree(expressionOf(text)))}`))
    .join('\n');

/** The same for equations in mathjs syntax ("W = F * d; F = m * a"). */
export const equationsMathml = (equations: string): string =>
  equations
    .split(';')
    .map((equation) => equation.trim())
    .filter(Boolean)
    .map((equation) =>
      display(
        equation
          .split(/(?<![<>=!])=(?!=)/)
          .map((side) => tex(parse(side)))
          .join(' = '),
      ),
    )
    .join('\n');
