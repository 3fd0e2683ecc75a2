import { blankWithout, call } from '../plan/formula-parts';
import { MONTH_NAMES } from '../core/month-names';
import { FREEZING, HOTTEST } from './climate-of-wish';
import { cropSteps } from './variant-crop-lines';
import type { VariantPart } from './variant-line';
import { typedParts } from './variant-typed-lines';
import { places, type LinesOf, toolsFor, month } from './variant-tools';
import { limitsPart } from './variant-limits';
import { stockPart } from './variant-stock-lines';
import { roomPart } from './variant-room-lines';
import { moneyPart } from './variant-money-lines';
import { fishSteps } from './variant-fish-steps';
import { waterSteps } from './variant-water-steps';
import { monthSteps } from './variant-month-steps';

/** The lines of the sheet Variants: what is typed, what follows, and the steps on the way to it. */
export function variantParts(of: LinesOf): {
  readonly typed: readonly VariantPart[];
  readonly water: VariantPart;
  readonly outcome: readonly VariantPart[];
  readonly steps: readonly VariantPart[];
} {
  const { gill, system, currency, place } = of;
  const tools = toolsFor(of);
  const { crops } = tools;
  const water: VariantPart = {
    title: 'Water of the months',
    remark: 'By the air and what it is held at; type over it where you know better.',
    lines: places.map((i) => ({
      id: month('w', i),
      label: `Water in ${MONTH_NAMES[i]}`,
      quantity: 'temperature',
      look: 'preset',
      wish: ['months', i, 'water'],
      rule: {
        rule: { kind: 'number', min: 0, max: 110 },
        message: 'Type the temperature of the water in this month.',
      },
      formula: (at) =>
        blankWithout(
          [at('species'), place.mean(i)],
          call('MIN', HOTTEST, call('MAX', place.mean(i), at('heat').orZero, FREEZING)),
        ),
    })),
  };
  return {
    typed: typedParts(system, crops, currency, of.remarks),
    water,
    outcome: [limitsPart(tools), stockPart(tools), roomPart(tools), moneyPart(tools)],
    steps: [
      fishSteps(tools),
      ...crops.map((id, i): VariantPart => ({
        title: `Steps: crop ${i + 1}`,
        lines: cropSteps(id, { gill, system, place }),
      })),
      waterSteps(tools),
      monthSteps(tools),
    ],
  };
}
