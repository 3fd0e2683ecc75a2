import { type Card, subjects } from '../functions/card';
import { referencePage } from '../functions/metadata';
import type { questionGroups } from '../functions/questions';
import { searchEntry } from '../functions/search';
import { escapeHtml, page } from './html';

const link = (id: string): string =>
  `<a href="${referencePage(id)}"><code>GILL.${escapeHtml(id)}</code></a>`;

/** What the search looks through, carried by the page; "<" would end the element that holds it. */
const searchData = (cards: readonly Card[], asked: typeof questionGroups): string =>
  JSON.stringify(
    cards.map((card) =>
      searchEntry(
        card,
        asked.flatMap((group) => group.questions),
      ),
    ),
  ).replaceAll('<', '\\u003c');

/** The entry of the written reference: by question, by subject, and a search. */
export function indexPage(cards: readonly Card[], asked: typeof questionGroups): string {
  const questionParts = asked.map(
    ({ title, questions }) =>
      `<section><h3>${escapeHtml(title)}</h3><dl class="questions">${questions
        .map(
          ({ question, ids }) =>
            `<div><dt>${escapeHtml(question)}</dt><dd>${ids.map(link).join(' ')}</dd></div>`,
        )
        .join('\n')}</dl></section>`,
  );
  const subjectParts = subjects.map((subject) => {
    const own = cards.filter((card) => card.subject === subject);
    if (own.length === 0) return '';
    const items = own.map(
      (card) =>
        `<li data-id="${escapeHtml(card.id)}">${link(card.id)} ${escapeHtml(card.summary)}</li>`,
    );
    return `<section><h3>${escapeHtml(subject)}</h3><ul>${items.join('\n')}</ul></section>`;
  });
  return page(
    'Gillbed functions',
    `<nav><a href="../guides/index.html">Guides, step by step</a> · <a href="agreement.html">How well it agrees</a> · <a href="changes.html">What changed for an existing workbook</a></nav>
<main>
<h1>Gillbed functions</h1>
<p class="lead">Worksheet functions for fish and vegetables on one body of water.</p>
<p><label for="search">What do you want to know?</label><br>
<input id="search" type="search" placeholder="ammonia, sow, how many fish" autocomplete="off"></p>
<p id="count" class="small" role="status"></p>
<ol id="found" hidden></ol>
<div id="browse">
<h2>By question</h2>
${questionParts.join('\n')}
<h2>By subject</h2>
${subjectParts.join('\n')}
</div>
</main>
<script type="application/json" id="entries">${searchData(cards, asked)}</script>
<script src="reference-search.js"></script>`,
  );
}
