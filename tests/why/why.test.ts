import { describe, expect, it } from 'vitest';
import { computedValues } from '../../src/engine/engine';
import { Recalculation } from '../../src/engine/recalculation';
import { openTraced } from '../../src/ooxml/open-book';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { planWorkbook } from '../../src/plan/plan';
import { chainOf, type Step } from '../../src/why/explain-cell';
import { isTypedNumber } from '../../src/why/leaf';
import { MAX_TRIED } from '../../src/why/movers';
import { storedEvaluation } from '../../src/why/stored-evaluation';
import {
  askedOf,
  NoSuchCell,
  placeNamed,
  type Why,
  whyAndMovers,
  whySections,
} from '../../src/why/why';
import { sampleFarm } from '../tools/farms';
import { computed, smallBook, smallSheet, typed, word } from '../tools/small-book';

/** A grower's own records, without a plan. */
const records = smallBook(
  [
    smallSheet('Trough', [
      [word('Length'), typed(8), word('m')],
      [word('Width'), typed(2), word('m')],
      [word('Area'), computed('B1*B2'), word('m²')],
      [word('Feed'), computed('GILL.FEED.WANTED(B3,B5)'), word('g/day')],
      [word('Crop'), word('lettuce')],
      [word('Half or all'), computed('IF(B3>10,B3/2,B3)'), word('m²')],
      [word('Steps'), computed('ROUNDDOWN(B1/5,0)')],
      [word('Counted on'), typed(46000, 'date')],
    ]),
    smallSheet('Tests', [
      [word('Sample'), word('Ammonia, mg/L'), word('pH'), word('Un-ionised, mg/L')],
      [
        word('Monday'),
        typed(1),
        typed(8),
        computed('GILL.AMMONIA.UNIONISED(B2:B3,C2:C3,25)', { rows: 2, columns: 1 }),
      ],
      [word('Friday'), typed(2), typed(7), { look: 'computed' }],
    ]),
  ],
  [
    { name: 'Trough_area', sheet: 'Trough', area: { row: 2, column: 1, rows: 1, columns: 1 } },
    { name: 'Both_tests', sheet: 'Tests', area: { row: 1, column: 1, rows: 2, columns: 1 } },
  ],
);

const asked = askedOf(openTraced(writeXlsx(records, computedValues(records))));
const ask = (cell: string, of = asked): Why =>
  whyAndMovers(placeNamed(cell, of.cells), of, (...what) => new Recalculation(...what));
const text = (answer: Why): string =>
  whySections(answer)
    .flatMap(({ head, lines }) => [head, ...lines])
    .join('\n');

describe('a cell of any workbook', () => {
  it('is said with its words, figure and unit, and by its name', () => {
    const answer = ask('Trough_area');
    expect(answer.title).toBe('Trough!B3, Area: 16 m²');
    expect(answer.steps[0]?.words).toBe('[Length] × [Width]');
    expect(text(answer)).toContain('Length: 8 m; Trough!B1; typed');
  });

  it('names the function, its arguments with units, what was left out, method and sources', () => {
    const answer = ask('Trough!B4');
    const [call] = answer.steps[0]?.calls ?? [];
    expect(call?.card.id).toBe('FEED.WANTED');
    expect(call?.args.map(({ parameter, shown }) => [parameter, shown])).toEqual([
      ['area', '16 m²'],
      ['crops', '"lettuce"'],
    ]);
    expect(call?.leftOut.join()).toContain('gravel');
    expect(text(answer)).toMatch(/Method: The area times/);
    expect(text(answer)).toMatch(/Source: Somerville/);
  });

  it('says which branch a formula took', () => {
    const [step] = ask('Trough!B6').steps;
    expect(step?.because).toEqual(['[Area] is above 10']);
    expect(step?.words).toBe('[Area] ÷ 2');
  });

  it('finds the formula that fills a cell of a block, and the row it was worked for', () => {
    const [step] = ask('Tests!D3').steps;
    expect(step?.filledFrom).toBe('Tests!D2');
    expect(step?.label).toBe('Friday: Un-ionised');
    expect(step?.calls[0]?.args.map(({ shown }) => shown)).toEqual(['2 mg/L', '7', '25 °C']);
  });

  it('says of a typed cell that it was typed, and of a wrong one what would be right', () => {
    expect(ask('Trough!B1').notes.join()).toBe('No formula stands there: typed.');
    expect(() => ask('Troff!B1')).toThrow('There is no sheet "Troff"');
    expect(() => ask('Both_tests')).toThrow(NoSuchCell);
    expect(() => ask('B1')).toThrow('write it like "Trough!B8"');
  });
});

