import { wrongValue } from '../core/errors';
import { number, type Parameter } from './parameter';

/** Parameters that air, venting, sun, water use and heat share. */
export const airTemperature = <const N extends string>(
  name: N,
  meaning: string,
): Parameter<N, number> => number(name, meaning, { unit: 'degC', min: -60, max: 60 });

/** A share; drier than 1 % is no reading of a tunnel's or a weather station's air. */
export const humidity = <const N extends string>(name: N, meaning: string): Parameter<N, number> =>
  number(name, meaning, { unit: 'share', min: 0.01, max: 1 });

export const coverLight = number('cover', 'share of the light that the cover lets in', {
  unit: 'share',
  above: 0,
  max: 1,
  default: 0.7,
});

export const shadeCloth = number('shade', 'share that a shade cloth takes', {
  unit: 'share',
  min: 0,
  max: 0.95,
  default: 0,
});

const signed = number('latitude', 'latitude, south negative', {
  unit: 'degrees',
  min: -90,
  max: 90,
});

/** Takes "33.9 S" beside -33.9. */
export const latitude: typeof signed = {
  ...signed,
  takes: 'between -90 and 90 degrees, south negative, or text such as "33.9 S"',
  read: (cell) => {
    const match = typeof cell === 'string' ? /^(.*?)[\s°]*([NS])$/i.exec(cell.trim()) : null;
    if (!match) return signed.read(cell);
    const size = signed.read(match[1] as string);
    if (size < 0) {
      throw wrongValue(
        `latitude takes either a sign or a letter, such as -33.9 or "33.9 S"; got "${String(cell)}"`,
      );
    }
    return /s/i.test(match[2] as string) ? -size : size;
  },
};
