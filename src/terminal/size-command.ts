import { extname } from 'node:path';
import { serialOf } from '../core/serial-date';
import { alternativeIds, alternativesTo } from '../size/alternatives';
import { farmOfProposal } from '../size/farm-of-proposal';
import { propose, type Proposal } from '../size/proposal';
import { partsOf, summaryOf } from '../size/proposal-lines';
import { readWish, type Wish, WishFileError } from '../size/wish';
import { readArguments } from './command-arguments';
import type { Command } from './command';
import { farmOf, jsonFromFile } from './farm-file';
import { Mistake } from './mistake';
import { writeOutputFile } from './workbook-file';

const options = {
  out: { type: 'string' },
  json: { type: 'string' },
  alternative: { type: 'string' },
  force: { type: 'boolean' },
} as const;

export const today = (): number => {
  const now = new Date();
  return serialOf({ year: now.getFullYear(), month: now.getMonth() + 1, day: now.getDate() });
};

export function wishOf(json: unknown, path: string): Wish {
  try {
    return readWish(json, today());
  } catch (fault) {
    if (fault instanceof WishFileError) throw new Mistake(`${path}: ${fault.message}`);
    throw fault;
  }
}

const heads = { 'gives way': 'Gives way', missing: 'Missing', note: 'Note' } as const;

/** Lines of at most so many characters, the second and later ones set in. */
function folded(text: string, width: number, indent: string): string {
  const lines: string[] = [''];
  for (const word of text.split(' ')) {
    const last = lines.at(-1) as string;
    if (last !== '' && last.length + word.length >= width) lines.push(word);
    else lines[lines.length - 1] = last === '' ? word : `${last} ${word}`;
  }
  return lines.join(`\n${indent}`);
}

export function sizeText(proposal: Proposal): string {
  const remarks = proposal.remarks.map(
    ({ kind, says }) => `  ${heads[kind].padEnd(11)}${folded(says, 84, ' '.repeat(13))}`,
  );
  const parts = partsOf(proposal).flatMap(({ title, lines }) => [
    '',
    title,
    ...lines.map(
      ({ what, says, why }) =>
        `  ${what.padEnd(18)} ${says}\n${' '.repeat(21)}${folded(why, 76, ' '.repeat(21))}`,
    ),
  ]);
  const others = alternativesTo(proposal).flatMap(({ id, title, proposal: other }) => [
    `  --alternative ${id}: ${title}`,
    `      ${folded(summaryOf(other), 90, '      ')}`,
  ]);
  return [
    ...(remarks.length > 0 ? ['What to know', ...remarks] : []),
    ...parts,
    ...(others.length > 0 ? ['', 'Or', ...others] : []),
  ].join('\n');
}

/** What the terminal knows of a proposal, for other programs. */
const reportOf = (proposal: Proposal, wish: unknown): unknown => ({
  wish,
  remarks: proposal.remarks,
  parts: partsOf(proposal),
  fish: proposal.fish,
  crops: proposal.crops,
  beds: proposal.beds,
  feed: proposal.feed,
  plantRoom: proposal.room,
  alternatives: alternativesTo(proposal).map(({ id, title, choices, proposal: other }) => ({
    id,
    title,
    choices,
    summary: summaryOf(other),
  })),
});

/** Sizes a farm for a wish, or says what groups that are there can sell. */
export const size: Command = async (args) => {
  const { values, positionals } = readArguments(args, options);
  const [path, ...more] = positionals;
  if (path === undefined || more.length > 0)
    throw new Mistake('size takes one wish: size WISH.json --out FARM.json');
  const { out, json, alternative, force = false } = values;
  for (const name of [out, json])
    if (name !== undefined && extname(name).toLowerCase() !== '.json')
      throw new Mistake(`--out and --json take the name of a .json file; got ${name}.`);
  const given = await jsonFromFile(path);
  let proposal = propose(wishOf(given, path));
  if (alternative !== undefined) {
    const known = alternativeIds.find((id) => id === alternative);
    if (known === undefined)
      throw new Mistake(
        `--alternative takes one of ${alternativeIds.join(', ')}; got ${alternative}.`,
      );
    const others = alternativesTo(proposal);
    const chosen = others.find(({ id }) => id === known);
    if (chosen === undefined) {
      const there = others.map(({ id }) => id).join(', ');
      throw new Mistake(
        `This wish has no alternative ${known}; ${there === '' ? 'it has none' : `it has ${there}`}.`,
      );
    }
    proposal = chosen.proposal;
  }
  console.log(sizeText(proposal));
  if (out !== undefined) {
    const file = farmOfProposal(proposal);
    farmOf(file, out);
    await writeOutputFile(out, `${JSON.stringify(file, null, 2)}\n`, { input: path, force });
    console.log(`\n${out}: the farm, with what nobody said marked as preset.`);
  }
  if (json !== undefined) {
    const report = `${JSON.stringify(reportOf(proposal, given), null, 2)}\n`;
    await writeOutputFile(json, report, { input: path, force });
    console.log(`${json}: the proposal with its reasons.`);
  }
  return 0;
};
