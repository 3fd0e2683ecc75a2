import { unit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { errorOf, numberOf } from '../../tools/card-value';

describe('HEAT.COVER', () => {
  it('accepts US units: 1 Btu/h/ft2/degF is 5.678 W/m2/K by mathjs too, to 1e-9', () => {
    const ours = numberOf('HEAT.COVER', 1, '1 Btu/h/ft2/degF', 1, 0);
    const other = unit('1 BTU/(hour ft^2 degF)').toNumber('W/(m^2 K)');
    expect(Math.abs(ours / other - 1)).toBeLessThan(1e-9);
  });

  it.each([
    ['single film', 1.15, 6.5],
    ['inflated double film', 0.7, 4],
    ['single glass', 1.1, 6.2],
  ])(
    '%s: %d Btu/h/ft2/degF is %d W/m2/K (ANSI/ASAE EP406.4, memory; conversion by mathjs)',
    (_, btu, si) => {
      const other = unit(`${btu} BTU/(hour ft^2 degF)`).toNumber('W/(m^2 K)');
      expect(numberOf('HEAT.COVER', 1, `${btu} Btu/h/ft2/degF`, 1, 0)).toBeCloseTo(other, 8);
      expect(Math.abs(other - si)).toBeLessThan(0.1);
    },
  );

  it('a second film saves about as much as was measured for double glazing: 34 % (Rasheed, Lee & Lee 2017, read)', () => {
    const saved = 1 - numberOf('HEAT.COVER', 1, 4, 15, 0) / numberOf('HEAT.COVER', 1, 6.5, 15, 0);
    expect(Math.abs(saved - 0.34)).toBeLessThan(0.05);
  });

  it('grows with area, U-value and difference, and is negative where heat comes in', () => {
    expect(numberOf('HEAT.COVER', 480, 6.5, 15, 0)).toBe(46800);
    expect(numberOf('HEAT.COVER', 240, 6.5, 20, -5)).toBe(39000);
    expect(numberOf('HEAT.COVER', 240, 6.5, 15, 15)).toBe(0);
    expect(numberOf('HEAT.COVER', 240, 6.5, 20, 30)).toBe(-15600);
    expect(errorOf('HEAT.COVER', 240, 65, 15, 0)).toMatch(
      /^#VALUE! u must be more than 0 W\/m²\/K/,
    );
  });
});

describe('HEAT.WATER', () => {
  it('is within 1 % of the energy by the density and heat capacity of water at 20 degC (998.2 kg/m3, 4.182 kJ/kg/K; memory)', () => {
    const exact = (1 * 998.2 * 4.182 * 5) / 3600;
    expect(Math.abs(numberOf('HEAT.WATER', 1000, 20, 25) / exact - 1)).toBeLessThan(0.01);
  });

  it('takes gallons and degrees Fahrenheit as mathjs does', () => {
    const litres = unit('1100 gallon').toNumber('litre');
    expect(numberOf('HEAT.WATER', '1100 gal', '68 degF', '77 degF')).toBeCloseTo(
      numberOf('HEAT.WATER', litres, 20, 25),
      8,
    );
  });

  it('is nothing for no change, negative for cooling, and names the argument that is wrong', () => {
    expect(numberOf('HEAT.WATER', 1000, 20, 20)).toBe(0);
    expect(numberOf('HEAT.WATER', 1000, 25, 20)).toBe(-numberOf('HEAT.WATER', 1000, 20, 25));
    expect(errorOf('HEAT.WATER', 1000, 20, 250)).toBe(
      '#VALUE! to must be between -2 and 50 °C; got 250',
    );
  });
});
