import { GillError } from '../../src/core/errors';
import { checkSheets } from '../../src/check/check';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import type { WorkbookModel } from '../../src/plan/workbook-model';
import { alternativesTo } from '../../src/size/alternatives';
import { farmOfProposal } from '../../src/size/farm-of-proposal';
import { propose, type Proposal } from '../../src/size/proposal';
import { partsOf, summaryOf } from '../../src/size/proposal-lines';
import { readWish } from '../../src/size/wish';
import { valuesOf } from '../tools/values-of';

export const DAY = 46_353;

/** Everything that a proposal says, wherever it stands. */
function figuresIn(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} is ${value}`];
  if (typeof value === 'string')
    return /NaN|undefined|Infinity|\[object/.test(value) ? [`${path}: ${value}`] : [];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, one]) => figuresIn(one, `${path}.${key}`));
}

/** Feed and beds of a proposal are even, or a sentence says which wish gives way or why not. */
function evenness({ feed, remarks, wish }: Proposal): string[] {
  if (feed === undefined || Math.abs(feed.share - 1) <= 0.1) return [];
  const says = remarks.some(({ says: words }) =>
    /not even|apart|gives? way|nitrate gathers/.test(words),
  );
  return says
    ? []
    : [
        `feed is ${feed.share} of what the beds call for, and nothing says why: ${JSON.stringify(wish)}`,
      ];
}

/** What is wrong with the proposal for a wish, its alternatives and its farm file; nothing where all is right. */
export function proposalFaults(json: unknown): string[] {
  const proposal = propose(readWish(json, DAY));
  const said = [proposal, ...alternativesTo(proposal).map((one) => one.proposal)];
  const file = farmOfProposal(proposal);
  readFarm(file);
  return said.flatMap((one) => [
    ...evenness(one),
    ...figuresIn({
      fish: one.fish,
      beds: one.beds,
      room: one.room,
      feed: one.feed,
      crops: one.crops,
      remarks: one.remarks,
      parts: partsOf(one),
      summary: summaryOf(one),
    }),
  ]);
}

export const planOf = (json: unknown): WorkbookModel =>
  planWorkbook(readFarm(farmOfProposal(propose(readWish(json, DAY)))), { formulas: 'live' });

/** What the proposal says itself, with what to do: stand-by air for full tanks, gravel that floods in turn. */
const SAID = /minutes of oxygen|beds drain at once/;

/** Cells of a plan that show an error or no number, and what the checks object to. */
export function planFaults(model: WorkbookModel): string[] {
  const values = valuesOf(model);
  const cells = model.sheets.flatMap(({ name, rows }) =>
    rows.flatMap((row, r) =>
      row.flatMap((_, c) => {
        const value = values(name, r, c);
        const bad =
          value instanceof GillError || (typeof value === 'number' && !Number.isFinite(value));
        return bad
          ? [`${name} ${r + 1},${c + 1}: ${value instanceof GillError ? value.message : value}`]
          : [];
      }),
    ),
  );
  const findings = checkSheets(
    model.sheets.map(({ name, rows }) => ({
      name,
      values: rows.map((row, r) => row.map((_, c) => values(name, r, c) ?? '')),
      formulas: rows.map(() => []),
    })) as never,
  );
  return [
    ...cells,
    ...findings.flatMap(({ what, sheet }) => (SAID.test(what) ? [] : [`${sheet}: ${what}`])),
  ];
}
