import { describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { cards } from '../../src/functions/card-list';
import { readNumberText, type UnitId, unitFact } from '../../src/functions/units';

const read = (text: string, unit: UnitId): number => readNumberText(text, unit, 'it');

/** Factors by definition: inch 25.4 mm, pound 453.59237 g, US gallon 231 cubic inches. */
const GALLON = 3.785411784;
const POUND = 453.59237;
const FOOT = 0.3048;

const written: readonly (readonly [UnitId, string, number])[] = [
  ['g', '2.5 lb', 2.5 * POUND],
  ['g', '8 oz', POUND / 2],
  ['g', '1.1kg', 1100],
  ['kg', '25 lbs', (25 * POUND) / 1000],
  ['kg/h', '5 lb/hour', (5 * POUND) / 1000],
  ['g/day', '2 lb/day', 2 * POUND],
  ['g/m2/day', '1 oz/ft2/day', POUND / 16 / FOOT ** 2],
  ['L', '1,100 gal', 1100 * GALLON],
  ['L', '1100 GAL', 1100 * GALLON],
  ['L', '7.8 m3', 7800],
  ['m3', '5000 ft3', 5000 * FOOT ** 3],
  ['L/h', '500 gph', 500 * GALLON],
  ['L/h', '5 gpm', 300 * GALLON],
  ['L/h', '100 L/min', 6000],
  ['m3/h', '800 cfm', 800 * 60 * FOOT ** 3],
  ['L/day', '50 gal/day', 50 * GALLON],
  ['m2', '320 ft2', 320 * FOOT ** 2],
  ['m2', '320 sq ft', 320 * FOOT ** 2],
  ['m2', '1 acre', 4046.8564224],
  ['m2', '0.5 ha', 5000],
  ['m2/m3', '90 ft2/ft3', 90 / FOOT],
  ['m', '12 ft', 12 * FOOT],
  ['m', '6 in', 0.1524],
  ['cm', '6 in', 15.24],
  ['mm', '2 in', 50.8],
  ['degC', '78 degF', (78 - 32) / 1.8],
  ['degC', '78 °F', (78 - 32) / 1.8],
  ['degC', '78 °F', (78 - 32) / 1.8],
  ['m2', '12 m²', 12],
  ['L', '7.8 m³', 7800],
  ['degC', '-40 F', -40],
  ['degC', '298.15 K', 25],
  ['mg/L', '2 ppm', 2],
  ['mg/L', '50 ug/L', 0.05],
  ['mg/L as CaCO3', '8 dKH', 8 * 17.848],
  ['mg/L as CaCO3', '3 meq/L', 3 * 50.04],
  ['g/kg', '3 ppt', 3],
  ['kg/m3', '0.5 lb/gal', (0.5 * POUND) / GALLON],
  ['g/g', '50 %', 0.5],
  ['g/m3', '17 mg/L', 17],
  ['day', '3 weeks', 21],
  ['week', '70 days', 10],
  ['h', '30 min', 0.5],
  ['min', '0.5 h', 30],
  ['degrees', '-34.5 deg', -34.5],
  ['share', '60 %', 0.6],
  ['share', '60%', 0.6],
  ['W', '0.5 hp', 0.5 * 550 * POUND * 1e-3 * FOOT * 9.80665],
  ['kWh', '3.6 MJ', 1],
  ['W/m2/K', '1.1 Btu/h/ft2/degF', 1.1 * 5.678263341],
  ['W/m2/K', '1.1 Btu/h/ft²/°F', 1.1 * 5.678263341],
  ['kPa', '12 mbar', 1.2],
  ['MJ/m2/day', '5 kWh/m2/day', 18],
  ['g/m2/day TAN', '450 mg/m2/day', 0.45],
  ['plants/m2', '2 /ft2', 2 / FOOT ** 2],
];

describe('text with a unit', () => {
  it.each(written)('in %s, "%s" is %d', (unit, text, value) => {
    expect(Math.abs(read(text, unit) - value)).toBeLessThanOrEqual(1e-6 * Math.abs(value));
  });

  const used = [
    ...new Set(cards.flatMap((card) => card.parameters.map((parameter) => parameter.unit))),
  ];
  it.each(used)('a parameter in "%s" takes the example of its error sentence', (unit) => {
    const examples = [...unitFact(unit).example.matchAll(/"([^"]+)"/g)].map(([, text]) => text);
    for (const text of examples) expect(read(text ?? '', unit)).toBeGreaterThan(0);
    expect(read('1.5', unit)).toBe(1.5);
  });

  it.each([
    ['1100', 1100],
    ['1,234,567.5', 1234567.5],
    ['1.234.567', 1234567],
    ['1.234.567,5', 1234567.5],
    ['1 234 567,5 L', 1234567.5],
    ['1\u00a0100 L', 1100],
    ['7,5 L', 7.5],
    ['-7,25 L', -7.25],
    ['0,250 L', 0.25],
    ['1250,125 L', 1250.125],
    ['1 250,125 L', 1250.125],
    ['1.250 L', 1.25],
    ['1,5e3', 1500],
    ['.5', 0.5],
    ['1e3', 1000],
    ['+7', 7],
    ['  7.5  ', 7.5],
    ['12 L', 12],
  ] as const)('"%s" is the number %d', (text, value) => {
    expect(read(text, 'L')).toBe(value);
  });
});

describe('text that is no such number gets the sentence, never a number', () => {
  it.each([
    ['degC', '12 ft'],
    ['degC', '60 %'],
    ['L', '78 degF'],
    ['L', '12 ft'],
    ['share', '60 degF'],
    ['fish', '640 lb'],
    ['mg/L', '2 lb'],
    ['L', '1 12 gal'],
    ['L', '1 1000 L'],
    ['L', '1,,5 L'],
    ['L', '1,5,5 L'],
    ['L', '1.10.100 L'],
    ['L', '1.100,50.5 L'],
    ['L', '1 100.100.100 L'],
    ['L', '1.100,5 gal'],
    ['L', '7,5 gal'],
    ['L', '1,10 gal'],
    ['L', '1e999 L'],
    ['L', '- 5 L'],
    ['L', '5 L L'],
    ['L', '5-3'],
    ['L', '0x10'],
    ['L', '5 ()'],
    ['L', '1100 gal per hour'],
    ['L', 'NaN'],
    ['L', 'Infinity'],
    ['L', 'gal'],
    ['L', '-'],
    ['g', '5 lb 8 oz'],
    ['mm', '1/2 in'],
  ] as const)('%s: "%s"', (unit, text) => {
    const { measures, example } = unitFact(unit);
    const sentence = `it takes ${measures}, such as ${example}; got "${text}"`;
    expect(() => read(text, unit)).toThrow(sentence);
    expect(() => read(text, unit)).toThrow(GillError);
  });
});

describe('a comma before three digits', () => {
  it('asks which is meant', () => {
    expect(() => read('1,250 kg', 'kg')).toThrow(
      'it: "1,250 kg" may be 1250 or 1.25; write "1250 kg" or "1.25 kg"',
    );
    expect(() => read('-1,250', 'L')).toThrow('it: "-1,250" may be -1250 or -1.25');
  });

  it.each([
    ['1,250 lb', 'kg', 1250 * 0.45359237],
    ['1,100 gal', 'L', 1100 * GALLON],
    ['1,000 ft2', 'm2', 92.90304],
    ['1,800 °F', 'degC', 982.222222222222],
    ['1,200 gph', 'L/h', 1200 * GALLON],
  ] as const)('parts thousands before a customary unit: %s', (text, unit, value) => {
    expect(read(text, unit)).toBeCloseTo(value, 6);
  });

  it('parts thousands where the reader knows that the farm writes so', () => {
    expect(readNumberText('1,250', 'L', 'it', 'thousands')).toBe(1250);
    expect(readNumberText('1,250.5 L', 'L', 'it', 'thousands')).toBe(1250.5);
    expect(() => readNumberText('7,5 L', 'L', 'it', 'thousands')).toThrow('it takes a volume');
  });
});
