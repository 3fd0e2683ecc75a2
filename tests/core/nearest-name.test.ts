import { describe, expect, it } from 'vitest';
import { closeName, nearestName } from '../../src/core/nearest-name';

const crops = ['basil', 'bok choy', 'lettuce', 'swiss chard'];

describe('the name that was meant', () => {
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

  it('a third of the letters may differ, and one of a short name', () => {
    expect(closeName('abcdxx', ['abcdef'])).toBe('abcdef');
    expect(closeName('abcxxx', ['abcdef'])).toBeUndefined();
    expect(closeName('ax', ['ab'])).toBe('ab');
  });

  it('is the first of several that are as near, and none of none', () => {
    expect(nearestName('cat', ['bat', 'rat'])).toBe('bat');
    expect(nearestName('cat', [])).toBeUndefined();
    expect(closeName('cat', [])).toBeUndefined();
  });

  it('two letters of a name do not point to it, three do', () => {
    expect(closeName('le', crops)).toBeUndefined();
    expect(closeName('let', crops)).toBe('lettuce');
  });
});
