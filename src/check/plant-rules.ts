import { figure, type Finding } from './finding';
import { labelled, type Labelled } from './labels';
import type { OpenSheet } from './open-sheet';

const finding = (
  at: Labelled,
  what: string,
  why: string,
  remedy: string,
  level: Finding['level'] = 'watch',
): Finding => ({ level, what, sheet: at.sheet, address: at.address, why, remedy });

const withUnit = (value: number, { unit }: Labelled): string => `${figure(value)} ${unit}`.trim();

/** The pumps against what the tanks ask for, where both stand there in one unit. */
function pumps(sheets: readonly OpenSheet[]): Finding[] {
  const gives = labelled(sheets, /^the pumps really give\b/i);
  const asked = labelled(sheets, /^flow that the (?:tanks ask|pumps sheet asks) for\b/i);
  if (!gives || !asked || gives.value >= asked.value || gives.unit !== asked.unit) return [];
  return [
    finding(
      gives,
      `The pumps give ${withUnit(gives.value, gives)}; the tanks ask for ${withUnit(asked.value, asked)}.`,
      'Lift and friction leave less of a pump than its label says: the tanks turn over too slowly.',
      'Take a wider pipe, fewer fittings or a pump that gives more at that head.',
    ),
  ];
}

/** Beds that drain at once against the returns below them. */
function drains(sheets: readonly OpenSheet[]): Finding[] {
  const together = labelled(sheets, /^of them fill together\b/i);
  const takes = labelled(sheets, /^beds that the returns take while they drain\b/i);
  if (!together || !takes || together.value <= takes.value) return [];
  return [
    finding(
      takes,
      `${figure(together.value)} beds drain at once; the returns take ${figure(takes.value)}.`,
      'The return backs up and the beds stand in water, or it runs over.',
      'Let the beds flood in smaller groups, or give them wider or more returns.',
    ),
  ];
}

/** What the make-up water brings along. */
function makeup(sheets: readonly OpenSheet[]): Finding[] {
  const sodium = labelled(sheets, /^sodium after a year\b/i);
  const ammonia = labelled(sheets, /^ammonia nitrogen set free in the make-?up\b/i);
  const chlorine = labelled(sheets, /^chlorine in the source water\b/i);
  return [
    ...(sodium && sodium.value > 50
      ? [
          finding(
            sodium,
            `Sodium comes to ${figure(sodium.value)} mg/L within a year.`,
            'Leafy crops suffer above 50 to 70 mg/L (recalled).',
            'Let more water go, or find softer water.',
          ),
        ]
      : []),
    ...(ammonia && ammonia.value > 0
      ? [
          finding(
            ammonia,
            `Chloramine in the make-up sets ${figure(ammonia.value)} mg/L of ammonia nitrogen free.`,
            'It does not air out; what takes the chlorine leaves the ammonia.',
            'Treat the make-up in a tank apart, and test chlorine, ammonia and pH before it meets the fish.',
          ),
        ]
      : chlorine && chlorine.value > 0
        ? [
            finding(
              chlorine,
              `The source water holds ${figure(chlorine.value)} mg/L of chlorine.`,
              'Chlorine kills fish and the bacteria of the filter.',
              'Treat the make-up in a tank apart, and test it before it meets the fish.',
            ),
          ]
        : []),
  ];
}

function mould(sheets: readonly OpenSheet[]): Finding[] {
  const above = labelled(sheets, /^above the limits of grey mould\b/i);
  if (!above || above.value <= 0) return [];
  return [
    finding(
      above,
      `Leaves were wet and nights mild for ${figure(above.value)} hours a day more than grey mould needs.`,
      'It broke out above 7 hours wet and 9.5 night hours at 9 to 21 °C (Yunis et al. 1994).',
      'Vent at dusk and at sunrise, water early, take leaves off that touch.',
    ),
  ];
}

/** Pumps, returns, make-up and wet leaves, by the labels that stand beside the figures. */
export const plantRules = (sheets: readonly OpenSheet[]): Finding[] => [
  ...pumps(sheets),
  ...drains(sheets),
  ...makeup(sheets),
  ...mould(sheets),
];
