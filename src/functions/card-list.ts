import { aerationCards, blownAirCards } from './aeration-cards';
import { airCards } from './air-cards';
import { ammoniaCards } from './ammonia-cards';
import { bedCards } from './bed-cards';
import { carbonateCards } from './carbonate-cards';
import type { Card } from './card';
import { cropFactCards, cropListCards } from './crop-fact-cards';
import { degreeDayCards } from './degree-days-cards';
import { dosingCards } from './dosing-cards';
import { feedCards } from './feed-cards';
import { feedAreaCards } from './feed-area-cards';
import { filterCards } from './filter-cards';
import { fishFactCards, speciesListCards } from './fish-fact-cards';
import { fishOxygenCards } from './fish-oxygen-cards';
import { floodedBedCards } from './flooded-bed-cards';
import { flowCards } from './flow-cards';
import { growthCards } from './growth-cards';
import { heatCards } from './heat-cards';
import { leafCards, lightCards } from './light-cards';
import { loadCards } from './load-cards';
import { moneyCards } from './money-cards';
import { certaintyCards } from './certainty-cards';
import { coverCards, monthHeatCards } from './month-heat-cards';
import { nutrientCards, nutrientDoseCards } from './nutrient-cards';
import { oxygenCards } from './oxygen-cards';
import { seedCards } from './seed-cards';
import { sowingCards } from './sowing-cards';
import { stockCards } from './stock-cards';
import { strippingCards } from './stripping-cards';
import { sunCards } from './sun-cards';
import { ventilationCards } from './ventilation-cards';
import { settlingCards, waterWayCards } from './water-ways-cards';
import { waterBalanceCards } from './water-balance-cards';
import { waterUseCards } from './water-use-cards';

export { NAMESPACE } from './namespace';

/** Every function, in the order of the catalogue. */
export const cards: readonly Card[] = [
  ...feedCards,
  ...feedAreaCards,
  ...stockCards,
  ...growthCards,
  ...loadCards,
  ...nutrientCards,
  ...filterCards,
  ...settlingCards,
  ...ammoniaCards,
  ...oxygenCards,
  ...fishOxygenCards,
  ...aerationCards,
  ...carbonateCards,
  ...strippingCards,
  ...dosingCards,
  ...nutrientDoseCards,
  ...flowCards,
  ...waterWayCards,
  ...floodedBedCards,
  ...sowingCards,
  ...seedCards,
  ...bedCards,
  ...degreeDayCards,
  ...airCards,
  ...ventilationCards,
  ...coverCards,
  ...leafCards,
  ...blownAirCards,
  ...sunCards,
  ...lightCards,
  ...waterUseCards,
  ...waterBalanceCards,
  ...heatCards,
  ...monthHeatCards,
  ...moneyCards,
  ...cropFactCards,
  ...fishFactCards,
  ...cropListCards,
  ...speciesListCards,
  ...certaintyCards,
];

const byId = new Map(cards.map((card) => [card.id, card]));

/** The card of an id, written in any case, with or without the namespace. */
export const findCard = (id: string): Card | undefined =>
  byId.get(id.toUpperCase().replace(/^GILL\./, ''));
