import { describe, expect, it } from 'vitest';
import { cards } from '../../src/functions/list';
import {
  shownFormula,
  storedCalls,
  storedFormula,
  storedName,
} from '../../src/functions/stored-name';

describe('formulas as files store them', () => {
  it('turns every dot of a function into an underscore, and back', () => {
    for (const { id } of cards) {
      const shown = `IF(A1="",GILL.${id}(B1),1)`;
      const stored = storedFormula(shown);
      expect(stored).toBe(`IF(A1="",_xldudf_GILL_${id.replaceAll('.', '_')}(B1),1)`);
      expect(shownFormula(stored)).toBe(shown);
    }
  });

  it('has one stored name for each function', () => {
    expect(new Set(cards.map(({ id }) => storedName(id).toUpperCase())).size).toBe(cards.length);
  });

  it('leaves text, sheet names and defined names alone', () => {
    const formula = `"GILL.AMMONIA.SHARE(1)"&'GILL.AMMONIA.SHARE(x)'!A1&GILL.AMMONIA.SHARE`;
    expect(storedFormula(formula)).toBe(formula);
    expect(storedCalls(formula)).toEqual([]);
  });

  it('takes any case and finds calls inside calls', () => {
    const formula = 'gill.ammonia.share(GILL.Ammonia.Ceiling(0.05,8,24),20)';
    expect(storedFormula(formula)).toBe(
      '_xldudf_GILL_AMMONIA_SHARE(_xldudf_GILL_AMMONIA_CEILING(0.05,8,24),20)',
    );
    expect(storedCalls(formula)).toEqual([
      '_xldudf_GILL_AMMONIA_SHARE',
      '_xldudf_GILL_AMMONIA_CEILING',
    ]);
  });

  it('prefixes functions younger than the file format, and only those', () => {
    expect(storedFormula('ISOWEEKNUM(A1)+WEEKNUM(A1,21)+SUM(FILTER(A:A,B:B))')).toBe(
      '_xlfn.ISOWEEKNUM(A1)+WEEKNUM(A1,21)+SUM(_xlfn._xlws.FILTER(A:A,B:B))',
    );
    expect(shownFormula('_xlfn.ISOWEEKNUM(A1)+_xlfn._xlws.SORT(A:A)')).toBe(
      'ISOWEEKNUM(A1)+SORT(A:A)',
    );
  });

  it('refuses a function of ours that does not exist', () => {
    expect(() => storedFormula('GILL.FEED.NOTHING(1)')).toThrow('There is no function');
  });
});
