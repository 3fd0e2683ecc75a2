export interface Question {
  /** As a grower would ask it. */
  readonly question: string;
  /** The functions that answer it, the first one first. */
  readonly ids: readonly string[];
}

/** Questions of one part of the work. */
interface QuestionGroup {
  readonly title: string;
  readonly questions: readonly Question[];
}

/** The index by what a grower wants to know. Every function is in it; a test holds that. */
export const questionGroups: readonly QuestionGroup[] = [
  {
    title: 'Fish and feed',
    questions: [
      { question: 'How much do I feed today?', ids: ['FEED.DAY', 'FEED.RATE'] },
      { question: 'The water is cold: do I feed less?', ids: ['FEED.RATE', 'FEED.DAY'] },
      { question: 'Is my feed turning into fish?', ids: ['FEED.CONVERSION', 'GROWTH.COEFFICIENT'] },
      { question: 'How much bed can my fish supply?', ids: ['FEED.AREA', 'FEED.DAY'] },
      { question: 'How much must I feed for the beds I have?', ids: ['FEED.WANTED', 'FEED.AREA'] },
      { question: 'How many fish can this tank hold?', ids: ['STOCK.LIMIT', 'STOCK.DENSITY'] },
      { question: 'Is my tank too crowded?', ids: ['STOCK.DENSITY', 'STOCK.LIMIT'] },
      { question: 'How many fingerlings do I order?', ids: ['STOCK.START', 'STOCK.ROTATION'] },
      {
        question: 'How will this batch stand week by week?',
        ids: ['STOCK.FORECAST', 'GROWTH.CURVE'],
      },
      {
        question: 'How many tanks and how often do I stock to sell fish every month?',
        ids: ['STOCK.ROTATION', 'STOCK.FORECAST'],
      },
      { question: 'How heavy will the fish be by then?', ids: ['GROWTH.WEIGHT', 'GROWTH.CURVE'] },
      { question: 'When are the fish ready to sell?', ids: ['GROWTH.DAYS', 'STOCK.FORECAST'] },
      {
        question: 'How well do my own fish grow?',
        ids: ['GROWTH.COEFFICIENT', 'GROWTH.FITTED', 'GROWTH.WEIGHT'],
      },
      {
        question: 'How many of the fish are big enough already?',
        ids: ['STOCK.ABOVE', 'STOCK.SAMPLE'],
      },
      {
        question: 'How many fish do I weigh to know their mean?',
        ids: ['STOCK.SAMPLE', 'STOCK.DENSITY'],
      },
    ],
  },
  {
    title: 'Waste, filter and air for the fish',
    questions: [
      {
        question: 'How much waste do my fish make?',
        ids: ['LOAD.TAN', 'LOAD.SOLIDS', 'LOAD.CO2'],
      },
      {
        question: 'How large must the filter be?',
        ids: ['FILTER.SURFACE', 'FILTER.MEDIA', 'LOAD.TAN'],
      },
      {
        question: 'How much of the solids does my settler take out?',
        ids: ['SOLIDS.SETTLED', 'LOAD.SOLIDS'],
      },
      {
        question: 'Do my rafts or gravel beds filter enough?',
        ids: ['FILTER.BEDS', 'FILTER.SURFACE'],
      },
      {
        question: 'How much oxygen do the fish need?',
        ids: ['LOAD.OXYGEN', 'OXYGEN.FISH', 'FLOW.OXYGEN'],
      },
      {
        question: 'The power fails: how long do my fish live?',
        ids: ['OXYGEN.MINUTES', 'OXYGEN.FISH'],
      },
      {
        question: 'How many air stones, and how large a blower?',
        ids: ['AIR.DIFFUSED', 'AIR.BLOWER', 'OXYGEN.TRANSFER'],
      },
      { question: 'Is there enough oxygen in the water?', ids: ['OXYGEN.PERCENT', 'OXYGEN.FULL'] },
      {
        question: 'My fish are gasping at the surface: what do I test?',
        ids: ['OXYGEN.PERCENT', 'AMMONIA.UNIONISED', 'CARBON.DIOXIDE', 'DOSE.SALT'],
      },
      { question: 'How much oxygen can warm water hold?', ids: ['OXYGEN.FULL'] },
      {
        question: 'Is carbon dioxide building up?',
        ids: ['CARBON.DIOXIDE', 'LOAD.CO2', 'CARBON.STRIPPED'],
      },
    ],
  },
  {
    title: 'Water tests and doses',
    questions: [
      {
        question: 'Is my ammonia test dangerous for the fish?',
        ids: ['AMMONIA.UNIONISED', 'AMMONIA.CEILING', 'AMMONIA.SHARE'],
      },
      { question: 'How much ammonia can I allow at this pH?', ids: ['AMMONIA.CEILING'] },
      { question: 'What share of the ammonia is toxic?', ids: ['AMMONIA.SHARE'] },
      {
        question: 'The pH keeps falling: how much base do I add?',
        ids: ['DOSE.BASE', 'LOAD.ALKALINITY'],
      },
      { question: 'How fast is my alkalinity used up?', ids: ['LOAD.ALKALINITY', 'DOSE.BASE'] },
      { question: 'Nitrite is high: how much salt protects the fish?', ids: ['DOSE.SALT'] },
      { question: 'Leaves turn yellow: how much iron do I add?', ids: ['DOSE.IRON'] },
      {
        question: 'Does the feed bring enough potassium and calcium for what I cut?',
        ids: ['NUTRIENT.FEED', 'NUTRIENT.CROP'],
      },
      {
        question: 'Potassium, calcium or magnesium is short: how much do I add?',
        ids: ['DOSE.NUTRIENT', 'DOSE.BASE'],
      },
      { question: 'Is the tap water safe, how do I take out the chlorine?', ids: ['DOSE.DECHLOR'] },
    ],
  },
  {
    title: 'Pumps, pipes and flooded beds',
    questions: [
      {
        question: 'How large a pump do I need?',
        ids: ['FLOW.TURNOVER', 'FLOW.OXYGEN', 'FLOW.HEADLOSS'],
      },
      {
        question: 'How much head do the pipe and its elbows eat?',
        ids: ['FLOW.HEADLOSS', 'FLOW.FITTINGS'],
      },
      { question: 'What does this pump really give?', ids: ['FLOW.PUMP', 'FLOW.HEADLOSS'] },
      {
        question: 'How thick must the return pipe be, and how steep?',
        ids: ['FLOW.DRAIN', 'FLOW.SPEED'],
      },
      {
        question: 'The power fails: does my sump overflow?',
        ids: ['SUMP.VOLUME', 'PIPE.VOLUME', 'FLOOD.VOLUME'],
      },
      { question: 'What does the pump draw from the mains?', ids: ['FLOW.WATTS', 'FLOW.HEADLOSS'] },
      {
        question: 'How much water does a flooded bed take, and is the sump large enough?',
        ids: ['FLOOD.VOLUME', 'FLOOD.MINUTES'],
      },
      { question: 'How long does the bed take to fill?', ids: ['FLOOD.MINUTES'] },
      {
        question: 'How long does the bed take to drain, and will the siphon stop?',
        ids: ['FLOOD.DRAIN', 'FLOW.DRAIN'],
      },
    ],
  },
  {
    title: 'Sowing and beds',
    questions: [
      { question: 'When do I sow to harvest on that day?', ids: ['SOW.DATE', 'SOW.OFFSET'] },
      { question: 'When do I move the seedlings to the beds?', ids: ['SOW.STAGE', 'SOW.OFFSET'] },
      { question: 'When will what I sowed be ready?', ids: ['SOW.STAGE'] },
      { question: 'How long does this crop take from seed?', ids: ['SOW.OFFSET', 'FACT.CROP'] },
      {
        question: 'How do I have salad every week?',
        ids: ['SOW.SERIES', 'BED.PLANTS', 'BED.AREA'],
      },
      { question: 'How many seeds do I sow?', ids: ['SEED.COUNT', 'SEED.TRAYS'] },
      { question: 'How many trays do I fill?', ids: ['SEED.TRAYS', 'SEED.COUNT'] },
      {
        question: 'How good is my seed, after a test of a few?',
        ids: ['SEED.CERTAIN', 'SEED.COUNT'],
      },
      { question: 'How many plants stand in the beds for my weekly box?', ids: ['BED.PLANTS'] },
      {
        question: 'How much bed do I need for so many heads a week?',
        ids: ['BED.AREA', 'BED.DENSITY'],
      },
      { question: 'How many plants fit at this spacing?', ids: ['BED.DENSITY'] },
      { question: 'How warm has the season been for my crop?', ids: ['DEGREE.DAYS'] },
    ],
  },
  {
    title: 'Tunnel and season',
    questions: [
      { question: 'Is the air too humid, will I get mould?', ids: ['AIR.VPD', 'AIR.DEWPOINT'] },
      {
        question: 'Why does it drip from the cover, when do leaves get wet?',
        ids: ['AIR.DEWPOINT', 'AIR.COVER', 'LEAF.WETNESS'],
      },
      {
        question: 'Does it pay to open the vents on a cold day?',
        ids: ['VENT.DRYING', 'AIR.MOISTURE'],
      },
      { question: 'How much water is in the air of the tunnel?', ids: ['AIR.MOISTURE'] },
      {
        question: 'How large a fan does the tunnel need, or how much vent in summer?',
        ids: ['VENT.HEAT', 'VENT.FLOW', 'VENT.DRYING'],
      },
      {
        question: 'Was the week wet enough for grey mould?',
        ids: ['LEAF.WARNING', 'LEAF.WETNESS'],
      },
      { question: 'Are the days too short to grow?', ids: ['SUN.HOURS', 'SUN.RADIATION'] },
      {
        question: 'How much light is there in this season, and under my film?',
        ids: ['LIGHT.INSIDE', 'SUN.RADIATION', 'SUN.HOURS', 'LIGHT.LAMPS'],
      },
      {
        question: 'How far apart do I put trellis rows, what does a tall crop shade?',
        ids: ['SUN.SHADOW', 'SUN.NOON'],
      },
      { question: 'How high does the sun stand in winter?', ids: ['SUN.NOON'] },
      {
        question: 'How much water do my crops drink, how much do I top up?',
        ids: ['WATER.USE', 'WATER.BALANCE'],
      },
      {
        question: 'My source water is hard or salty: where does that end?',
        ids: ['WATER.BUILDUP', 'WATER.BALANCE'],
      },
      { question: 'How much heat does the tunnel need at night?', ids: ['HEAT.COVER'] },
      {
        question: 'What does a winter of heating take, and how much fuel is that?',
        ids: ['HEAT.MONTH', 'HEAT.FUEL'],
      },
      {
        question: 'What does it cost in power to warm the tank?',
        ids: ['HEAT.WATER', 'HEAT.EVAPORATION', 'HEAT.COVER'],
      },
    ],
  },
  {
    title: 'Money',
    questions: [
      {
        question: 'Which crop earns most from a bed?',
        ids: ['MONEY.BEDWEEK', 'MONEY.BREAKEVEN'],
      },
      {
        question: 'A few large heads or many slender stems?',
        ids: ['MONEY.BEDWEEK', 'BED.DENSITY'],
      },
      { question: 'What price do I need to cover my costs?', ids: ['MONEY.BREAKEVEN'] },
    ],
  },
  {
    title: 'Crops and fish in the tables',
    questions: [
      { question: 'What does this crop like, how close does it stand?', ids: ['FACT.CROP'] },
      { question: 'What water does this fish like?', ids: ['FACT.FISH', 'FACT.SPECIES'] },
      { question: 'Which crops and fish are known here?', ids: ['FACT.CROPS', 'FACT.SPECIES'] },
    ],
  },
];

export const questions: readonly Question[] = questionGroups.flatMap((group) => group.questions);
