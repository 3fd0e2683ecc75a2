import { type Card, subjects } from '../functions/card';
import { findCard } from '../functions/list';
import { referencePage } from '../functions/metadata';
import type { questions } from '../functions/questions';
import { escapeHtml, page } from './html';

const link = (id: string): string =>
  `<a href="${referencePage(id)}"><code>GILL.${escapeHtml(id)}</code></a>`;

const words = (card: Card): string =>
  [card.id, card.summary, card.subject, ...(card.searchWords ?? [])].join(' ').toLowerCase();

/** The entry of the written reference: by question, by subject, and a search over both. */
export function indexPage(cards: readonly Card[], asked: typeof questions): string {
  const questionItems = asked.map(
    ({ question, ids }) =>
      `<li data-words="${escapeHtml(
        `${question} ${ids.map((id) => words(findCard(id) as Card)).join(' ')}`.toLowerCase(),
      )}">${escapeHtml(question)} ${ids.map(link).join(' ')}</li>`,
  );
  const subjectParts = subjects.map((subject) => {
    const own = cards.filter((card) => card.subject === subject);
    if (own.length === 0) return '';
    const items = own.map(
      (card) =>
        `<li data-words="${escapeHtml(words(card))}">${link(card.id)} ${escapeHtml(card.summary)}</li>`,
    );
    return `<section><h3>${escapeHtml(subject)}</h3><ul>${items.join('\n')}</ul></section>`;
  });
  return page(
    'Gillbed functions',
    `<nav><a href="../guides/index.html">Guides, step by step</a></nav>
<main>
<h1>Gillbed functions</h1>
<p class="lead">Worksheet functions for fish and vegetables on one body of water.</p>
<p><label for="search">Search</label> <input id="search" type="search" placeholder="ammonia, sow, how many fish" autocomplete="off"></p>
<p id="none" hidden>Nothing here has these words. Try one word of your question, such as "oxygen" or "seed".</p>
<h2>By question</h2>
<ul class="questions">${questionItems.join('\n')}</ul>
<h2>By subject</h2>
${subjectParts.join('\n')}
</main>
<script src="reference-search.js"></script>`,
  );
}