describe('what would change a figure by a tenth', () => {
  it('is computed anew for each typed number alone', () => {
    // Area = length × width: a tenth more of either is a tenth more of the area, by arithmetic.
    const movers = ask('Trough!B3').movers;
    expect(movers?.tried).toBe(2);
    expect(movers?.strongest.map(({ label }) => label).sort()).toEqual(['Length', 'Width']);
    for (const { change, needed } of movers?.strongest ?? []) {
      expect(change).toBeCloseTo(0.1, 9);
      expect(needed?.change).toBeCloseTo(0.1, 3);
    }
  });

  it('tries the nearest of very many numbers, and says how many it left out', () => {
    // What the figure is made of by itself stands below what it only adds up.
    const many = smallBook([
      smallSheet('Log', [
        ...Array.from({ length: 60 }, () => [word('Fish'), typed(1)]),
        [word('Weight'), typed(500)],
        [word('All'), computed('SUM(B1:B60)*B61')],
      ]),
    ]);
    const answer = ask('Log!B62', askedOf(openTraced(writeXlsx(many, computedValues(many)))));
    expect(answer.movers).toMatchObject({ tried: MAX_TRIED, left: 61 - MAX_TRIED });
    // A tenth more weight is a tenth more of all; a tenth more of one row in 60 is not.
    expect(answer.movers?.strongest[0]).toMatchObject({ where: 'Log!B61', with: '550' });
    expect(text(answer)).toContain(`${61 - MAX_TRIED} numbers further from it were not tried`);
  });

  it('excludes figures that a plan writes for itself', () => {
    const plan = planWorkbook(sampleFarm('aldermoor-springs'), { formulas: 'plain' });
    const { cells, facts } = askedOf(openTraced(writeXlsx(plan, () => 0)));
    const log = plan.sheets.find(({ name }) => name === 'Fish log');
    const column = log?.rows
      .map((row) => row.findIndex((cell) => cell?.value === 'Line of its block'))
      .find((at) => at >= 0) as number;
    const first = log?.rows.findIndex((row) => typeof row[column]?.value === 'number') as number;
    const line = cells.at({ sheet: 'Fish log', row: first, column });
    expect(line.value).toBe(1);
    expect(isTypedNumber(line, cells, facts.typed)).toBe(false);
    const water = placeNamed('Tanks!B6', cells);
    expect(isTypedNumber(cells.at(water), cells, facts.typed)).toBe(true);
  });

  it('says where no single number can bring a tenth', () => {
    // 8 / 5 is rounded down to 1; the next whole number is twice that.
    const [length] = ask('Trough!B7').movers?.strongest ?? [];
    expect(length).toBeUndefined();
    expect(text(ask('Trough!B7'))).toMatch(/Of 1 typed number .* 0 change it/);
  });

  it('leaves the workbook as it was', () => {
    const first = ask('Trough!B4').movers;
    expect(ask('Trough!B4').movers).toEqual(first);
  });

  it('is refused for a file whose values are not those of its formulas', () => {
    const stale = askedOf(
      openTraced(
        writeXlsx(records, (name, row, column) =>
          computedValues(records)(name, row, column) === 16
            ? 17
            : computedValues(records)(name, row, column),
        ),
      ),
    );
    expect(ask('Trough!B3', stale).movers?.not).toMatch(/computed anew the cell shows 16, not 17/);
  });
});

it('names the functions of a plan in plain formulas, also in US units', () => {
  const plain = planWorkbook(sampleFarm('larkfield-school'), { formulas: 'plain' });
  const { cells, facts } = askedOf(openTraced(writeXlsx(plain, computedValues(plain))));
  expect(facts.notes).toEqual([]);
  const chain = (cell: string): readonly Step[] => {
    return chainOf(placeNamed(cell, cells), { cells, facts, evaluate: storedEvaluation(cells) });
  };
  expect(chain('Tanks!M6').flatMap(({ writtenOut }) => writtenOut)).toContain('FEED.DAY');
  const kinds = chain('Stock_coefficient').flatMap(({ reads }) => reads.map(({ kind }) => kind));
  expect(kinds.find((kind) => kind.startsWith('from the table Species: '))).toMatch(/: .{10}/);
});
