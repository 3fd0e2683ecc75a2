import { Model, registries } from '@odoo/o-spreadsheet';
import { expect, it } from 'vitest';
import { gridFrom } from '../../../src/engine/engine';
import { storedValuesOf } from '../../../src/engine/patches/open-with-stored-values';
import { quietly } from '../../../src/engine/quietly';
import { followPlaceLinks, placeOfLink } from '../../../src/hosts/workbench/place-links';
import { planWorkbook } from '../../../src/plan/plan';
import { renamedPlan } from '../../../src/plan/renamed-plan';
import { sampleFarm } from '../../tools/farms';
import { valuesOf } from '../../tools/values-of';

const plan = planWorkbook(sampleFarm('larkfield-school'), { formulas: 'plain' });

it('a link names a place of the workbook, or is none', () => {
  expect(placeOfLink("#'Stock plan'!A12")).toEqual({ sheet: 'Stock plan', row: 11, column: 0 });
  expect(placeOfLink('#Tanks!$B$3')).toEqual({ sheet: 'Tanks', row: 2, column: 1 });
  expect(placeOfLink("#'Ann''s beds'!A1")?.sheet).toBe("Ann's beds");
  for (const url of ['https://farm.example/#a', '#Farm_date', '#Tanks!B', ''])
    expect(placeOfLink(url), url).toBeUndefined();
});

it('Start leads to each part of a long sheet, by its heading, in the workbench without being computed before', () => {
  followPlaceLinks();
  const data = gridFrom(plan);
  const model = quietly(() => new Model(data));
  const { getters } = model;
  const [start] = getters.getSheetIds();
  if (start === undefined) throw new Error('The plan has no sheet');
  const values = valuesOf(plan);
  const stored = storedValuesOf(model)?.[start];
  const links = getters.getCells(start).flatMap(({ id }) => {
    const position = getters.getCellPosition(id);
    const { link, value } = getters.getEvaluatedCell(position);
    return link ? [{ link, value, position }] : [];
  });
  const sheets = new Set<string>();
  for (const { link, value } of links) {
    const place = placeOfLink(link.url);
    if (!place) throw new Error(`${link.url} leads nowhere`);
    sheets.add(place.sheet);
    expect(value).toBe(`→ ${String(values(place.sheet, place.row, place.column))}`);
  }
  const [last] = links.slice(-1);
  const there = placeOfLink(last?.link.url ?? '');
  registries.urlRegistry.get('place_of_workbook').open(last?.link.url ?? '', { model } as never);
  expect(getters.getSheetName(getters.getActiveSheetId())).toBe('Plant room');
  expect(getters.getActivePosition()).toMatchObject({ col: 0, row: there?.row });
  expect(there?.row).toBeGreaterThan(100);
  expect([...sheets]).toEqual(['Balance', 'Stock plan', 'Season', 'Money', 'Plant room']);
  expect(links.length).toBeGreaterThan(25);
  expect(stored).toBeDefined();
  for (const { position } of links) {
    expect(stored?.[`A${position.row + 1}`]).toBeUndefined();
  }
});

it('leads to the sheets of a second plan by their own names', () => {
  const second = renamedPlan(plan, new Map([['balance', 'Balance 2']]), new Map());
  const links = second.sheets[0]?.rows.flatMap((row) => row[0]?.formula ?? []) ?? [];
  const toBalance = links.filter((formula) => formula.includes('Balance'));
  expect(toBalance.length).toBeGreaterThan(5);
  for (const formula of toBalance) {
    expect(formula).toContain(`"#'Balance 2'!A"`);
    expect(formula).toContain(`ROW('Balance 2'!$A$`);
  }
});
