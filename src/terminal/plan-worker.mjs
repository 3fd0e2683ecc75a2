/** The planner in a thread of its own, so that the terminal hears Ctrl-C while it works. */
import { tsImport } from 'tsx/esm/api';

const { work } = await tsImport('./plan-work.ts', import.meta.url);
await work();
