/** Hours of wet leaf after which moulds infect, by temperature. */
import { noAnswer } from './errors';

export type LeafDisease = 'downy mildew' | 'grey mould';

interface Band {
  /** degC, both ends in it; where two bands meet the shorter time counts */
  readonly from: number;
  readonly to: number;
  readonly hours: number;
}

/**
 * Cucurbit downy mildew: 12 h at 10 to 15, 6 h at 15 to 19, 2 h at 20 degC, none above 28 (factorial trial and
 * producer article). Grey mould: 5 h at 18 to 24 (tomato), suppressed above 28; from 9 degC on 7 h (cucumber:
 * Yunis, Shtienberg, Elad & Mahrer 1994), which is taken from 24 to 28, too.
 */
export const wetnessBands: Readonly<Record<LeafDisease, readonly Band[]>> = {
  'downy mildew': [
    { from: 10, to: 15, hours: 12 },
    { from: 15, to: 20, hours: 6 },
    { from: 20, to: 28, hours: 2 },
  ],
  'grey mould': [
    { from: 9, to: 18, hours: 7 },
    { from: 18, to: 24, hours: 5 },
    { from: 24, to: 28, hours: 7 },
  ],
};

/** Hours of wet leaf. Throws #NUM! where it is too cold or too warm. */
export function wetHours(disease: LeafDisease, air: number): number {
  const bands = wetnessBands[disease];
  const hours = bands.filter(({ from, to }) => air >= from && air <= to).map((band) => band.hours);
  if (hours.length === 0) {
    throw noAnswer(
      `${disease} is not known to infect at ${air} °C; it does from ${bands[0]?.from} to ${bands.at(-1)?.to}`,
    );
  }
  return Math.min(...hours);
}

/** Hours a day, both as means of a week, above which grey mould broke out in unheated cucumber houses. */
export const MOULD_WET = 7;
export const MOULD_NIGHT = 9.5;

/** Hours by which the nearer of both limits is passed; above 0 grey mould is to be expected. */
export const mouldMargin = (wet: number, night: number): number =>
  Math.min(wet - MOULD_WET, night - MOULD_NIGHT);
