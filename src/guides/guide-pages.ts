import { escapeHtml, page } from '../reference/html';
import { guidePage } from './guide-page';
import { guides } from './guide-list';

function indexPage(): string {
  const items = guides.map(
    ({ id, title, question }) =>
      `<li><a href="${id}.html">${escapeHtml(title)}</a><br>${escapeHtml(question)}</li>`,
  );
  const body = `<nav><a href="../reference/index.html">All functions</a></nav>
<main>
<h1>Gillbed guides</h1>
<p class="lead">Step by step, from a grower’s question to an answer in the sheet.</p>
<ul class="questions">${items.join('\n')}</ul>
<p class="small">The farms and figures in the guides are invented. Every formula and every gillbed command in them is run by the project’s tests, and what a guide shows is what came out.</p>
</main>`;
  return page('Gillbed guides', body, { root: '../reference/', styles: ['guides.css'] });
}

/** Every page of the guides by file name. */
export const guidePages = (): ReadonlyMap<string, string> =>
  new Map([
    ['index.html', indexPage()],
    ...guides.map((guide): [string, string] => [`${guide.id}.html`, guidePage(guide)]),
  ]);
