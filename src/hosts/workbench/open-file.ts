import { readFarm } from '../../plan/farm';
import { planWorkbook } from '../../plan/plan';
import { gridFrom } from '../../engine/engine';
import type { Pause } from '../../plan/in-steps';
import type { Work } from './kept-work';
import type { OpenedFile } from './open-xlsx';

async function farmWork(text: string): Promise<Work> {
  let json: unknown;
  try {
    json = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (fault) {
    throw new Error(`It is not a farm file in JSON: ${(fault as Error).message}`);
  }
  const { countedFarm } = await import('../../experience/taken-over');
  const plan = planWorkbook(countedFarm(readFarm(json)), { formulas: 'live' });
  return { data: gridFrom(plan), plans: { '': plan }, farm: plan.farm };
}

/** Reads a farm file or a workbook into work for the grid; throws a sentence where it cannot. */
export async function openFile(file: File, pause: Pause): Promise<OpenedFile> {
  if (/\.json$/i.test(file.name)) return { work: await farmWork(await file.text()), notes: [] };
  const { xlsxWork } = await import('./open-xlsx');
  return xlsxWork(new Uint8Array(await file.arrayBuffer()), pause);
}
