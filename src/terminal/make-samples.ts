import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { sampleFarms, sampleFiles, sampleWorkbooks } from './sample-workbooks';

/** npm run samples: makes the sample workbooks anew. */
const folder = fileURLToPath(new URL('../../sample-workbooks/', import.meta.url));
for (const [name, bytes] of sampleFiles(sampleWorkbooks(sampleFarms(folder)))) {
  writeFileSync(`${folder}${name}`, bytes);
  console.log(`sample-workbooks/${name}`);
}
