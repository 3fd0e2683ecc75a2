import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { computedValues } from '../engine/engine';
import { countedFarm } from '../experience/taken-over';
import { writeXlsx } from '../ooxml/write-xlsx';
import { demoFarm } from '../plan/demo-farm';
import { readFarm } from '../plan/farm';
import type { WorkbookModel } from '../plan/workbook-model';
import { planWorkbook } from '../plan/plan';
import type { ComputedValues } from '../plan/computed-values';

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

export interface SampleWorkbook {
  readonly file: string;
  readonly farm: string;
  readonly model: WorkbookModel;
  readonly values: ComputedValues;
  readonly bytes: Uint8Array;
}

/** A live and a plain workbook of each farm. */
export function sampleWorkbooks(farms: ReadonlyMap<string, unknown>): readonly SampleWorkbook[] {
  return [...farms].flatMap(([name, json]) => {
    const farm = countedFarm(readFarm(json));
    return (['live', 'plain'] as const).map((formulas): SampleWorkbook => {
      const model = planWorkbook(farm, { formulas });
      const values = computedValues(model);
      const stem = basename(name, '.json');
      const bytes = writeXlsx(model, values);
      return { file: `${stem}-${formulas}.xlsx`, farm: stem, model, values, bytes };
    });
  });
}

/** Every file that is made: the demo's farm file, and the workbooks. */
export function sampleFiles(workbooks: readonly SampleWorkbook[]): ReadonlyMap<string, Uint8Array> {
  return new Map([
    [DEMO, new TextEncoder().encode(`${JSON.stringify(demoFarm, null, 2)}\n`)],
    ...workbooks.map(({ file, bytes }) => [file, bytes] as const),
  ]);
}
