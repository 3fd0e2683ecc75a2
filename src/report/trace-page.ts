import { isoText } from '../core/serial-date';
import type { Farm } from '../plan/farm';
import type { Trace } from '../records/trace';
import { type RowPlace, traceInWords } from '../records/trace-words';
import { escapeHtml } from '../reference/html';
import type { Paper } from '../plan/workbook-model';
import { reportStyle } from './report-style';

/** A trace as a page ready to be printed: one lot after the other, each row with the place where it stands. */
export function tracePage(
  found: Trace,
  farm: Pick<Farm, 'name' | 'units' | 'asOf'>,
  place?: RowPlace,
): string {
  const { units } = farm;
  const paper: Paper = units === 'US' ? 'Letter' : 'A4';
  const lots = traceInWords(found, place).map(({ title, sections }) => {
    const parts = sections.map(({ head, lines }) => {
      const items = lines.map(
        ({ says, where, warns }) =>
          `<li>${escapeHtml(says)}${where === undefined ? '' : ` <span class="from">${escapeHtml(where)}</span>`}${warns === undefined ? '' : `<br><strong>${escapeHtml(warns)}.</strong>`}</li>`,
      );
      return `<h3>${escapeHtml(head)}</h3>\n<ul>${items.join('\n')}</ul>`;
    });
    return `<section><h2>${escapeHtml(title)}</h2>\n${parts.join('\n')}\n</section>`;
  });
  return `<!doctype html>
<html lang="${units === 'US' ? 'en-US' : 'en-GB'}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escapeHtml(farm.name)}: ${escapeHtml(found.asked)}</title>
<style>${reportStyle(paper)}</style>
</head>
<body>
<header><h1>Where did it go: ${escapeHtml(found.asked)}</h1>
<p>${escapeHtml(farm.name)}. By the registers as they stand; day of the plan ${isoText(farm.asOf)}.</p>
</header>
${lots.join('\n')}
</body>
</html>
`;
}
