/** Farms for tests: the samples, and farms of any size. */
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

export const inWords = (tanks: number, beds: number): string =>
  `${tanks} tanks, ${beds.toLocaleString('en')} beds`;

/** The tanks and beds of the example farm over and over. */
export const farmOfSize = (tanks: number, beds: number): Farm =>
  readFarm({
    ...demoFarm,
    tanks: Array.from({ length: tanks }, (_, i) => ({
      ...demoFarm.tanks[i % demoFarm.tanks.length],
      name: `T${i + 1}`,
    })),
    beds: Array.from({ length: beds }, (_, i) => ({
      ...demoFarm.beds[i % demoFarm.beds.length],
      name: `B${i + 1}`,
    })),
  });
