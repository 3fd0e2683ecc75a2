/**
 * Leaves in the cards what a call needs. Excel waits for the functions of a workbook that is being opened; what a
 * person reads of a card (sources, examples, cautions, formula) comes with the pane.
 */
import ts from 'typescript';

/** The layer of the modules that Excel waits for. */
export const CALLS = 'calls';

/** The properties of `CalledCard`. */
const KEPT = ['id', 'parameters', 'columns', 'compute', 'spill'];

const isCardCall = (node) =>
  ts.isCallExpression(node) &&
  ts.isIdentifier(node.expression) &&
  ['card', 'spillCard'].includes(node.expression.text);

/** A webpack loader. What a property is cut out of stays as it was typed. */
export default function calledCards(source) {
  const file = ts.createSourceFile('cards.ts', source, ts.ScriptTarget.Latest);
  const cuts = [];
  const visit = (node) => {
    const [spec] = isCardCall(node) ? node.arguments : [];
    if (!spec) return ts.forEachChild(node, visit);
    if (!ts.isObjectLiteralExpression(spec)) {
      throw new Error(`A card is declared by an object that is written out: ${node.getText(file)}`);
    }
    for (const property of spec.properties) {
      const name = property.name?.getText(file);
      if (name === undefined) {
        throw new Error(`A card is declared property by property: ${property.getText(file)}`);
      }
      if (!KEPT.includes(name)) cuts.push([property.getFullStart(), property.getEnd()]);
    }
  };
  visit(file);
  let text = '';
  let from = 0;
  for (const [start, end] of cuts) {
    text += source.slice(from, start);
    // The comma behind it goes, too.
    from = end + (/^\s*,/.exec(source.slice(end))?.[0].length ?? 0);
  }
  return text + source.slice(from);
}
