import { cautions } from '../functions/cautions';
import type { Guide } from './guide';

export const powerCut: Guide = {
  id: 'power-cut',
  title: 'Before the power fails',
  question:
    'A tank of 7,800 L holds 640 tilapia of 235 g. How long do they live when the power fails, and what must stand in the plant room?',
  leads:
    'From the fish to the minutes that they have, from there to air, blower, sump and return, and to the heat of a winter: what the Plant room sheet of a plan works out for every tank.',
  cautions: [
    cautions.air,
    cautions.electricity,
    cautions.sulphide,
    cautions.chlorine,
    cautions.weight,
    cautions.heater,
    cautions.law,
  ],
  sections: [
    {
      title: 'The minutes',
      steps: [
        {
          what: 'Type the tank, and ask for the oxygen that its fish use. After feeding they use 1.4 times the mean of the day (common practice).',
          cells: [
            { at: 'A1', enter: 'Water in the tank, L' },
            { at: 'B1', enter: 7800 },
            { at: 'A2', enter: 'Fish' },
            { at: 'B2', enter: 640 },
            { at: 'A3', enter: 'Mean weight, g' },
            { at: 'B3', enter: 235 },
            { at: 'A4', enter: 'Oxygen used an hour, g' },
            { at: 'B4', formula: '=GILL.OXYGEN.FISH(B2,B3,"Nile tilapia",27)*1.4', shows: '79.5' },
          ],
        },
        {
          what: 'Ask how long they last from 5.5 mg/L when pump and air stop, bacteria in the water using 2 mg/L an hour; and when the air stops alone, while 7,800 L an hour come back with 7 mg/L.',
          cells: [
            { at: 'A5', enter: 'Minutes, all stops' },
            {
              at: 'B5',
              formula: '=GILL.OXYGEN.MINUTES(B1,5.5,"Nile tilapia",B4,0,2)',
              shows: '17.2',
            },
            { at: 'A6', enter: 'Minutes, the air stops' },
            {
              at: 'B6',
              formula: '=GILL.OXYGEN.MINUTES(B1,5.5,"Nile tilapia",B4,0,2,7800,7)',
              shows: '23.8',
            },
          ],
          then: '{B5} minutes: nobody who is not there comes in time. Air on a battery that starts by itself, and an alarm that was tried out, are part of the tank.',
        },
        {
          what: 'Ask what lengthens them: no feed for a day (0.001 g stands for none), half the fish, water full of oxygen, and ten stand-by stones of 1.2 m³ of air an hour a metre deep. A kg of oxygen that a rating promises is less in warm water: OXYGEN.TRANSFER says what is left.',
          cells: [
            { at: 'A10', enter: 'Minutes without feed' },
            {
              at: 'B10',
              formula:
                '=GILL.OXYGEN.MINUTES(B1,5.5,"Nile tilapia",GILL.OXYGEN.FISH(B2,B3,"Nile tilapia",27,0.001),0,2)',
              shows: '38.7',
            },
            { at: 'A11', enter: 'Minutes with half the fish' },
            {
              at: 'B11',
              formula: '=GILL.OXYGEN.MINUTES(B1,5.5,"Nile tilapia",B4/2,0,2)',
              shows: '29.6',
            },
            { at: 'A12', enter: 'Minutes from full water' },
            {
              at: 'B12',
              formula: '=GILL.OXYGEN.MINUTES(B1,GILL.OXYGEN.FULL(27),"Nile tilapia",B4,0,2)',
              shows: '29.4',
            },
            { at: 'A13', enter: 'Oxygen of ten stones, g an hour' },
            {
              at: 'B13',
              formula: '=1000*GILL.OXYGEN.TRANSFER(10*1.2*0.2787*0.03,27,5.5)',
              shows: '25.6',
            },
            { at: 'A14', enter: 'Minutes with them' },
            {
              at: 'B14',
              formula: '=GILL.OXYGEN.MINUTES(B1,5.5,"Nile tilapia",B4,B13,2)',
              shows: '23.5',
            },
          ],
          then: '{B10} minutes without feed: the cheapest help of all. Stones hold the tank for good only where they bring what fish and bacteria use.',
        },
      ],
    },
    {
      title: 'The air',
      steps: [
        {
          what: 'Ask for the air that holds 5.5 mg/L at the peak through stones a metre deep, and for the power of the blower.',
          cells: [
            { at: 'A7', enter: 'Air, m³ an hour' },
            { at: 'B7', formula: '=GILL.AIR.DIFFUSED(B4,1,27,5.5)', shows: '37.3' },
            { at: 'A8', enter: 'Blower, W' },
            { at: 'B8', formula: '=GILL.AIR.BLOWER(B7,1)', shows: '332' },
            { at: 'A9', enter: 'Battery for 12 hours, kWh' },
            { at: 'B9', formula: '=B8*12/1000/0.8/0.85', shows: '5.9' },
            { at: 'A15', enter: 'Hours on 2.4 kWh' },
            { at: 'B15', formula: '=2.4*0.8*0.85*1000/B8', shows: '4.9' },
            { at: 'A16', enter: 'kWh a year' },
            { at: 'B16', formula: '=B8*24*0.365', shows: '2907' },
            { at: 'A17', enter: 'Cost at 0.30 a kWh' },
            { at: 'B17', formula: '=B16*0.3', shows: '872' },
          ],
          then: 'Two batteries of 12 V and 100 Ah last {B15} hours; the sheet Money holds what you have against the outage that you want to bridge. A maker’s rating in kg of oxygen an hour is for clean water without any: GILL.OXYGEN.TRANSFER says what is left of it in your tank. What the fish breathe out leaves the same way; GILL.CARBON.STRIPPED says how much a column with a fan takes out.',
        },
      ],
    },
    {
      title: 'The water ways',
      steps: [
        {
          what: 'Count the fittings, ask for the head that they and 20 m of pipe of 50 mm cost at 7,800 L an hour, and what a pump of 3.5 m and 14,000 L an hour really gives against a lift of 1.5 m.',
          cells: [
            { at: 'D1', enter: 'Sum of K' },
            { at: 'E1', formula: '=GILL.FLOW.FITTINGS(5,0,1,0,1,0,1,1)', shows: '6.95' },
            { at: 'D2', enter: 'Head lost, m' },
            { at: 'E2', formula: '=GILL.FLOW.HEADLOSS(7800,50,20,27,"plastic",E1)', shows: '0.92' },
            { at: 'D3', enter: 'Flow, L an hour' },
            { at: 'E3', formula: '=GILL.FLOW.PUMP(3.5,14000,1.5,E2,7800)', shows: '7784' },
          ],
          then: '{E3} L an hour: just enough to turn the tank over once. Give the loss at a flow near the answer, as here.',
        },
        {
          what: 'Ask what a return of 75 mm carries at 2 % half full, how fast the water runs in it, and what the sump must hold when everything runs back: 20 m of pipe, two beds of 200 L, 100 L over the pump, 60 L of a day’s evaporation.',
          cells: [
            { at: 'D4', enter: 'Return, L an hour' },
            { at: 'E4', formula: '=GILL.FLOW.DRAIN(75,0.02)', shows: '7216' },
            { at: 'D5', enter: 'Speed in it, m/s' },
            { at: 'E5', formula: '=GILL.FLOW.SPEED(E4,75,0.5)', shows: '0.91' },
            { at: 'D6', enter: 'Sump, L' },
            {
              at: 'E6',
              formula:
                '=GILL.SUMP.VOLUME(GILL.PIPE.VOLUME(50,20),2*GILL.FLOOD.VOLUME(2,0.25),100,60)',
              shows: '599',
            },
            { at: 'D7', enter: 'Solids settled in a pass' },
            {
              at: 'E7',
              formula: '=GILL.SOLIDS.SETTLED(E3,2,"radial-flow settler")',
              shows: '0.91',
            },
          ],
          then: '{E4} L an hour is less than the pump gives, and slime takes half of it in time: two such returns, or one of 100 mm.',
        },
        {
          what: 'Ask how long a bed of 6 m² flooded 30 cm deep takes to drain through a siphon of 32 mm that lets go 30 cm below its floor, while 3,000 L an hour still run in.',
          cells: [
            { at: 'D10', enter: 'Minutes to fill' },
            {
              at: 'E10',
              formula: '=GILL.FLOOD.MINUTES(GILL.FLOOD.VOLUME(6,0.3),3000)',
              shows: '14.4',
            },
            { at: 'D11', enter: 'Minutes to drain' },
            { at: 'E11', formula: '=GILL.FLOOD.DRAIN(6,0.3,32,0.3,3000)', shows: '21.5' },
          ],
          then: 'Where more runs in than the siphon passes at its end it never stops: #NUM! says so, with both figures. Let beds that share a drain flood one after the other.',
        },
        {
          what: 'Balance the water: 960 L a day for the crops, 60 L from open tanks, 300 L with the solids, and what sodium of 20 mg/L in the source comes to after a year in 60,000 L.',
          cells: [
            { at: 'D8', enter: 'Make-up, L a day' },
            { at: 'E8', formula: '=GILL.WATER.BALANCE(960,60,300)', shows: '1320' },
            { at: 'D9', enter: 'Sodium after a year, mg/L' },
            { at: 'E9', formula: '=GILL.WATER.BUILDUP(60000,20,E8,20,300,365)', shows: '77.0' },
          ],
          then: 'Leafy crops suffer above 50 to 70 mg/L: let more water go, or find softer water.',
        },
        {
          what: 'Type the chlorine of the tap water, and ask for the thiosulphate that takes it out of a day’s make-up.',
          cells: [
            { at: 'D12', enter: 'Chlorine, mg/L' },
            { at: 'E12', enter: 1.5 },
            { at: 'D13', enter: 'Thiosulphate, g a day' },
            { at: 'E13', formula: '=GILL.DOSE.DECHLOR(E8,E12)', shows: '13.9' },
          ],
          then: 'Where the works add chloramine each mg/L of chlorine sets 0.2 mg/L of ammonia nitrogen free as well: treat the water in a tank apart, and test chlorine, ammonia and pH before it meets the fish.',
        },
      ],
    },
    {
      title: 'Heat, light and wet leaves',
      steps: [
        {
          what: 'Ask for the air that keeps a tunnel with 120 m² of floor within 5 °C of the air outside at a sunny noon, bare and under a 30 % cloth, and whether a week with 7.5 wet hours and 10.5 mild night hours a day was one for grey mould.',
          cells: [
            { at: 'G9', enter: 'Air, m³ an hour' },
            { at: 'H9', formula: '=GILL.VENT.HEAT(120,900,35,30)', shows: '22567' },
            { at: 'G10', enter: 'Under a cloth' },
            { at: 'H10', formula: '=GILL.VENT.HEAT(120,900,35,30,0.7,0.3)', shows: '15797' },
            { at: 'G11', enter: 'Hours above the limits' },
            { at: 'H11', formula: '=GILL.LEAF.WARNING(7.5,10.5)', shows: '0.5' },
          ],
          then: '{H9} m³ an hour: for a tunnel of 350 m³ about one air change a minute. Above 0 hours grey mould is to be expected.',
        },
        {
          what: 'Ask what a January of -2 to 6 °C takes in a tunnel of 350 m³ under 240 m² of double film kept at 12 °C, the propane for it, and what an open tank loses by 100 L that evaporate.',
          cells: [
            { at: 'G1', enter: 'Heat, kWh' },
            { at: 'H1', formula: '=GILL.HEAT.MONTH(240,4,350,1,12,6,-2,31)', shows: '8015' },
            { at: 'G2', enter: 'Propane, L' },
            { at: 'H2', formula: '=GILL.HEAT.FUEL(H1,"propane")', shows: '1399' },
            { at: 'G3', enter: 'Evaporation, kWh' },
            { at: 'H3', formula: '=GILL.HEAT.EVAPORATION(100)', shows: '68.1' },
            { at: 'G14', enter: 'Cost at 0.90 a L' },
            { at: 'H14', formula: '=H2*0.9', shows: '1259' },
          ],
        },
        {
          what: 'Ask for the light of that month at 50° N under film that lets 70 % in, what lamps of 120 µmol for 14 hours add, where the cover drips, and after how many hours wet leaves catch grey mould at 12 °C.',
          cells: [
            { at: 'G4', enter: 'Light, mol/m² a day' },
            {
              at: 'H4',
              formula: '=GILL.LIGHT.INSIDE(50,"2026-01-15",0.35,0.7)',
              shows: '4.5',
            },
            { at: 'G5', enter: 'Lamps, mol/m² a day' },
            { at: 'H5', formula: '=GILL.LIGHT.LAMPS(120,14)', shows: '6.0' },
            { at: 'G6', enter: 'Inner side of the cover, °C' },
            { at: 'H6', formula: '=GILL.AIR.COVER(12,-2,4)', shows: '4.7' },
            { at: 'G7', enter: 'Dew point at 85 %, °C' },
            { at: 'H7', formula: '=GILL.AIR.DEWPOINT(12,0.85)', shows: '9.6' },
            { at: 'G8', enter: 'Wet leaf until mould, h' },
            { at: 'H8', formula: '=GILL.LEAF.WETNESS("grey mould",12)', shows: '7' },
            { at: 'G12', enter: 'Lettuce wants at least' },
            { at: 'H12', formula: '=GILL.FACT.CROP("lettuce","daily light min")', shows: '12' },
            { at: 'G13', enter: 'It gets, of that' },
            { at: 'H13', formula: '=(H4+H5)/H12', shows: '0.88' },
          ],
          then: 'The cover is colder than {H7} °C and drips; lettuce wants {H12} mol and gets {H4} and {H5} together. The Beds sheet says it of each bed until its cut, the Plant room sheet of each crop by month. Vent at dusk and at sunrise even on cold days.',
        },
      ],
    },
    {
      title: 'Go on',
      paragraphs: [
        'The Plant room sheet of a plan has all this for your own tanks, beds and months; the sheet Money has the power that must run when the mains fail, on which battery or generator, whether what is there is enough, and the list of what to buy. The check in the pane says what falls short.',
      ],
    },
  ],
};
