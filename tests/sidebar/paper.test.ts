import { expect, it } from 'vitest';
import { paperOf } from '../../src/sidebar/hand-over/paper';

it.each([
  [['de-DE', 'en-US'], false, 'A4'],
  [['en-GB'], false, 'A4'],
  [['en'], false, 'A4'],
  [['en-US'], false, 'Letter'],
  [['es-MX', 'es'], false, 'Letter'],
  [['de-DE'], true, 'Letter'],
] as const)('for %j and US units %s the paper is %s', (languages, isUS, paper) => {
  expect(paperOf(languages, isUS)).toBe(paper);
});
