import { type AstExpression, parse, tokenize } from '@borgar/fx';

const expressions = new Map<string, AstExpression>();

/** The tree of an expression; each text is taken apart once. */
export function expressionOf(text: string): AstExpression {
  const known = expressions.get(text);
  if (known) return known;
  const tree = parse(tokenize(text, { mergeRefs: true })) as AstExpression;
  expressions.set(text, tree);
  return tree;
}

/** Every name in an expression, in order, with repeats. */
export function namesIn(tree: AstExpression): string[] {
  if (tree.type === 'ReferenceIdentifier') return [tree.value];
  const parts = 'arguments' in tree ? (tree.arguments as readonly AstExpression[]) : [];
  return parts.flatMap(namesIn);
}
