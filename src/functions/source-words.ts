import type { Source } from './card';

/** Where a figure was published, on one line: "Somerville et al. (2014), Small-scale aquaponic food production, chapter 7". */
export const sourceLine = ({ author, year, title, where, evidence }: Source): string =>
  `${author}${year === '' ? '' : ` (${year})`}, ${title}${where ? `, ${where}` : ''}${
    evidence === 'read' ? '' : ` [${evidence}]`
  }`;
