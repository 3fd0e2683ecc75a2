import type { CautionId } from '../../src/functions/cautions';

/** Where a grower meets a danger, and must therefore find its caution. */
interface Places {
  readonly cards: readonly string[];
  /** Sheets of the plan, beside Start and Sources, which show every caution. */
  readonly sheets: readonly string[];
  /** Parts of the plan form. */
  readonly sections: readonly string[];
  readonly guides: readonly string[];
  /** What the README says of it. */
  readonly readme: RegExp;
}

export const cautionPlaces: Readonly<Record<Exclude<CautionId, 'figures'>, Places>> = {
  base: {
    cards: ['DOSE.BASE', 'LOAD.ALKALINITY'],
    sheets: ['Balance', 'Week'],
    sections: [],
    guides: ['water-log'],
    readme: /Bases .* burn .* goggles and gloves/,
  },
  steps: {
    cards: ['DOSE.BASE', 'DOSE.SALT', 'DOSE.IRON', 'LOAD.ALKALINITY'],
    sheets: ['Balance', 'Week'],
    sections: [],
    guides: ['water-log'],
    readme: /in small steps/,
  },
  electricity: {
    cards: [
      'FLOW.TURNOVER',
      'FLOW.OXYGEN',
      'FLOW.HEADLOSS',
      'FLOW.WATTS',
      'FLOOD.MINUTES',
      'FLOOD.DRAIN',
      'HEAT.WATER',
      'VENT.FLOW',
      'FLOW.PUMP',
      'FLOW.FITTINGS',
      'AIR.BLOWER',
      'OXYGEN.MINUTES',
      'LIGHT.LAMPS',
    ],
    sheets: ['Tanks', 'Plant room', 'Money', 'Week'],
    sections: ['Tanks'],
    guides: ['from-a-wish', 'size-a-farm', 'split-and-move', 'water-log', 'power-cut'],
    readme: /Electricity and water/,
  },
  chlorine: {
    cards: ['WATER.USE', 'DOSE.DECHLOR', 'FILTER.SURFACE'],
    sheets: ['Water log', 'Balance', 'Plant room', 'Week'],
    sections: ['Water and filter'],
    guides: ['power-cut', 'water-log'],
    readme: /[Cc]hloramine/,
  },
  food: {
    cards: ['BED.PLANTS', 'SOW.STAGE', 'FACT.CROP'],
    sheets: ['Plantings', 'Harvest log', 'Week', 'Crops'],
    sections: ['Market'],
    guides: ['salad-succession', 'two-spacings'],
    readme: /Fish water is not for drinking/,
  },
  weight: {
    cards: ['STOCK.LIMIT', 'STOCK.ROTATION', 'FILTER.MEDIA', 'FLOOD.VOLUME', 'BED.AREA'],
    sheets: ['Tanks', 'Beds', 'Balance', 'Plant room', 'Money'],
    sections: ['Tanks', 'Beds', 'Water and filter'],
    guides: ['from-a-wish', 'size-a-farm'],
    readme: /a tonne a cubic metre/,
  },
  sprays: {
    cards: [
      'BED.PLANTS',
      'BED.DENSITY',
      'FACT.CROP',
      'AIR.VPD',
      'AIR.DEWPOINT',
      'DEGREE.DAYS',
      'LEAF.WETNESS',
      'LEAF.WARNING',
    ],
    sheets: ['Treatments', 'Beds', 'Plant room', 'Crops', 'Week'],
    sections: ['Beds'],
    guides: ['salad-succession', 'two-spacings'],
    readme: /sprays.* kill fish/,
  },
  permit: {
    cards: ['STOCK.START', 'STOCK.ROTATION', 'FACT.FISH', 'FACT.SPECIES'],
    sheets: ['Fish log', 'Stock plan', 'Species'],
    sections: ['Fish'],
    guides: ['from-a-wish', 'size-a-farm', 'split-and-move'],
    readme: /permit/,
  },
  heater: {
    cards: [
      'HEAT.COVER',
      'HEAT.WATER',
      'HEAT.MONTH',
      'HEAT.FUEL',
      'VENT.FLOW',
      'VENT.DRYING',
      'VENT.HEAT',
    ],
    sheets: ['Site', 'Plant room', 'Money', 'Week'],
    sections: ['Through the year'],
    guides: ['salad-succession'],
    readme: /Heaters that burn fuel/,
  },
  air: {
    cards: [
      'STOCK.LIMIT',
      'STOCK.DENSITY',
      'STOCK.FORECAST',
      'STOCK.ROTATION',
      'LOAD.OXYGEN',
      'FLOW.OXYGEN',
      'OXYGEN.PERCENT',
      'OXYGEN.FISH',
      'OXYGEN.MINUTES',
      'OXYGEN.TRANSFER',
      'AIR.DIFFUSED',
      'AIR.BLOWER',
    ],
    sheets: ['Tanks', 'Plant room', 'Money', 'Stock plan'],
    sections: ['Tanks'],
    guides: ['from-a-wish', 'size-a-farm', 'split-and-move', 'power-cut'],
    readme: /alarm/,
  },
  medicines: {
    cards: ['DOSE.SALT', 'FACT.FISH'],
    sheets: ['Treatments', 'Balance', 'Water log', 'Species'],
    sections: ['Fish'],
    guides: ['water-log'],
    readme: /Copper, formalin and antibiotics/,
  },
  quarantine: {
    cards: ['STOCK.START', 'STOCK.ROTATION', 'FACT.FISH'],
    sheets: ['Fish log', 'Stock plan', 'Species'],
    sections: ['Fish'],
    guides: ['from-a-wish', 'size-a-farm', 'split-and-move'],
    readme: /New fish .* quarantine/,
  },
  sulphide: {
    cards: ['LOAD.SOLIDS', 'FLOOD.VOLUME', 'SUMP.VOLUME', 'SOLIDS.SETTLED', 'FLOW.DRAIN'],
    sheets: ['Plant room', 'Balance'],
    sections: ['Water and filter'],
    guides: ['power-cut', 'water-log'],
    readme: /hydrogen sulphide/,
  },
  wounds: {
    cards: ['STOCK.DENSITY', 'GROWTH.COEFFICIENT'],
    sheets: ['Fish log', 'Tanks', 'Stock plan'],
    sections: ['Tanks'],
    guides: ['split-and-move'],
    readme: /infect wounds/,
  },
  coli: {
    cards: ['BED.PLANTS', 'FACT.CROP', 'WATER.USE'],
    sheets: ['Harvest log', 'Crops'],
    sections: ['Market'],
    guides: ['salad-succession'],
    readme: /E\. coli/,
  },
  law: {
    cards: [],
    sheets: ['Site', 'Balance', 'Plant room', 'Money'],
    sections: ['Site'],
    guides: [
      'install-in-excel',
      'own-records',
      'power-cut',
      'send-a-workbook',
      'from-a-wish',
      'size-a-farm',
      'water-log',
    ],
    readme: /local codes, and ask a licensed professional/,
  },
};
