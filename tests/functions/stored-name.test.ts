import { describe, expect, it } from 'vitest';
import { cards } from '../../src/functions/card-list';
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

  it('leaves references with dots and ranges as they are written', () => {
    const formula = 'gill.load.tan(Log[feed a day])+SUM(Sheet.1!A1:B2)';
    expect(storedFormula(formula)).toBe(
      '_xldudf_GILL_LOAD_TAN(Log[feed a day])+SUM(Sheet.1!A1:B2)',
    );
  });

  it('takes a prefix only where a name begins with it', () => {
    expect(shownFormula('A_xlfn.SORT(1)')).toBe('A_xlfn.SORT(1)');
    expect(shownFormula('_XLFN.IFNA(1,2)')).toBe('IFNA(1,2)');
  });

  it('names each call once, whatever else is called', () => {
    expect(storedCalls('SUM(GILL.LOAD.TAN(1),gill.load.tan(2),GILL.NOTHING(3))')).toEqual([
      '_xldudf_GILL_LOAD_TAN',
    ]);
  });

  it.each(['A1+1', '2', 'SUM(A1:A9)', '"GILL"&A1'])('leaves %s unchanged', (formula) => {
    expect(storedFormula(formula)).toBe(formula);
    expect(shownFormula(formula)).toBe(formula);
    expect(storedCalls(formula)).toEqual([]);
  });
});
