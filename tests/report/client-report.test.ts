import { beforeAll, describe, expect, it } from 'vitest';
import { computedValues } from '../../src/engine/engine';
import { openTraced } from '../../src/ooxml/open-book';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { readArea, splitSheet } from '../../src/plan/addresses';
import { BookCells } from '../../src/plan/book-snapshot';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { clientReport } from '../../src/report/client-report';
import { farmDrawing, tankWidth } from '../../src/report/farm-drawing';
import { NoReport } from '../../src/report/report-cells';
import { cautions } from '../../src/functions/cautions';
import { sampleFarm } from '../tools/farms';
import { smallBook, smallSheet, word } from '../tools/small-book';

const farms = {
  metric: () => readFarm(demoFarm),
  US: () => sampleFarm('larkfield-school'),
};

const unescaped = (text: string): string =>
  text
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&');

describe.each(['metric', 'US'] as const)('the report of a plan in %s units', (units) => {
  let html: string;
  let cells: BookCells;

  beforeAll(() => {
    const plan = planWorkbook(farms[units](), { formulas: 'live' });
    const book = openTraced(writeXlsx(plan, computedValues(plan)));
    cells = new BookCells(book);
    html = clientReport(book, {
      paper: units === 'US' ? 'Letter' : 'A4',
      client: 'Growers & <others>',
      logo: 'data:image/png;base64,AAAA',
    });
  });

  it('quotes every figure as its cell shows it', () => {
    const quoted = [...html.matchAll(/<t?span[^>]* data-cell="([^"]+)">([^<]*)<\/t?span>/g)];
    expect(quoted.length).toBeGreaterThan(200);
    for (const [, where = '', said = ''] of quoted) {
      const { sheet = '', address } = splitSheet(unescaped(where));
      const area = readArea(address);
      const value = area && cells.at({ sheet, row: area.row, column: area.column }).value;
      const text = unescaped(said);
      if (typeof value === 'string') expect(text, where).toBe(value);
      else if (/^\d{4}-\d\d-\d\d$/.test(text)) {
        // Days are counted from the last day of 1899, as every spreadsheet does.
        const day = (Date.parse(text) - Date.parse('1899-12-30')) / 86_400_000;
        expect(day, where).toBe(Math.floor(Number(value)));
      } else {
        const bare = text.replaceAll(',', '');
        const figure = Number(bare.replace(/ %$/, '')) / (bare.endsWith('%') ? 100 : 1);
        const decimals = (/\.(\d+)/.exec(bare)?.[1]?.length ?? 0) + (bare.endsWith('%') ? 2 : 0);
        expect(Math.abs(figure - Number(value)), where).toBeLessThanOrEqual(
          Math.max(0.5000001 * 10 ** -decimals, 0.0005 * Math.abs(figure)),
        );
      }
    }
  });

  it('shows no figure in a table that is quoted from no cell', () => {
    const shown = [...html.matchAll(/<td(?! class="remark")[^>]*>(.*?)<\/td>/gs)].map(
      ([, inside = '']) => inside.replace(/<span[^>]* data-cell="[^"]+">[^<]*<\/span>/g, ''),
    );
    expect(shown.length).toBeGreaterThan(200);
    // Only the name of a unit has a digit.
    expect(shown.filter((text) => /\d/.test(text.replaceAll('CaCO3', '')))).toEqual([]);
    expect(html).not.toContain('(for the functions)');
    expect(html).not.toMatch(/<\/span> (?:fine|below|above)/);
  });

  it('draws what flows through each tank and through all, quoted from the cells', () => {
    const svg = /<svg class="drawing".*?<\/svg>/s.exec(html)?.[0] ?? '';
    const quoted = [...svg.matchAll(/data-cell="([^"]+)">([^<]*)<\/tspan> ([^<]*)</g)];
    const unit = units === 'US' ? 'gal/h' : 'L/h';
    const flows = quoted.filter(([, , , says]) => says === unit);
    // Each tank, and the whole on the way there and back.
    expect(flows.length).toBe(farms[units]().tanks.length + 2);
    expect(new Set(flows.slice(-2).map(([, where]) => where)).size).toBe(1);
    const number = (text: string | undefined): number => Number(text?.replaceAll(',', ''));
    const each = flows.slice(0, -2).reduce((all, [, , text]) => all + number(text), 0);
    expect(Math.abs(each - number(flows.at(-1)?.[2]))).toBeLessThanOrEqual(flows.length);
  });

  it('has a table or a drawing in every section', () => {
    const sections = html.split('<section>').slice(1);
    expect(sections.map((one) => /<h2>([^<]*)/.exec(one)?.[1])).toEqual([
      'The farm on one page',
      'What was wished, and what comes out',
      'Balance of fish, beds and filter',
      'Calendar of the fish',
      'Calendar of the beds',
      'Water targets',
      'What to buy',
      'Money',
      'What it rests on',
      'Cautions',
      'What a licensed person must decide',
    ]);
    for (const one of sections) expect(one).toMatch(/<(?:table|ul)/);
    expect(html.match(/<svg/g)?.length).toBe(2);
    expect(html).toContain('this is no building plan');
    expect(html).not.toMatch(/NaN|undefined|\[object/);
    for (const caution of Object.values(cautions)) expect(unescaped(html)).toContain(caution);
  });

  it('asks for nothing from elsewhere, and takes what it is told as words', () => {
    expect(html).toContain("default-src 'none'");
    expect(html).toContain('For Growers &amp; &lt;others&gt;.');
    expect(html).not.toMatch(/(?:src|href)="https?:/);
    expect(html).toContain(units === 'US' ? 'size: Letter' : 'size: A4');
  });
});

describe('the drawing', () => {
  it('is to scale: a bed of 10 m is twice the bar of 5 m, a tank as wide as its water asks', () => {
    const svg = farmDrawing({
      tanks: [{ name: 'Tank', volume: Math.PI }],
      beds: [{ name: 'Bed', kind: 'raft', length: 10, width: 1.2 }],
      sump: 0,
      depth: 1,
      units: 'metric',
    });
    const bar = Number(/class="bar" d="M\d+ [\d.]+ h([\d.]+)"/.exec(svg)?.[1]);
    const bed = Number(/class="bed"[^>]*width="([\d.]+)"/.exec(svg)?.[1]);
    const radius = Number(/class="tank"[^>]*r="([\d.]+)"/.exec(svg)?.[1]);
    expect(bed / bar).toBeCloseTo(2, 2);
    // A circle of pi m2 is 2 m wide.
    expect(tankWidth(Math.PI, 1)).toBeCloseTo(2, 12);
    expect((2 * radius) / bar).toBeCloseTo(2 / 5, 2);
  });
});

it('says of a workbook without a plan that there is none', () => {
  const other = openTraced(writeXlsx(smallBook([smallSheet('A', [[word('x')]])]), () => 0));
  expect(() => clientReport(other, { paper: 'A4' })).toThrow(NoReport);
});
