import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { computedValues } from '../engine/engine';
import { writeXlsx } from '../ooxml/write-xlsx';
import { demoFarm } from '../plan/demo-farm';
import { readFarm } from '../plan/farm';
import { planWorkbook } from '../plan/plan';

/** The demo farm's file among the samples: made from the demo itself, so that nothing is said twice. */
const DEMO = 'quillwater.json';

/** The sample farms by file name; the others are typed as farm files in the folder. */
export function sampleFarms(folder: string): ReadonlyMap<string, unknown> {
  const typed = readdirSync(folder)
    .filter((name) => name.endsWith('.json') && name !== DEMO)
    .sort();
  return new Map<string, unknown>([
    [DEMO, demoFarm],
    ...typed.map((name): [string, unknown] => [
      name,
      JSON.parse(readFileSync(join(folder, name), 'utf8')),
    ]),
  ]);
}

/** Every file that is made: the demo's farm file, and a live and a plain workbook of each farm. */
export function sampleFiles(folder: string): ReadonlyMap<string, Uint8Array> {
  const files = new Map<string, Uint8Array>();
  files.set(DEMO, new TextEncoder().encode(`${JSON.stringify(demoFarm, null, 2)}\n`));
  for (const [name, json] of sampleFarms(folder)) {
    const farm = readFarm(json);
    for (const formulas of ['live', 'plain'] as const) {
      const model = planWorkbook(farm, { formulas });
      const file = `${basename(name, '.json')}-${formulas}.xlsx`;
      files.set(file, writeXlsx(model, computedValues(model)));
    }
  }
  return files;
}
