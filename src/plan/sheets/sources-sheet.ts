import { cautions } from '../../functions/cautions';
import { cards, NAMESPACE } from '../../functions/card-list';
import { evidenceWords, publication } from '../../functions/source-words';
import type { PlanContext } from '../context';
import { when } from '../formula-parts';
import { acts, figureNameOf } from '../own-figure-rows';
import { ownSource } from '../own-figure-formulas';
import type { SheetModel } from '../workbook-model';
import { SheetBuilder } from '../sheet-builder';

const SHEET = 'Sources';

/** What this workbook cannot do, and every caution of the trade. */
export const allCautions: readonly string[] = [
  'This workbook looks at figures. It replaces no meter, no count and no look at the fish.',
  ...Object.values(cautions),
];

/** Every method with its publication, the cautions, and which own figures count. */
export function sourcesSheet({ farm }: Pick<PlanContext, 'farm'>): SheetModel {
  const sheet = new SheetBuilder(SHEET, {
    title: 'Sources and cautions',
    question: 'Where do the numbers come from, and what can go wrong?',
    widths: [26, 70, 34, 110],
    landscape: true,
    headRows: 2,
  });
  sheet.heading(3, 0, 4, 'Cautions');
  allCautions.forEach((caution, i) => {
    sheet.wide(4 + i, 0, 4, { value: caution, look: 'caution' });
  });
  const head = 4 + allCautions.length + 1;
  sheet.heading(head, 0, 4, 'Methods');
  sheet.repeat(head + 1, 1);
  sheet.heads(head + 1, 0, ['Function', 'What it computes', 'How it stands', 'Publication']);
  let row = head + 2;
  for (const card of cards) {
    card.sources.forEach((source, i) => {
      if (i === 0) {
        sheet.text(row, 0, `${NAMESPACE}.${card.id}`, 'label');
        sheet.text(row, 1, card.summary, 'source');
      }
      sheet.text(row, 2, evidenceWords[source.evidence] || 'published', 'source');
      // The last column: long ones run on over empty cells.
      sheet.text(row, 3, publication(source), 'source');
      row += 1;
    });
  }
  sheet.text(
    row + 1,
    0,
    'Figures of crops and species have their sources beside them on the Crops and Species sheets.',
    'source',
  );
  const own = farm.ownFigures.filter(
    ({ figure, part }) => part === undefined && acts(figureNameOf(figure)),
  );
  if (own.length > 0) sheet.heading(row + 3, 0, 4, 'Figures of the farm’s own records');
  own.forEach(({ figure, of }, i) => {
    const source = ownSource(figure, of);
    sheet.text(row + 4 + i, 0, of ?? 'All fish', 'label');
    sheet.text(row + 4 + i, 1, figure, 'source');
    sheet.put(row + 4 + i, 2, { formula: when(source.isBlank, 'table', source), look: 'source' });
  });
  return sheet.model();
}
