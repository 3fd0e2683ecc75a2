import { extname } from 'node:path';
import { computedValues } from '../engine/engine';
import { writeXlsx } from '../ooxml/write-xlsx';
import { readArea } from '../plan/addresses';
import type { SnapshotValue } from '../plan/book-snapshot';
import { demoFarm } from '../plan/demo-farm';
import { planWorkbook } from '../plan/plan';
import { farmOfProposal } from '../size/farm-of-proposal';
import type { Proposal } from '../size/proposal';
import {
  chosenVariant,
  type ReadVariant,
  readVariants,
  WrongVariants,
} from '../size/read-variants';
import { type Variants, variantsOf, variantsOfFarm } from '../size/variants';
import { VARIANTS, variantsWorkbook } from '../size/variants-sheet';
import { WishFileError } from '../size/wish';
import { readArguments } from './command-arguments';
import type { Command } from './command';
import { bookFromFile, farmFromBook } from './farm-command';
import { farmOf, jsonFromFile } from './farm-file';
import { Mistake } from './mistake';
import { sizeText, today, wishOf } from './size-command';
import { writeOutputFile } from './workbook-file';

const options = {
  out: { type: 'string' },
  demo: { type: 'boolean' },
  plain: { type: 'boolean' },
  choose: { type: 'string' },
  force: { type: 'boolean' },
} as const;

const isFarm = (json: unknown): boolean =>
  typeof json === 'object' && json !== null && 'tanks' in json && 'beds' in json;

/** The first column and the other ways to it, from a wish, a farm file or a plan. */
async function variantsFrom(path: string | undefined): Promise<Variants> {
  if (path === undefined) return variantsOfFarm(farmOf(demoFarm, 'The demo farm'));
  if (extname(path).toLowerCase() !== '.json') return variantsOfFarm(await farmFromBook(path));
  const json = await jsonFromFile(path);
  return isFarm(json) ? variantsOfFarm(farmOf(json, path)) : variantsOf(wishOf(json, path));
}

/** The cells of the sheet Variants of a workbook, from its first one on. */
async function sheetOf(path: string): Promise<readonly (readonly SnapshotValue[])[]> {
  const sheet = (await bookFromFile(path)).sheets.find(({ name }) => name === VARIANTS);
  if (sheet === undefined) throw new Mistake(`${path} has no sheet ${VARIANTS}.`);
  const { row = 0, column = 0 } = readArea(sheet.from) ?? {};
  const before = Array.from({ length: column }, () => '');
  return [
    ...Array.from({ length: row }, () => []),
    ...sheet.values.map((cells) => [...before, ...cells]),
  ];
}

function proposalOf(chosen: ReadVariant, path: string): Proposal {
  try {
    return chosenVariant(chosen, today());
  } catch (problem) {
    if (problem instanceof WrongVariants || problem instanceof WishFileError)
      throw new Mistake(`${path}: ${problem.message}`);
    throw problem;
  }
}

interface Output {
  readonly input: string;
  readonly out: string;
  readonly force: boolean;
  readonly plain: boolean;
}

async function choose(which: string, { input, out, force, plain }: Output): Promise<number> {
  const found = await (async () => {
    try {
      return readVariants(await sheetOf(input));
    } catch (problem) {
      if (problem instanceof WrongVariants) throw new Mistake(`${input}: ${problem.message}`);
      throw problem;
    }
  })();
  const chosen =
    found.find(({ name }) => name.toLowerCase() === which.toLowerCase()) ??
    found[Number(which) - 1];
  if (chosen === undefined)
    throw new Mistake(
      `--choose takes the number or the name of a variant: ${found.map(({ name }, i) => `${i + 1} (${name})`).join(', ')}; got ${which}.`,
    );
  const proposal = proposalOf(chosen, input);
  console.log(sizeText(proposal));
  const file = farmOfProposal(proposal);
  const farm = farmOf(file, chosen.name);
  if (extname(out).toLowerCase() === '.json') {
    await writeOutputFile(out, `${JSON.stringify(file, null, 2)}\n`, { input, force });
    console.log(`\n${out}: the farm of ${chosen.name}.`);
    return 0;
  }
  const model = planWorkbook(farm, { formulas: plain ? 'plain' : 'live' });
  await writeOutputFile(out, writeXlsx(model, computedValues(model)), { input, force });
  console.log(`\n${out}: the plan of ${chosen.name}.`);
  return 0;
}

/** Lays farms side by side, or makes the plan of one of them. */
export const variants: Command = async (args) => {
  const { values, positionals } = readArguments(args, options);
  const [path, ...more] = positionals;
  const { out, force = false, plain = false, choose: which, demo = false } = values;
  if ((path === undefined) !== demo || more.length > 0)
    throw new Mistake(
      'variants takes one wish, farm file or plan (variants WISH.json), or --demo.',
    );
  const ending = out === undefined ? '' : extname(out).toLowerCase();
  if (out === undefined || (ending !== '.xlsx' && !(which !== undefined && ending === '.json')))
    throw new Mistake(
      which === undefined
        ? 'variants needs --out and the workbook to write: --out VARIANTS.xlsx'
        : 'variants --choose needs --out and the plan or farm file to write: --out PLAN.xlsx',
    );
  if (which !== undefined) {
    if (path === undefined)
      throw new Mistake('--choose takes a workbook that variants wrote, not --demo.');
    return choose(which, { input: path, out, force, plain });
  }
  const side = await variantsFrom(path);
  const model = variantsWorkbook(side, plain ? 'plain' : 'live');
  const bytes = writeXlsx(model, computedValues(model));
  await writeOutputFile(out, bytes, { force, ...(path !== undefined && { input: path }) });
  console.log(
    `${out}: ${side.list.map(({ name }) => name).join('; ')}. Type over what is to differ; the columns that are left take more.${plain ? '' : ' Without Gillbed its formulas show #NAME? once they are computed anew: to send it, make it with --plain, or hand over a copy (handover).'}`,
  );
  return 0;
};
