import { BaseSequencer, type TestSpecification } from 'vitest/node';

/**
 * Files that take long although they are small. Where vitest has measured nothing yet it begins with the largest,
 * and one of these at the end would leave a core with nothing to do.
 */
const LONG = [
  'hosts/excel/planned-rows-everywhere',
  'renew/renew',
  'guides/guides',
  'why/demo-plan-explained',
  'renew/quarter-in-registers',
  'plan/sample-workbooks',
  'handover/demo-plan-handed-over',
  'plain-equals-live',
  'size/farm-of-proposal',
  'plan/read-book',
  'terminal/ahead',
  'ahead/planned-rows',
  'terminal/commands',
  'terminal/renewed-files',
].map((name) => `/tests/${name}.test.ts`);

const rankOf = ({ moduleId }: TestSpecification): number => {
  const at = LONG.findIndex((name) => moduleId.endsWith(name));
  return at < 0 ? LONG.length : at;
};

/** Vitest's own order, in each project with these files in front. */
export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const projects = [...new Set(sorted.map(({ project }) => project.name))];
    return projects.flatMap((name) =>
      sorted.filter(({ project }) => project.name === name).sort((a, b) => rankOf(a) - rankOf(b)),
    );
  }
}
