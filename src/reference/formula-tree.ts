import type { AstExpression, BinaryExpression, CallExpression } from '@borgar/fx';
import {
  ConditionalNode,
  ConstantNode,
  FunctionNode,
  type MathNode,
  OperatorNode,
  SymbolNode,
} from 'mathjs';

/**
 * A card's expression as a tree of mathjs, which sets it as TeX and computes it. What mathjs does not have
 * (`leftOut`, `given`, `isNumber`, `same`, `roundUpToWhole`, `roundDownToWhole`, `joined`, `noAnswer`, `along`, `negativeBinomialQuantile`, and functions of the
 * spreadsheet by their names) whoever computes it hands over in the scope.
 */
export function mathTree(tree: AstExpression): MathNode {
  switch (tree.type) {
    case 'Literal':
      return new ConstantNode(tree.value as number);
    case 'ReferenceIdentifier':
      return new SymbolNode(tree.value);
    case 'BinaryExpression':
      return operation(tree);
    case 'CallExpression':
      return call(tree);
    default:
      throw new Error(`No mathematics for ${tree.type}`);
  }
}

const operators = {
  '+': 'add',
  '-': 'subtract',
  '*': 'multiply',
  '/': 'divide',
  '^': 'pow',
  '<': 'smaller',
  '<=': 'smallerEq',
  '>': 'larger',
  '>=': 'largerEq',
  '=': 'equal',
  '<>': 'unequal',
} as const;
const inMathjs: Readonly<Record<string, string>> = { '=': '==', '<>': '!=' };

const ofOwn = (name: string, ...args: MathNode[]): MathNode =>
  new FunctionNode(new SymbolNode(name), args);

const isLiteral = (tree: AstExpression | undefined, value: unknown): boolean =>
  tree?.type === 'Literal' && tree.value === value;

function operation({ operator, arguments: [left, right] }: BinaryExpression): MathNode {
  const [a, b] = [left as AstExpression, right as AstExpression];
  if (operator === '=' && isLiteral(b, '')) return ofOwn('leftOut', mathTree(a));
  if (operator === '<>' && isLiteral(b, '')) return ofOwn('given', mathTree(a));
  if (operator === '=' && b.type === 'Literal' && typeof b.value === 'string') {
    return ofOwn('same', mathTree(a), mathTree(b));
  }
  if (operator === '&') return ofOwn('joined', mathTree(a), mathTree(b));
  if (operator === '-' && isLiteral(a, 0)) {
    return new OperatorNode('-', 'unaryMinus', [mathTree(b)]);
  }
  if (!(operator in operators)) throw new Error(`No mathematics for "${operator}"`);
  const known = operator as keyof typeof operators;
  return new OperatorNode((inMathjs[operator] ?? operator) as '+', operators[known] as 'add', [
    mathTree(a),
    mathTree(b),
  ]);
}

const functions: Readonly<Record<string, string>> = {
  MAX: 'max',
  MIN: 'min',
  EXP: 'exp',
  LN: 'log',
  LOG10: 'log10',
  SQRT: 'sqrt',
  MEDIAN: 'median',
  ABS: 'abs',
  SIN: 'sin',
  COS: 'cos',
  TAN: 'tan',
  ASIN: 'asin',
  ACOS: 'acos',
  ISNUMBER: 'isNumber',
  INT: 'floor',
  VALUE: 'noAnswer',
  NA: 'noAnswer',
  NO_ANSWER: 'noAnswer',
  ALONG: 'along',
  NEGBINOM_INV: 'negativeBinomialQuantile',
};

const times = (...factors: readonly [MathNode, ...MathNode[]]): MathNode =>
  factors.reduce((one, other) => new OperatorNode('*', 'multiply', [one, other]));
const over = (one: MathNode, other: MathNode): MathNode =>
  new OperatorNode('/', 'divide', [one, other]);
const PI = new SymbolNode('pi');
const HALF_TURN = new ConstantNode(180);

/** What ROUND(x, 6) holds: it takes away traces of the last digits and is no part of the mathematics. */
function withoutRoundingNoise(tree: AstExpression | undefined): MathNode | undefined {
  const isRound = tree?.type === 'CallExpression' && tree.callee.name === 'ROUND';
  return isRound && isLiteral(tree.arguments[1] as AstExpression, 6)
    ? mathTree(tree.arguments[0] as AstExpression)
    : undefined;
}

function call({ callee: { name }, arguments: args }: CallExpression): MathNode {
  const trees = args as readonly AstExpression[];
  const whole = withoutRoundingNoise(trees[0]);
  if (whole && name === 'ROUNDUP') return ofOwn('roundUpToWhole', whole);
  if (whole && name === 'INT') return ofOwn('roundDownToWhole', whole);
  const [first, second, third] = trees.map(mathTree) as [MathNode, MathNode, MathNode];
  switch (name) {
    case 'PI':
      return PI;
    case 'RADIANS':
      return over(times(first, PI), HALF_TURN);
    case 'DEGREES':
      return over(times(first, HALF_TURN), PI);
    case 'IF':
      return new ConditionalNode(first, second, third);
    case 'SWITCH':
      return choice(trees);
    case 'AND':
    case 'OR':
      return trees
        .map(mathTree)
        .reduce(
          (one, other) =>
            new OperatorNode(name === 'AND' ? 'and' : 'or', name === 'AND' ? 'and' : 'or', [
              one,
              other,
            ]),
        );
    default:
      return ofOwn(functions[name] ?? name, ...trees.map(mathTree));
  }
}

function choice([chosen, ...args]: readonly AstExpression[]): MathNode {
  const word = mathTree(chosen as AstExpression);
  const hasRest = args.length % 2 === 1;
  let rest: MathNode = hasRest ? mathTree(args.at(-1) as AstExpression) : ofOwn('noAnswer');
  for (let i = args.length - (hasRest ? 3 : 2); i >= 0; i -= 2) {
    const [is, then] = [args[i] as AstExpression, args[i + 1] as AstExpression];
    rest = new ConditionalNode(ofOwn('same', word, mathTree(is)), mathTree(then), rest);
  }
  return rest;
}
