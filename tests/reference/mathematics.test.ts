import { describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { callCard } from '../../src/functions/call';
import type { Card } from '../../src/functions/card';
import { expressionOf, namesIn } from '../../src/functions/expression';
import { type Formula, resultOf } from '../../src/functions/formula';
import { cards } from '../../src/functions/card-list';
import type { Cell } from '../../src/functions/parameter';
import { formulaMathml } from '../../src/reference/mathematics';
import { argumentGrid } from '../tools/argument-grid';
import { printedValue } from '../tools/printed-value';

type Stated = Card & { readonly formula: Formula };
const stated = cards.filter(
  (card): card is Stated => typeof card.formula === 'object' && !card.columns,
);

/** True where every argument is one that its parameter takes. */
function takesAll(card: Card, cells: readonly Cell[]): boolean {
  try {
    card.parameters.forEach((parameter, i) => {
      const cell = cells[i];
      if (!cell && (cell !== 0 || parameter.zeroIsMissing)) {
        if (!parameter.optional) throw new Error('missing');
      } else parameter.read(cell);
    });
    return true;
  } catch {
    return false;
  }
}

function printed(card: Stated, cells: readonly Cell[]): unknown {
  try {
    return printedValue(card, cells);
  } catch {
    return 'no answer';
  }
}

describe('the printed mathematics, computed, gives what the function gives', () => {
  it.each(stated.map((card) => [card.id, card] as const))('%s', (_, card) => {
    const lists = argumentGrid(card)
      .map((list) => list as readonly Cell[])
      .filter((cells) => takesAll(card, cells));
    const wrong = lists.flatMap((cells) => {
      const live = callCard(card, cells);
      const found = printed(card, cells);
      const agrees =
        typeof live === 'number'
          ? Math.abs(Number(found) - live) <= 1e-9 * Math.abs(live) + 1e-12
          : live instanceof GillError
            ? found === 'no answer' || !Number.isFinite(found)
            : true;
      return agrees ? [] : [`${JSON.stringify(cells)}: ${String(live)}, printed ${String(found)}`];
    });
    expect(wrong).toEqual([]);
    expect(lists.length).toBeGreaterThanOrEqual(card.examples.length);
  });

  it('would notice a constant that is printed differently', () => {
    const card = stated.find(({ id }) => id === 'AMMONIA.SHARE') as Stated;
    const planted = {
      ...card,
      formula: { ...(card.formula as Formula), fresh: '0.0902 + 2729.92 / (water + 273.15)' },
    };
    const cells = card.examples[0].args;
    expect(Number(printedValue(planted, cells))).not.toBeCloseTo(Number(callCard(card, cells)), 6);
  });
});

describe('a formula', () => {
  it.each(stated.map((card) => [card.id, card] as const))(
    '%s uses every step, and names no other',
    (_, card) => {
      const [result] = resultOf(card.formula);
      const used = Object.values(card.formula).flatMap((text) => namesIn(expressionOf(text)));
      const steps = Object.keys(card.formula).filter((name) => name !== result);
      expect(steps.filter((step) => !used.includes(step))).toEqual([]);
      const known = [...steps, ...card.parameters.map(({ name }) => name as string)];
      expect(used.filter((name) => !known.includes(name) && !name.includes('.'))).toEqual([]);
    },
  );

  it.each([
    ['a ceiling', { trays: 'ROUNDUP(ROUND(seeds / cells, 6), 0)' }, '⌈'],
    ['cases', { x: 'IF(ceiling = "", a, IF(b > 1, b, NO_ANSWER()))' }, 'is left out'],
    ['what gives no answer', { x: 'IF(a > b, VALUE("no"), a)' }, 'no answer'],
  ])('shows %s', (_, formula, sign) => {
    expect(formulaMathml(formula).replaceAll('\u00a0', ' ')).toContain(sign);
  });
});
