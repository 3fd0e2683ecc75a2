import { demoFarm } from '../../plan/demo-farm';
import { readFarm } from '../../plan/farm';
import type { WorkbookModel } from '../../plan/model';
import { planWorkbook } from '../../plan/plan';

/** The plan of the demo farm, live: what a first visit shows. */
export const demoPlan = (): WorkbookModel => planWorkbook(readFarm(demoFarm), { formulas: 'live' });
