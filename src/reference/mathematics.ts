import {
  ConstantNode,
  type MathNode,
  OperatorNode,
  ParenthesisNode,
  parse,
  SymbolNode,
} from 'mathjs';
import temml from 'temml';

const GREEK = ['pi', 'phi', 'delta', 'omega', 'lambda', 'theta'];

/**
 * A symbol of several letters stands upright; digits at its end, and whatever follows a single letter
 * and "_", as an index: NH3, W1, P_v. Other names are words: oxygen_day.
 */
function symbolTex(name: string): string {
  if (GREEK.includes(name)) return `\\${name} `;
  const match = /^([A-Za-z]+)(\d+)$/.exec(name) ?? /^([A-Za-z])_(\w+)$/.exec(name);
  const [, letters = name, index] = match ?? [];
  // The space parts it from a command before it (\cdot T).
  const upright = letters.length === 1 ? ` ${letters}` : `\\text{${letters.replaceAll('_', ' ')}}`;
  return index === undefined
    ? upright
    : `${upright}_{${index.length === 1 ? index : `\\text{${index}}`}}`;
}

/** As it would be written by hand: 0.000022 as a power of ten, 157570.1 in full. */
function numberTex(value: number): string {
  const text = value >= 1e-4 && value < 1e9 ? String(value) : value.toExponential();
  return text.replace(/e\+?(-?\d+)$/, ' \\cdot 10^{$1}');
}

/** What mathjs would set otherwise; also 1/3 as an exponent on one line, where a fraction is too small to read. */
function handler(node: MathNode, options: object): string | undefined {
  if (node instanceof SymbolNode) return symbolTex(node.name);
  if (node instanceof ConstantNode && typeof node.value === 'number') return numberTex(node.value);
  if (!(node instanceof OperatorNode) || node.op !== '^') return undefined;
  const [base, power] = node.args as MathNode[];
  if (!base || !power) return undefined;
  const inner = power instanceof ParenthesisNode ? power.content : power;
  if (!(inner instanceof OperatorNode) || inner.op !== '/') return undefined;
  const [over, under] = inner.args as MathNode[];
  if (!over || !under) return undefined;
  return `${base.toTex(options)}^{${over.toTex(options)}/${under.toTex(options)}}`;
}

const sideTex = (side: string): string =>
  parse(side).toTex({ parenthesis: 'auto', implicit: 'show', handler });

/** One symbol by itself, for the legend of a formula. */
export const symbolMathml = (name: string): string =>
  temml.renderToString(symbolTex(name), { throwOnError: true });

/**
 * Sets formulas in mathjs syntax ("NH3 = TAN / (1 + 10^(pKa - pH))", several parted by ";") as MathML,
 * which browsers draw without help.
 */
export function formulaMathml(formula: string): string {
  return formula
    .split(';')
    .map((one) => one.trim())
    .filter(Boolean)
    .map((one) => {
      const tex = one
        .split(/(?<![<>=!])=(?!=)/)
        .map(sideTex)
        .join(' = ');
      return `<p class="formula" tabindex="0">${temml.renderToString(tex, { displayMode: true, throwOnError: true })}</p>`;
    })
    .join('\n');
}
