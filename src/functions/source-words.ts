import type { Source } from './card';

/** How well a source is known, as a grower reads it; nothing where it was read. */
export const evidenceWords: Readonly<Record<Source['evidence'], string>> = {
  read: '',
  memory: 'usual practice, check with your supplier',
  'common practice': 'common practice, no source',
  definition: 'by definition',
};

/** The publication alone: "Somerville et al. (2014), Small-scale aquaponic food production, chapter 7". */
export const publication = ({ author, year, title, where }: Source): string =>
  `${author}${year === '' ? '' : ` (${year})`}, ${title}${where ? `, ${where}` : ''}`;

/** Where a figure was published and how well that is known, on one line. */
export function sourceLine(source: Source): string {
  const words = evidenceWords[source.evidence];
  return `${publication(source)}${words === '' ? '' : ` [${words}]`}`;
}
