import { airCards } from './air';
import { ammoniaCards } from './ammonia';
import { bedCards } from './bed';
import { carbonateCards } from './carbonate';
import type { Card } from './card';
import { cropFactCards, cropListCards } from './crop-facts';
import { degreeDayCards } from './degree-days';
import { dosingCards } from './dosing';
import { feedCards } from './feed';
import { feedAreaCards } from './feed-area';
import { filterCards } from './filter';
import { fishFactCards, speciesListCards } from './fish-facts';
import { floodedBedCards } from './flooded-bed';
import { flowCards } from './flow';
import { growthCards } from './growth';
import { heatCards } from './heat';
import { loadCards } from './load';
import { moneyCards } from './money';
import { nutrientCards, nutrientDoseCards } from './nutrient';
import { oxygenCards } from './oxygen';
import { seedCards } from './seed';
import { sowingCards } from './sowing';
import { stockCards } from './stock';
import { sunCards } from './sun';
import { ventilationCards } from './ventilation';
import { waterUseCards } from './water-use';

/** Every function, in the order of the catalogue. */
export const cards: readonly Card[] = [
  ...feedCards,
  ...feedAreaCards,
  ...stockCards,
  ...growthCards,
  ...loadCards,
  ...nutrientCards,
  ...filterCards,
  ...ammoniaCards,
  ...oxygenCards,
  ...carbonateCards,
  ...dosingCards,
  ...nutrientDoseCards,
  ...flowCards,
  ...floodedBedCards,
  ...sowingCards,
  ...seedCards,
  ...bedCards,
  ...degreeDayCards,
  ...airCards,
  ...ventilationCards,
  ...sunCards,
  ...waterUseCards,
  ...heatCards,
  ...moneyCards,
  ...cropFactCards,
  ...fishFactCards,
  ...cropListCards,
  ...speciesListCards,
];

const byId = new Map(cards.map((one) => [one.id, one]));

/** The card of an id, written in any case, with or without the namespace. */
export const findCard = (id: string): Card | undefined =>
  byId.get(id.toUpperCase().replace(/^GILL\./, ''));

/** What stands before every id in a formula. */
export const NAMESPACE = 'GILL';
