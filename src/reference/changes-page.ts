import { referencePage } from '../functions/metadata';
import { type Change, changes } from './changes';
import { escapeHtml, page } from './html';

const link = (id: string): string =>
  `<a href="${referencePage(id)}"><code>GILL.${escapeHtml(id)}</code></a>`;

const item = ({ functions, was, is, why }: Change): string => `<section class="change">
${functions.length > 0 ? `<p>${functions.map(link).join(' ')}</p>` : ''}
<dl><dt>Before</dt><dd>${escapeHtml(was)}</dd><dt>Now</dt><dd>${escapeHtml(is)}</dd><dt>Why</dt><dd>${escapeHtml(why)}</dd></dl>
</section>`;

/** "What changed for an existing workbook": which answers differ from those it was made with. */
export function changesPage(): string {
  const subjects = [...new Set(changes.map(({ subject }) => subject))];
  return page(
    'What changed for an existing workbook',
    `<nav><a href="index.html">All functions</a> · <a href="agreement.html">How well it agrees</a></nav>
<main>
<h1>What changed for an existing workbook</h1>
<p class="lead">No function was renamed, no argument moved: formulas stay valid. Some answers differ, since what stood behind them was put right.</p>
${subjects
  .map(
    (subject) =>
      `<h2>${escapeHtml(subject)}</h2>\n${changes
        .filter((change) => change.subject === subject)
        .map(item)
        .join('\n')}`,
  )
  .join('\n')}
</main>`,
  );
}
