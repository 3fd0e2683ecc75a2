import { Model, type WorkbookData } from '@odoo/o-spreadsheet';
import { gridFrom } from '../../engine/engine';
import { storedValuesOf } from '../../engine/patches/open-with-stored-values';
import { takenApart } from '../../engine/sheet-contents';
import { countedFarm } from '../../experience/taken-over';
import { quietly } from '../../engine/quietly';
import { demoFarm } from '../../plan/demo-farm';
import { readFarm } from '../../plan/farm';
import type { PlanModel } from '../../plan/workbook-model';
import { planWorkbook } from '../../plan/plan';
import { packedSheets, type PackedSheets } from './packed-sheets';

/** The plan of the demo farm, live: what a first visit shows. */
export const demoPlan = (): PlanModel =>
  planWorkbook(countedFarm(readFarm(demoFarm)), { formulas: 'live' });

/** The demo plan with what its formulas give, as the build writes it into a file. */
export interface DemoWorkbook {
  /** Its frame. */
  readonly data: Partial<WorkbookData>;
  readonly sheets: PackedSheets;
  readonly farm: string;
}

export function demoWorkbook(): DemoWorkbook {
  const plan = demoPlan();
  const data = gridFrom(plan);
  const values = quietly(() => storedValuesOf(new Model(data)));
  if (!values) throw new Error('A formula of the demo plan may give something else on another day');
  const { frame, contents } = takenApart(data, values);
  return { data: frame, sheets: packedSheets(contents), farm: plan.farm };
}
