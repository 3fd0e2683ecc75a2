import { lookupRow } from '../../functions/lookup';
import { rowAddress } from '../addresses';
import type { PlanContext } from '../context';
import { cropFigure, daysToFirstCut, daysToPlanting, weeksInBed } from '../crop-figures';
import { between } from '../fields';
import { type MarketEntry, marketUnits } from '../farm';
import type { SheetModel } from '../model';
import { type Register, register, type RegisterColumn } from '../register';
import { area, SheetBuilder } from '../sheet-builder';

const SHEET = 'Sowing';

export interface SowingSheet {
  readonly sheet: SheetModel;
  readonly register: Register;
}

export function sowingSheet(ctx: PlanContext): SowingSheet {
  const { gill } = ctx;
  const fact = (at: (id: string) => string, name: string): string => cropFigure(name, at('line'));
  const columns: readonly RegisterColumn<MarketEntry>[] = [
    {
      id: 'crop',
      head: 'Crop',
      width: 15,
      look: 'input',
      value: (market) => market.crop,
      rule: {
        rule: { kind: 'list', name: 'Crop_name' },
        message: 'Choose a crop of the Crops sheet.',
      },
    },
    {
      id: 'sold_as',
      head: 'Sold by',
      width: 8,
      look: 'input',
      value: (market) => market.unit,
      rule: {
        rule: { kind: 'words', words: marketUnits },
        message: 'Choose piece, bunch, kg or lb.',
      },
    },
    {
      id: 'wanted',
      head: 'Wanted a week',
      width: 9,
      look: 'input',
      value: (market) => market.perWeek,
      rule: { rule: { kind: 'number', min: 0 }, message: 'Type how many you sell a week.' },
    },
    {
      id: 'price',
      head: 'Price',
      width: 8,
      look: 'input',
      format: 'money',
      value: (market) => market.price,
      rule: {
        rule: { kind: 'number', min: 0 },
        message: 'Type the price of one piece, bunch or kg.',
      },
    },
    {
      id: 'own_yield',
      head: 'One plant gives',
      width: 9,
      look: 'input',
      value: (market) => market.perPlant,
      note: 'Pieces, bunches, kg or lb that one plant gives in its whole life. Left blank: 1, or for kg the yield on the Crops sheet.',
      rule: {
        rule: { kind: 'number', min: 0 },
        message: 'Type pieces, bunches or kg of one plant, or leave it blank.',
      },
    },
    {
      id: 'every',
      head: 'Sow every, days',
      width: 9,
      look: 'input',
      value: (market) => market.every,
      rule: {
        rule: { kind: 'whole', min: 1, max: 364 },
        message: 'Type days between sowings, 1 to 364.',
      },
    },
    {
      id: 'harvest',
      head: 'First harvest',
      width: 11,
      look: 'input',
      format: 'date',
      value: (market) => market.firstHarvest,
      rule: { rule: { kind: 'date' }, message: 'Type the date of the first harvest.' },
    },
    {
      id: 'own_germination',
      head: 'Own germination',
      width: 14,
      look: 'input',
      quantity: 'share',
      value: (market) => market.germination,
      note: 'Share of the seeds that come up in your own trays. Left blank: the Crops sheet.',
      rule: {
        rule: { kind: 'number', min: 0.01, max: 1 },
        message: 'Type a share such as 80 %, or leave it blank.',
      },
    },
    {
      id: 'own_losses',
      head: 'Own losses after that',
      width: 10,
      look: 'input',
      quantity: 'share',
      value: (market) => market.losses,
      note: 'Share of the seedlings that never reach the market. Left blank: the figure above.',
      rule: {
        rule: { kind: 'number', min: 0, max: 0.9 },
        message: 'Type a share from 0 % to 90 %, or leave it blank.',
      },
    },
    {
      id: 'cells',
      head: 'Cells in a tray',
      width: 8,
      look: 'input',
      value: (market) => market.cells,
      rule: {
        rule: { kind: 'whole', min: 1, max: 2000 },
        message: 'Type the cells of one tray, or leave it blank.',
      },
    },
    {
      id: 'gives',
      head: 'Yield of a plant, as used',
      width: 10,
      look: 'computed',
      format: 'two',
      formula: (at) =>
        `IF(${at('own_yield')}<>"",${at('own_yield')},IF(OR(${at('sold_as')}="kg",${at('sold_as')}="lb"),IF(${fact(at, 'kg_per_plant')}="","",${fact(at, 'kg_per_plant')}/IF(${at('sold_as')}="lb",0.45359237,1)),1))`,
    },
    {
      id: 'plants',
      head: 'Plants a batch',
      width: 9,
      look: 'computed',
      quantity: 'plants',
      formula: (at) =>
        `IF(OR(${at('wanted')}="",${at('every')}="",N(${at('gives')})<=0),"",ROUNDUP(ROUND(${at('wanted')}/${at('gives')}*${at('every')}/7,6),0))`,
    },
    {
      id: 'seeds',
      head: 'Seeds a batch',
      width: 9,
      look: 'result',
      format: 'whole',
      formula: (at) =>
        `IF(${at('plants')}="","",${gill(
          'SEED.COUNT',
          at('plants'),
          `IF(${at('own_germination')}="",${fact(at, 'germination')},${at('own_germination')})`,
          `IF(${at('own_losses')}="",Sowing_losses,${at('own_losses')})`,
        )})`,
    },
    {
      id: 'trays',
      head: 'Trays a batch',
      width: 8,
      look: 'computed',
      format: 'whole',
      formula: (at) =>
        `IF(OR(${at('seeds')}="",${at('cells')}=""),"",${gill('SEED.TRAYS', at('seeds'), at('cells'))})`,
    },
    {
      id: 'first',
      head: 'First sowing',
      width: 11,
      look: 'computed',
      format: 'date',
      formula: (at) =>
        `IF(${at('harvest')}="","",${gill('SOW.DATE', at('harvest'), daysToFirstCut(at('line')))})`,
    },
    {
      id: 'next',
      head: 'Next sowing',
      width: 11,
      look: 'result',
      format: 'date',
      note: 'From Monday of the week of the plan on.',
      formula: (at) => {
        const first = at('first');
        return `IF(OR(${first}="",${at('every')}=""),"",${first}+MAX(0,ROUNDUP((Farm_week-${first})/${at('every')},0))*${at('every')})`;
      },
    },
    {
      id: 'week',
      head: 'ISO week',
      width: 7,
      look: 'computed',
      format: 'whole',
      formula: (at) => `IF(${at('next')}="","",ISOWEEKNUM(${at('next')}))`,
    },
    {
      id: 'out',
      head: 'Plant out',
      width: 11,
      look: 'computed',
      format: 'date',
      formula: (at) =>
        `IF(OR(${at('next')}="",${fact(at, 'start')}="in place"),"",${at('next')}+${daysToPlanting(at('line'))})`,
    },
    {
      id: 'cut',
      head: 'First cut',
      width: 11,
      look: 'computed',
      format: 'date',
      formula: (at) => `IF(${at('next')}="","",${at('next')}+${daysToFirstCut(at('line'))})`,
    },
    {
      id: 'needed',
      head: 'Beds needed',
      width: 9,
      look: 'result',
      quantity: 'area',
      note: 'Bed area for a steady weekly cut of what is wanted, all batches together.',
      formula: (at) =>
        `IF(OR(${at('wanted')}="",N(${at('gives')})<=0),"",${gill(
          'BED.AREA',
          `${at('wanted')}/${at('gives')}`,
          weeksInBed(at('line')),
          fact(at, 'plants_per_m2'),
        )})`,
      total: (all) => `SUM(${all})`,
    },
    {
      id: 'there',
      head: 'Beds with this crop',
      width: 10,
      look: 'computed',
      quantity: 'area',
      formula: (at) => `SUMIF(Beds_line,${at('line')},Beds_area)`,
    },
    {
      id: 'verdict',
      head: 'Verdict',
      width: 34,
      look: 'verdict',
      formula: (at) => {
        const all = `SUMIF(Sowing_line,${at('line')},Sowing_needed)`;
        const mean = (date: string): string => `INDEX(Month_air,MONTH(${date}))`;
        return (
          `IF(${at('gives')}="","say what one plant gives",IF(${at('next')}="","",` +
          `IF(${mean(at('cut'))}>${fact(at, 'air_max')},"too warm when cut; ",IF(${mean(at('cut'))}<${fact(at, 'air_min')},"too cold when cut; ",""))&` +
          `IF(${at('there')}<0.9*${all},"beds too few",IF(${at('there')}>1.3*${all},"more beds than needed","beds fit"))))`
        );
      },
    },
    {
      id: 'line',
      helper: true,
      head: 'Line in Crops',
      width: 8,
      look: 'source',
      formula: (at) => lookupRow('Crop', at('crop')),
    },
  ];
  const sheet = new SheetBuilder(SHEET, {
    title: 'Sowing',
    question: 'What must be sown, when and how much, so that the market gets its weekly share?',
    widths: [],
    landscape: true,
    headRows: 5,
    headColumns: 1,
  });
  sheet.text(2, 0, 'Losses if not given', 'label');
  sheet.put(2, 2, {
    value: 0.1,
    look: 'preset',
    format: 'percent',
    note: 'Seedlings that never reach the market. Common practice, no source: put your own figure here.',
  });
  ctx.name('Sowing_losses', SHEET, area(2, 2));
  const losses = between('share', ctx, 0, 0.9);
  sheet.rule(area(2, 2), losses.rule, losses.message);
  const made = register(sheet, ctx, {
    prefix: 'Sowing',
    headRow: 4,
    columns,
    entries: ctx.farm.markets,
    spare: 6,
  });
  const verdicts = area(made.firstRow, made.column('verdict'), made.rows);
  const cell = rowAddress(made.firstRow, made.column('verdict'));
  sheet.mark(verdicts, `AND(${cell}<>"",${cell}<>"beds fit")`, 'watch');
  return { sheet: sheet.model(), register: made };
}
