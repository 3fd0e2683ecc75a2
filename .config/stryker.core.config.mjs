import { readFileSync } from 'node:fs';

const shared = JSON.parse(readFileSync(new URL('stryker.config.json', import.meta.url), 'utf8'));

/** The core's constants too: what is made once while a file loads is a figure there, not a sentence. */
export default {
  ...shared,
  mutate: ['src/core/**/*.ts', '!src/core/tables/**'],
  ignoreStatic: false,
};
