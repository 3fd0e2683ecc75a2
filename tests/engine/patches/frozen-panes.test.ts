import { Model } from '@odoo/o-spreadsheet';
import { expect, it } from 'vitest';
import '../../../src/engine/engine';
import { quietly } from '../../../src/engine/quietly';

it('frozen rows and columns scroll along where they would leave no room, and stay frozen in the workbook', () => {
  const sheet = {
    id: 's',
    colNumber: 9,
    rowNumber: 60,
    cells: { A1: 'x' },
    // 26 px each where nothing else is said: 5 rows of 60 px are 300 px.
    rows: Object.fromEntries([0, 1, 2, 3, 4].map((row) => [row, { size: 60 }])),
    cols: { 0: { size: 200 } },
    panes: { xSplit: 1, ySplit: 5 },
  };
  const model = quietly(() => new Model({ sheets: [sheet] }));
  const shown = (width: number, height: number) => {
    quietly(() =>
      model.dispatch('RESIZE_SHEETVIEW', { width, height, gridOffsetX: 0, gridOffsetY: 0 }),
    );
    const { x, y } = model.getters.getMainViewportCoordinates();
    const { top, left } = model.getters.getActiveMainViewport();
    return { x, y, top, left };
  };
  expect(shown(1000, 601)).toEqual({ x: 200, y: 300, top: 5, left: 1 });
  expect(shown(1000, 599)).toEqual({ x: 200, y: 0, top: 0, left: 1 });
  expect(shown(299, 599)).toEqual({ x: 0, y: 0, top: 0, left: 0 });
  expect(model.getters.getPaneDivisions('s')).toEqual({ xSplit: 1, ySplit: 5 });
  expect(model.exportData().sheets[0]?.panes).toEqual({ xSplit: 1, ySplit: 5 });
  // On a larger screen they stay in sight again.
  expect(shown(1000, 900)).toEqual({ x: 200, y: 300, top: 5, left: 1 });
});
