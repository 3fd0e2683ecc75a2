import { type MathNode, parse } from 'mathjs';
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

const handler = (node: MathNode): string | undefined =>
  'isSymbolNode' in node && node.isSymbolNode && 'name' in node
    ? symbolTex(String(node.name))
    : undefined;

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
      return `<p class="formula">${temml.renderToString(tex, { displayMode: true, throwOnError: true })}</p>`;
    })
    .join('\n');
}
