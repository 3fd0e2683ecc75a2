import { describe, expect, it } from 'vitest';
import { columnLetters } from '../../src/functions/cell-address';
import { findCard } from '../../src/functions/card-list';

describe('a card by its id', () => {
  it.each(['FEED.DAY', 'feed.day', 'GILL.FEED.DAY', 'Gill.Feed.Day'])('%s', (id) => {
    expect(findCard(id)?.id).toBe('FEED.DAY');
  });
  it.each(['FEED', 'FEED.GILL.DAY', 'GILL.GILL.FEED.DAY', ''])('%s is none', (id) => {
    expect(findCard(id)).toBeUndefined();
  });
});

describe('letters of a column', () => {
  it.each([
    [0, 'A'],
    [25, 'Z'],
    [26, 'AA'],
    [51, 'AZ'],
    [52, 'BA'],
    [701, 'ZZ'],
    [702, 'AAA'],
    [16383, 'XFD'],
  ])('%s: %s', (column, letters) => {
    expect(columnLetters(column)).toBe(letters);
  });
});
