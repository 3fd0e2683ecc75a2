import { crops } from '../core/tables/crops';
import type { Source } from './card';

/** Publications on crops that more than one card rests on. */

export const cropFigures: Source = {
  author: 'Publications and usage of the trade',
  year: '',
  title: `crop table: times, spacing, climate, seed, yield and feed of ${crops.length} crops`,
  where: 'GILL.FACT.CROP(crop, "… source") names the source of each figure',
  evidence: 'common practice',
};

export const faoAppendix: Source = {
  author: 'Somerville, Cohen, Pantanella, Stankus & Lovatelli',
  year: 2014,
  title: 'Small-scale aquaponic food production, FAO Fish. Aquac. Tech. Pap. 589',
  where: 'Appendix 1: spacing, germination and growth time of twelve vegetables',
  evidence: 'read',
};

export const sowingArithmetic: Source = {
  author: 'Definition',
  year: '',
  title: 'dates counted in whole days from sowing',
  evidence: 'definition',
};
