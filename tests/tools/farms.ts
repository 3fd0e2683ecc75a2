/** Farms for tests: the samples, and the largest that is shown. */
import { readFileSync } from 'node:fs';
import { demoFarm } from '../../src/plan/demo-farm';
import { type Farm, readFarm } from '../../src/plan/farm';

export const sampleNames = ['quillwater', 'aldermoor-springs', 'larkfield-school'] as const;

export const sampleFarm = (name: (typeof sampleNames)[number]): Farm =>
  readFarm(
    JSON.parse(
      readFileSync(new URL(`../../sample-workbooks/${name}.json`, import.meta.url), 'utf8'),
    ),
  );

/** 200 tanks and 1,000 beds, those of the example farm over and over. */
export const largestFarm = (): Farm =>
  readFarm({
    ...demoFarm,
    tanks: Array.from({ length: 200 }, (_, i) => ({
      ...demoFarm.tanks[i % demoFarm.tanks.length],
      name: `T${i + 1}`,
    })),
    beds: Array.from({ length: 1000 }, (_, i) => ({
      ...demoFarm.beds[i % demoFarm.beds.length],
      name: `B${i + 1}`,
    })),
  });
