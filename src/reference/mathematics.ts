import { type MathNode, parse } from 'mathjs';
import temml from 'temml';

const GREEK = ['pi', 'phi', 'delta', 'omega', 'lambda'];

/** A symbol of several letters stands upright, digits at its end as an index: NH3, W1, TGC. */
function symbolTex(name: string): string {
  if (GREEK.includes(name)) return `\\${name} `;
  const match = /^([A-Za-z]+?)_?(\d+)?$/.exec(name);
  if (!match) return `\\text{${name.replaceAll('_', ' ')}}`;
  const letters = match[1] ?? '';
  // The space parts it from a command before it (\cdot T).
  const upright = letters.length === 1 ? ` ${letters}` : `\\mathrm{${letters}}`;
  return match[2] ? `${upright}_{${match[2]}}` : upright;
}

const handler = (node: MathNode): string | undefined =>
  'isSymbolNode' in node && node.isSymbolNode && 'name' in node
    ? symbolTex(String(node.name))
    : undefined;

const sideTex = (side: string): string =>
  parse(side).toTex({ parenthesis: 'auto', implicit: 'show', handler });

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
