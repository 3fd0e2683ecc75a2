import type { Card } from '../functions/card';
import { cards, findCard, NAMESPACE } from '../functions/card-list';
import { nearestName } from '../core/nearest-name';
import { readArguments } from './command-arguments';
import { cardRecord } from './card-record';
import { cardPage, signature } from './card-page';
import type { Command } from './command';
import { Mistake } from './mistake';

function listOf(all: readonly Card[]): string {
  const lines: string[] = [];
  let subject = '';
  for (const card of all) {
    if (card.subject !== subject) lines.push(...(subject ? [''] : []), card.subject);
    subject = card.subject;
    lines.push(`  ${signature(card)}`, `      ${card.summary}`);
  }
  return lines.join('\n');
}

/** Lists the catalogue, or tells all about one function; as JSON with everything that a card holds. */
export const functions: Command = async (args) => {
  const { values, positionals } = readArguments(args, { json: { type: 'boolean' } });
  const [id, ...more] = positionals;
  if (more.length > 0) throw new Mistake('functions takes one function name, or none for all.');
  const card = id === undefined ? undefined : findCard(id);
  if (id !== undefined && !card) {
    const ids = cards.map((card) => card.id);
    throw new Mistake(
      `There is no function ${id}; the nearest name is ${NAMESPACE}.${nearestName(id, ids)}.`,
    );
  }
  if (values.json) {
    console.log(JSON.stringify(card ? cardRecord(card) : cards.map(cardRecord), undefined, 2));
  } else {
    console.log(card ? cardPage(card) : listOf(cards));
  }
  return 0;
};
