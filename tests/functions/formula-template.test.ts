import { describe, expect, it } from 'vitest';
import { cards } from '../../src/functions/card-list';
import { repeatedStep } from '../../src/functions/formula-template';
import { formulaText, type WithFormula } from '../../src/functions/formula-text';

/** What stands for a name in row after row: texts of one shape, then of another, some left out, then figures. */
const rows: readonly ((name: string) => string | undefined)[] = [
  (name) => `$A${name.length}`,
  (name) => `$B${name.length + 10}`,
  (name) => `A1+${name.length}`,
  (name) => `INDEX(Beds_${name},3)`,
  () => undefined,
  () => '7',
  () => '-2',
  () => '$C4',
  () => '"tomato"',
  (name) => `'My tanks'!$A$${name.length}`,
  (name) => (name.length % 2 === 0 ? `$D${name.length}` : undefined),
  (name) => `$A${name.length}`,
];

const outcome = (text: () => string): string => {
  try {
    return text();
  } catch (error) {
    return String(error);
  }
};

describe('a step that is repeated row after row', () => {
  const withFormula = cards.filter(({ formula }) => typeof formula === 'object');

  it.each(withFormula.map((card) => [card.id, card] as const))(
    '%s reads as if each row were written anew',
    (_, { parameters, formula }) => {
      const card = { parameters, formula } as WithFormula;
      for (const step of Object.keys(card.formula)) {
        for (const [i, text] of rows.entries()) {
          const facts = i % 3 === 0 ? (_: string, fact: string) => `E${fact.length}` : undefined;
          const args = Object.fromEntries(parameters.map(({ name }) => [name, text(name)]));
          const anew = outcome(() =>
            formulaText(card, { arguments: args, ...(facts && { facts }) }, step),
          );
          const repeated = outcome(
            () =>
              repeatedStep(card, step, {
                argument: (name) => args[name],
                step: () => undefined,
                fact: (parameter, fact) => facts?.(parameter, fact),
              }).text,
          );
          expect(repeated, `${step} in row ${i + 1}`).toBe(anew);
        }
      }
    },
  );

  it('takes a step from the cell that holds it, and says what needs brackets', () => {
    const card = {
      parameters: [],
      formula: { result: 'step * 2', step: '1 + 2' },
    } as unknown as WithFormula;
    const at = (cell: string | undefined) => ({
      argument: () => undefined,
      step: (name: string) => (name === 'step' ? cell : undefined),
      fact: () => undefined,
    });
    expect(repeatedStep(card, 'result', at('A1'))).toEqual({ text: 'A1*2', whole: false });
    expect(repeatedStep(card, 'result', at('A1+B1'))).toEqual({ text: '(A1+B1)*2', whole: false });
    expect(repeatedStep(card, 'result', at(undefined)).text).toBe('(1+2)*2');
    expect(repeatedStep(card, 'step', at('A2'))).toEqual({ text: '1+2', whole: false });
  });

  it('needs no brackets where the text is one call', () => {
    const card = { parameters: [], formula: { result: 'MAX(step, 1)', step: '2' } } as WithFormula;
    const places = { argument: () => undefined, fact: () => undefined, step: () => 'A1' };
    expect(repeatedStep(card, 'result', places)).toEqual({ text: 'MAX(A1,1)', whole: true });
  });
});
