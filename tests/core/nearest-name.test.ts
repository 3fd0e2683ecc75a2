import { describe, expect, it } from 'vitest';
import { closeName, nearestName } from '../../src/core/nearest-name';

const crops = ['basil', 'bok choy', 'lettuce', 'swiss chard'];

describe('the nearest name', () => {
  // Edits counted by hand.
  it.each([
    ['letuce', 'lettuce'],
    ['lettuces', 'lettuce'],
    ['lattuce', 'lettuce'],
    ['BOK-CHOY', 'bok choy'],
    ['chard', 'swiss chard'],
  ])('%s is close to %s', (wanted, name) => {
    expect(closeName(wanted, crops)).toBe(name);
    expect(nearestName(wanted, crops)).toBe(name);
  });

  it.each(['tomato', 'x', 'bas-xyz', 'bisal'])('%s is close to none', (wanted) => {
    expect(closeName(wanted, crops)).toBeUndefined();
  });

  it('may differ in a third of its letters, or in one of a short name', () => {
    expect(closeName('abcdxx', ['abcdef'])).toBe('abcdef');
    expect(closeName('abcxxx', ['abcdef'])).toBeUndefined();
    expect(closeName('ax', ['ab'])).toBe('ab');
  });

  it('is the first of several equally near, and undefined for an empty list', () => {
    expect(nearestName('cat', ['bat', 'rat'])).toBe('bat');
    expect(nearestName('cat', [])).toBeUndefined();
    expect(closeName('cat', [])).toBeUndefined();
  });

  it('is found by three letters, not by two', () => {
    expect(closeName('le', crops)).toBeUndefined();
    expect(closeName('let', crops)).toBe('lettuce');
  });
});
