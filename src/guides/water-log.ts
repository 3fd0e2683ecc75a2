import { cautions } from '../functions/cautions';
import type { Guide } from './guide';
import { ammoniaTests } from './pictures';

export const waterLog: Guide = {
  id: 'water-log',
  title: 'Keep the water safe with the log',
  question: 'I test the water every week. Is it safe, and what do I add?',
  leads:
    'A log that says at each test how much of the ammonia is of the kind that harms fish, how full of oxygen the water is, and what the dose would be.',
  cautions: [
    'A log replaces no eye: fish that gasp, flash or leave their feed need help now, whatever the figures say. Change water, add air, stop feeding.',
    cautions.electricity,
    cautions.medicines,
    cautions.sulphide,
    cautions.law,
  ],
  sections: [
    {
      title: 'Ammonia',
      steps: [
        {
          what: 'Type the tests as you take them, a row a day. TAN is total ammonia as nitrogen; a kit that shows NH3 or NH4 needs its factor first.',
          cells: [
            ...['Date', 'Water, °C', 'pH', 'TAN, mg/L', 'Un-ionised, mg/L', 'Oxygen, mg/L'].map(
              (enter, i) => ({ at: `${'ABCDEF'.charAt(i)}1`, enter }),
            ),
            ...(
              [
                ['2026-03-30', 26.2, 6.9, 1.2, 5.6],
                ['2026-04-06', 26.5, 7.3, 1.6, 5.2],
                ['2026-04-13', 27, 8, 1.4, 4.1],
              ] as const
            ).flatMap((row, r) =>
              row.map((enter, c) => ({ at: `${'ABCDF'.charAt(c)}${r + 2}`, enter })),
            ),
          ],
        },
        {
          what: 'Type one formula in E2 for all rows. It fills the column down, and rows that you add later count when you make the ranges longer.',
          cells: [
            {
              at: 'E2',
              formula: '=GILL.AMMONIA.UNIONISED(D2:D4,C2:C4,B2:B4)',
              shows: [['0.0059'], ['0.0199'], ['0.0858']],
            },
          ],
          then: 'The last test has less ammonia than the one before, and yet {E4} instead of {E3} mg/L of the harmful kind: pH and warmth made it so. Damage to gills begins near 0.05 mg/L.',
          picture: {
            alt: 'Bars of un-ionised ammonia at three tests: {E2}, {E3} and {E4} mg/L. Only the last stands above the line at 0.05 mg/L.',
            draw: ammoniaTests,
          },
        },
        {
          what: 'Ask how much total ammonia you could bear at the pH and warmth of the last test.',
          cells: [
            { at: 'A6', enter: 'TAN that may be, mg/L' },
            { at: 'B6', formula: '=GILL.AMMONIA.CEILING(0.05,C4,B4)', shows: '0.82' },
          ],
          then: 'The test says {D4}, and {B6} is the most. Stop feeding, add air, change part of the water with water that has been treated and warmed, and test again in a few hours. Do not add base now.',
        },
        {
          what: 'See what a slip does: type the water temperature where the pH belongs.',
          cells: [
            { at: 'A7', enter: 'A slip' },
            {
              at: 'B7',
              formula: '=GILL.AMMONIA.UNIONISED(1.4,27,8)',
              shows: '#VALUE!',
              says: 'ph must be between 0 and 14; got 27',
            },
          ],
          then: 'A wrong entry gives no number that could be taken for a right one. The sentence stands in the note of the error.',
        },
      ],
    },
    {
      title: 'Oxygen and carbon dioxide',
      steps: [
        {
          what: 'Ask how full of oxygen the water was at the last test, and what it could hold.',
          cells: [
            { at: 'A8', enter: 'Water could hold, mg/L' },
            { at: 'B8', formula: '=GILL.OXYGEN.FULL(B4)', shows: '7.97' },
            { at: 'A9', enter: 'Share of that' },
            { at: 'B9', formula: '=GILL.OXYGEN.PERCENT(F4,B4)', shows: '51 %' },
          ],
          then: 'Warm water holds little to begin with. Test at dawn and after feeding, when it is lowest.',
        },
        {
          what: 'Ask for the carbon dioxide, with an alkalinity of 57 mg/L as CaCO3 and the pH of 30 March.',
          cells: [
            { at: 'A10', enter: 'Carbon dioxide, mg/L' },
            { at: 'B10', formula: '=GILL.CARBON.DIOXIDE(C2,57,B2)', shows: '14.0' },
          ],
          then: 'Below 20 mg/L is where it should stay. Air drives it out; base only hides it.',
        },
      ],
    },
    {
      title: 'Doses',
      cautions: [cautions.base, cautions.steps, cautions.chlorine],
      paragraphs: [
        'A dose is for the whole water that moves round: tanks, beds, sump and pipes. Work it out, then add a part of it, wait, test, and go on.',
      ],
      steps: [
        {
          what: 'The pH keeps falling because the bacteria of the filter use up alkalinity. Ask what lifts it from 57 to 80 mg/L as CaCO3 in 108000 L, with the mildest base.',
          cells: [
            { at: 'A11', enter: 'Potassium bicarbonate, g' },
            {
              at: 'B11',
              formula: '=GILL.DOSE.BASE(108000,57,80,"potassium bicarbonate")',
              shows: '4969',
            },
            { at: 'A12', enter: 'Of that a day, g' },
            { at: 'B12', formula: '=B11/4', shows: '1242' },
          ],
          then: 'Over four days, {B12} g a day, dissolved in a bucket and poured slowly where the water moves, away from the fish. Not while ammonia is high.',
        },
        {
          what: 'Nitrite shows 0.6 mg/L as nitrogen and there are 12 mg/L of chloride in the water. Ask for the salt that keeps nitrite out of the fish; calcium chloride is the kind that plants bear.',
          cells: [
            { at: 'A13', enter: 'Calcium chloride, g' },
            {
              at: 'B13',
              formula: '=GILL.DOSE.SALT(108000,0.6,12)',
              shows: '1319',
            },
          ],
        },
        {
          what: 'The make-up water of the week is 2500 L from the tap, with 0.8 mg/L of chlorine. Ask what takes it out, in the make-up tank.',
          cells: [
            { at: 'A14', enter: 'Sodium thiosulphate, g' },
            { at: 'B14', formula: '=GILL.DOSE.DECHLOR(2500,0.8)', shows: '14.0' },
          ],
          then: 'Ask the water works whether they add chloramine: then ammonia is set free, and it, too, must be gone before the water meets the fish.',
        },
      ],
    },
  ],
};
