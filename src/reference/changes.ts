/** Answers that an existing workbook gives anew, since the model behind them was put right. */
export interface Change {
  readonly subject:
    'Crops and beds' | 'Fish and feed' | 'Water and doses' | 'The planning workbook';
  /** Functions, by id, and facts that answer otherwise. */
  readonly functions: readonly string[];
  readonly was: string;
  readonly is: string;
  readonly why: string;
}

export const changes: readonly Change[] = [
  {
    subject: 'Crops and beds',
    functions: ['BED.PLANTS', 'BED.AREA'],
    was: 'A crop that is cut once kept its place for the harvest days, too: lettuce 37 days.',
    is: 'It leaves its place with the cut: lettuce 30 days, so that 70 heads a week take 15 m² and no longer 18.5. Crops that are cut again keep their places as before.',
    why: 'Nobody leaves a bed standing that has been cut.',
  },
  {
    subject: 'Crops and beds',
    functions: ['SOW.OFFSET', 'SOW.DATE', 'SOW.STAGE', 'SOW.SERIES'],
    was: 'A crop that is cut once was at “clear” a week or two after its first cut, when the last of the batch would be taken.',
    is: 'It is at “clear” with the cut: lettuce 51 days after sowing, no longer 58, as BED.AREA has had it. Beds, Season, Balance and the planner of beds free the place on that day, and the harvest of a batch falls into one week. A batch that is ready and stands uncut is cut today, for as long as it keeps (the days of harvest on the Crops sheet). Where you cut a batch bit by bit over weeks, type again for once on the Crops sheet: all of them then keep the place over the days of harvest.',
    why: 'One question, one answer: heads are cut within a few days, and the raft goes back.',
  },
  {
    subject: 'The planning workbook',
    functions: [],
    was: 'Beds reckoned the first cut by the usual days of the table, Season by the warmth of the months.',
    is: 'Both say the day by the warmth of the months, or the first cut that was typed into the Plantings.',
    why: 'A bed is cut on one day.',
  },
  {
    subject: 'Crops and beds',
    functions: ['FACT.CROP'],
    was: 'Yields of a plant and of an area did not belong together, some were of one cut and some of a year, and ten crops had none.',
    is: 'kg per m2 is kg per plant times plants per m2 for one whole crop, all cuts together. Basil 3.6 kg/m² (two cuts of 1.8), cucumber 4 kg a plant at 2.5/m² (0.78 at 3), sweet pepper 2 kg at 3.25/m² (3.7 at 4), lettuce 0.18 kg (0.142), parsley 0.3 kg in four cuts (0.09), aubergine 2.2 kg at 2.7/m² (4 at 3), courgette 2.2 kg (3.5), strawberry 0.4 kg (0.35), kale 0.6 kg (0.52), head cabbage 1 kg (1.34), dill 1.35 kg/m² (0.56), papaya 10.2 kg/m² at 0.17 plants/m² (3.5 at 0.25), spinach 0.045 kg at 48/m² (0.07 at 25).',
    why: 'A yield holds at the density that it was measured at; each figure names its trial.',
  },
  {
    subject: 'Crops and beds',
    functions: ['BED.AREA', 'FACT.CROP'],
    was: 'Usual plants on a m²: cucumber 3, tomato and cherry tomato 3, aubergine 3, sweet pepper 4, cauliflower 4, papaya 0.25, spinach 25.',
    is: 'Cucumber, tomato and cherry tomato 2.5, aubergine 2.7, sweet pepper 3.25, cauliflower 3, papaya 0.17, spinach 48.',
    why: 'The densities of the yields above.',
  },
  {
    subject: 'Crops and beds',
    functions: ['SOW.OFFSET', 'SOW.DATE', 'SOW.STAGE', 'SOW.SERIES', 'BED.PLANTS'],
    was: 'Harvest days: Swiss chard 60, spinach 14, cucumber 42, aubergine 75.',
    is: 'Swiss chard 80, spinach 28, cucumber 56, aubergine 100: “clear” moves by so much, and the beds that a steady cut takes grow with it. Sowing, transplanting and first cut stay as they were.',
    why: 'The days of picking in which those yields were taken.',
  },
  {
    subject: 'Crops and beds',
    functions: ['FACT.CROP'],
    was: 'Base temperature of broccoli and of peas 4 °C.',
    is: 'Broccoli 0 °C, peas 3 °C.',
    why: 'Published studies of their warmth.',
  },
  {
    subject: 'Crops and beds',
    functions: ['FACT.CROPS', 'FACT.CROP'],
    was: '34 crops in one order.',
    is: '46 crops, group by group. New facts: weights of a piece and a bunch, cuts, warmth, light, heat, store, height, kinds of bed, family.',
    why: 'What growers sell beside salad, in the units in which they sell it.',
  },
  {
    subject: 'The planning workbook',
    functions: ['BED.AREA'],
    was: 'On Sowing, a plant of a crop sold by the piece or bunch gave 1 where nothing else was said.',
    is: 'It gives its yield over the weight of a piece or a bunch on the Crops sheet; a head stays one piece. A typed “One plant gives” goes before, as ever.',
    why: 'A basil plant is not one bunch.',
  },
  {
    subject: 'The planning workbook',
    functions: ['FLOOD.VOLUME', 'SUMP.VOLUME'],
    was: 'The sump passed where it held the flood volume of the beds.',
    is: 'It must hold the water of the pipes, what stands over the pump and a day of evaporation as well: the Plant room sheet says how much.',
    why: 'When the power fails the pipes run empty into it.',
  },
  {
    subject: 'The planning workbook',
    functions: ['OXYGEN.MINUTES'],
    was: 'On the Plant room sheet “tank at its limit” took as many kilograms as the density limit allows, fed like today.',
    is: '“Fullest week” takes the fish, their weight and the water of the week ahead in which most kilograms stand in the tank. Power and the list of what to buy stand on a sheet of their own; battery and generator are sized by what must run when the mains fail. The power of the plant room is that of all that runs, lamps, fans and heaters too, no longer of pumps and blower alone. Pipes are counted by classes of bore: a price once typed for pipe of any bore stands at those of 32 to 50 mm.',
    why: 'A tank that never comes to its limit need not be feared for there; one that is stocked later must be.',
  },
  {
    subject: 'The planning workbook',
    functions: [],
    was: 'A workbook that was built before carries the Crops and Species sheets of its day.',
    is: 'Its plain formulas and those that read these sheets keep their answers; GILL formulas answer anew when the workbook is next calculated. Build the plan again from its farm file to bring both together.',
    why: 'Figures that you typed over on these sheets are yours and stay.',
  },
  {
    subject: 'Fish and feed',
    functions: [
      'FEED.RATE',
      'FEED.DAY',
      'GROWTH.WEIGHT',
      'GROWTH.DAYS',
      'GROWTH.CURVE',
      'STOCK.FORECAST',
      'STOCK.ROTATION',
    ],
    was: 'In cool and in hot water fish ate less and yet grew as before.',
    is: 'One response to temperature holds for feed and growth: away from the best temperatures both fall, and without feed there is no growth. At the best temperatures little changes.',
    why: 'Nothing grows on what it has not eaten.',
  },
  {
    subject: 'Fish and feed',
    functions: ['FACT.FISH', 'FEED.RATE', 'GROWTH.WEIGHT', 'STOCK.ROTATION'],
    was: 'Nile tilapia: best to 30 °C, feeding to 35. Carp fed to 33 °C; channel catfish best to 29, feeding to 33; trout from 4 °C on; barramundi best to 30, feeding to 33; largemouth bass fed from 10 to 34 °C.',
    is: 'Nile tilapia 31 and 36. Carp 34; channel catfish 30 and 35; trout 2; barramundi 32 and 37; largemouth bass 12 to 35.5 °C. Improved Nile tilapia, red tilapia and improved rainbow trout are entries of their own.',
    why: 'Trials in which these fish ate and grew at such temperatures; each limit names its source.',
  },
  {
    subject: 'Fish and feed',
    functions: ['FEED.RATE', 'FEED.DAY', 'GROWTH.CURVE', 'STOCK.FORECAST'],
    was: 'Fish above 1 kg were fed the share of 1 kg, fry below 1 g that of 1 g; a growth coefficient of your own changed growth and not feed.',
    is: 'Beyond the table the share goes with the inverse cube root of the weight, up to 20 %. With a coefficient of your own, forecasts feed in proportion to it; FEED.RATE and FEED.DAY take it as their last argument.',
    why: 'Fish that grow faster eat more: the conversion stays that of the species.',
  },
  {
    subject: 'Fish and feed',
    functions: ['GROWTH.WEIGHT', 'GROWTH.DAYS', 'GROWTH.CURVE', 'STOCK.FORECAST', 'STOCK.ROTATION'],
    was: 'Fish of any weight grew by the rule.',
    is: 'From 0.2 g up (STOCK.ROTATION from 0.5 g): below it a sentence says so.',
    why: 'By the rule fry of 0.02 g would gain a third of their weight a day; they gain 11 to 13 %.',
  },
  {
    subject: 'Water and doses',
    functions: ['FILTER.SURFACE', 'FILTER.MEDIA'],
    was: 'Nitrification fell by a factor of 1.08 for each degree below 25 °C.',
    is: 'It falls by 4.275 % a degree to 20 °C and by a factor of 1.0945 below: a sixth less surface at 20 °C, a tenth less at 15 °C, the same at 8 °C, more in colder water.',
    why: 'Two published slopes in place of a recalled one.',
  },
  {
    subject: 'The planning workbook',
    functions: ['FEED.WANTED', 'FEED.AREA'],
    was: 'On Beds and Balance one feed ratio held for every kind of bed and every feed, and feed further than 15 % from it was out of balance.',
    is: 'The kind of bed and the protein of the feed count: lettuce calls for 80 g on a m² a day on rafts, 45 on gravel, 60 on gravel whose solids are taken out before it (a cell on Balance says which), 25 in film channels. A farm is in balance anywhere between the least and the most with which such beds ran well (rafts 40 to 100), and is told at which end it stands. The form in the pane, the checks of a workbook and the planner of beds go by the same.',
    why: 'Two published raft systems that ran for years were told to plant more than twice their area.',
  },
  {
    subject: 'The planning workbook',
    functions: ['FILTER.BEDS', 'FILTER.SURFACE'],
    was: 'Balance counted the flooded gravel as filter surface, rafts not at all, and looked neither at the ammonia that the species bears nor at solids.',
    is: 'Rafts and gravel take up their part of the ammonia; the filter is asked for the rest, in water that holds no more ammonia than the species bears. “Surface of the filter” no longer holds the gravel.',
    why: 'Half a gram a day for each m² of raft was measured; trout are not to live in water for tilapia.',
  },
  {
    subject: 'The planning workbook',
    functions: ['LOAD.ALKALINITY'],
    was: 'Balance showed the bound alone, all ammonia nitrified and nothing given back.',
    is: 'Beside it stand what three published farms dosed (16 to 36 g CaCO3 for each kg of feed), a practitioner’s table, and a place for your own figure.',
    why: 'Published dosing is a tenth to a sixth of the bound.',
  },
  {
    subject: 'The planning workbook',
    functions: ['DOSE.BASE'],
    was: 'Doses gave an amount of base from any test of alkalinity, however old, and aimed at the alkalinity wanted whatever stood in the water.',
    is: 'It looks at pH, ammonia, water temperature and the age of the tests: where one is missing or older than 14 days, pH is above 7.6, or the ammonia would harm gills at the pH that follows, a sentence stands in place of the dose. It aims no higher than the alkalinity at which carbon dioxide reaches its limit on the same sheet.',
    why: 'Base turns ammonia into the form that harms; an aim that breaks another limit of the sheet is none.',
  },
  {
    subject: 'Water and doses',
    functions: ['FACT.FISH', 'DOSE.BASE'],
    was: 'Water log, Doses and the checks judged every fish by tilapia: 0.05 mg/L of un-ionised ammonia, 1 of nitrite, 20 of carbon dioxide; the checks wanted 5 mg/L of oxygen for all.',
    is: 'The Species sheet has limits for each (trout 0.0125, 0.1 and 15 mg/L, oxygen 6; channel catfish 0.5 of nitrite). On water that several share the strictest counts. What you typed on Doses goes before; a figure that the plan had brought along there follows the species when the plan is built anew. DOSE.BASE takes the harmful ammonia as its last argument.',
    why: 'Trout in water for tilapia are ill.',
  },
  {
    subject: 'The planning workbook',
    functions: ['FACT.FISH'],
    was: 'Stock plan and Week had fish sold, moved and stocked in any water.',
    is: 'The forecast sells and stocks in water between the two handling temperatures of the Species sheet alone (Nile tilapia 18.3 to 34 °C, trout up to 20); outside them the task is to wait, and the checks say so, too.',
    why: 'Tilapia that are netted in colder water die.',
  },
  {
    subject: 'The planning workbook',
    functions: ['STOCK.LIMIT', 'FLOW.HEADLOSS', 'FLOW.FITTINGS'],
    was: '“Room for more fish” counted fish at their weight of the day, the tanks were “large enough” whatever the forecast sold, and the head loss on Pumps was that of bare pipe.',
    is: 'Room counts fish at the weight at which they are sold; the verdict holds the forecast against what is wanted; fittings come along (four elbows, a valve, inlet and outlet, to be overwritten).',
    why: 'A tank must carry what the fish become, and a pump lifts against its elbows, too.',
  },
  {
    subject: 'The planning workbook',
    functions: [],
    was: 'The pane balanced the feed against every bed with a crop, by the tables; the Balance sheet against beds with plants in them, by your own figures.',
    is: 'Both count beds with plants in them on the day of the plan, and your own figures. Beds that wait for their plants stand on a line of their own.',
    why: 'One question, one answer.',
  },
  {
    subject: 'The planning workbook',
    functions: ['NUTRIENT.FEED', 'NUTRIENT.CROP', 'DOSE.NUTRIENT'],
    was: 'Doses knew bases and iron alone, and no sheet held what the crops lack.',
    is: 'It balances nitrogen, phosphorus, potassium, calcium, magnesium and iron week by week: what feed and base bring, what the crops take up, what is short and how much of which salt, and shares the base between potassium and calcium. The demo farm sells smaller bunches of basil, chard and kale by the weights on its Crops sheet.',
    why: 'Potassium and calcium run short first, and come along with a base that is chosen for them.',
  },
];
