import type { Card } from '../functions/card';
import { referencePage } from '../functions/metadata';
import type { questionGroups } from '../functions/questions';
import { agreementPage } from './agreement-page';
import { changesPage } from './changes-page';
import { functionPage } from './function-page';
import { indexPage } from './index-page';

/** Every page of the written reference by file name. Addresses are fixed: Excel's help links lead here. */
export function referencePages(
  cards: readonly Card[],
  asked: typeof questionGroups,
): ReadonlyMap<string, string> {
  return new Map([
    ['index.html', indexPage(cards, asked)],
    ['agreement.html', agreementPage()],
    ['changes.html', changesPage()],
    ...cards.map((card): [string, string] => [referencePage(card.id), functionPage(card)]),
  ]);
}
