import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../src/functions/card';
import { type CautionId, cautions } from '../../src/functions/cautions';
import { findCard } from '../../src/functions/card-list';
import { guidePages } from '../../src/guides/guide-pages';
import { demoFarm } from '../../src/plan/demo-farm';
import { covers } from '../../src/plan/addresses';
import { readFarm } from '../../src/plan/farm';
import type { SheetModel } from '../../src/plan/workbook-model';
import { planWorkbook } from '../../src/plan/plan';
import { escapeHtml } from '../../src/reference/html';
import { cautionPlaces } from '../tools/caution-places';

const readme = readFileSync('README.md', 'utf8');
const guides = guidePages();
const farms = [
  demoFarm,
  JSON.parse(readFileSync('sample-workbooks/larkfield-school.json', 'utf8')),
];
const workbooks = farms.map((farm) => planWorkbook(readFarm(farm), { formulas: 'live' }));

/** Cautions of a sheet that are neither folded away nor left out on paper. */
const seenOn = ({ rows, folded, print }: SheetModel): string =>
  rows
    .flatMap((row, r) =>
      row.flatMap((cell, c) => {
        const isFolded = folded !== undefined && c >= folded.column;
        const isPrinted = print.areas?.some((area) => covers(area, r, c)) ?? true;
        return cell?.look === 'caution' && !isFolded && isPrinted ? [cell.value ?? ''] : [];
      }),
    )
    .join('\n');

const subjects = Object.entries(cautionPlaces) as [
  keyof typeof cautionPlaces,
  (typeof cautionPlaces)[keyof typeof cautionPlaces],
][];

describe.each(subjects)(
  'the caution about %s',
  (id, { cards, sheets, guides: told, readme: words }) => {
    it.each(cards)('stands on the card of GILL.%s', (name) => {
      const card = findCard(name);
      expect(card && cautionsOf(card)).toContain(cautions[id]);
    });

    it.each(['Start', 'Sources', ...sheets])(
      'stands on the sheet %s, on screen and paper',
      (name) => {
        for (const { sheets: all } of workbooks) {
          const sheet = all.find((model) => model.name === name);
          expect(sheet && seenOn(sheet)).toContain(cautions[id]);
        }
      },
    );

    it.each(told)('stands in the guide %s', (name) => {
      expect(guides.get(`${name}.html`)).toContain(escapeHtml(cautions[id]));
    });

    it('stands in the README', () => {
      expect(readme).toMatch(words);
    });
  },
);

describe('what the cautions say', () => {
  it.each([
    'electricity',
    'weight',
    'permit',
    'heater',
    'food',
    'medicines',
    'quarantine',
    'sulphide',
    'coli',
  ] as const)('defers to law or licensed practice where it is about %s', (id) => {
    expect(cautions[id]).toMatch(/local (?:codes|rules|authority)/);
  });

  it.each(Object.keys(cautions) as CautionId[])('is short enough to be read: %s', (id) => {
    expect(cautions[id].length).toBeLessThan(240);
  });
});
