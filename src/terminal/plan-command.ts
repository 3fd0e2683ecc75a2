import { extname } from 'node:path';
import { computedValues } from '../engine/engine';
import { writeXlsx } from '../ooxml/write-xlsx';
import { demoFarm } from '../plan/demo-farm';
import { countedFarm } from '../experience/taken-over';
import { planWorkbook } from '../plan/plan';
import { addInFrom } from './add-in';
import { readArguments } from './command-arguments';
import type { Command } from './command';
import { farmFromFile, farmOf } from './farm-file';
import { Mistake } from './mistake';
import { writeOutputFile } from './workbook-file';

const options = {
  out: { type: 'string' },
  demo: { type: 'boolean' },
  plain: { type: 'boolean' },
  'add-in': { type: 'string' },
  force: { type: 'boolean' },
} as const;

/** Writes the planning workbook of a farm file, or of the demo farm, as an .xlsx file. */
export const plan: Command = async (args) => {
  const { values, positionals } = readArguments(args, options);
  const [path, ...more] = positionals;
  if (more.length > 0) throw new Mistake(`plan takes one farm file; got ${positionals.length}.`);
  if ((path === undefined) !== (values.demo === true)) {
    throw new Mistake('plan takes either a farm file (plan FARM.json) or --demo, not both.');
  }
  const { out, plain = false, force = false, 'add-in': where } = values;
  if (where !== undefined && plain) {
    throw new Mistake(
      '--add-in is for GILL functions, and --plain has none: leave one of them out.',
    );
  }
  if (out === undefined) throw new Mistake('plan needs --out and the file to write: --out x.xlsx');
  if (extname(out).toLowerCase() !== '.xlsx') {
    throw new Mistake(`--out takes the name of an .xlsx file; got ${out}.`);
  }
  const addIn = where === undefined ? undefined : await addInFrom(where);
  const farm = path === undefined ? farmOf(demoFarm, 'The demo farm') : await farmFromFile(path);
  const model = planWorkbook(countedFarm(farm), { formulas: plain ? 'plain' : 'live' });
  const bytes = writeXlsx(model, computedValues(model), addIn && { addIn });
  await writeOutputFile(out, bytes, {
    force,
    ...(path !== undefined && { input: path }),
  });
  console.log(
    `${out}: ${model.sheets.length} sheets, ${
      plain ? "the spreadsheet's own functions only" : 'GILL functions'
    }${addIn ? ', offers the pane' : ''}.`,
  );
  return 0;
};
