/** Which sheets belong together, in the order in which they stand in the workbook behind Start. */

interface SheetGroup {
  /** Says on Start what its sheets are for. */
  readonly title: string;
  readonly sheets: readonly string[];
}

const AHEAD: SheetGroup = {
  title: 'Look here for the year ahead',
  sheets: [
    ...['Stock plan', 'Stock weeks', 'Tank year', 'Batch', 'Sowing', 'Season', 'Spacings', 'Money'],
  ],
};

const sheetGroups: readonly SheetGroup[] = [
  {
    title: 'Type here what happened, and what is planned',
    sheets: ['Fish log', 'Feed log', 'Plantings', 'Harvest log', 'Water log', 'Treatments'],
  },
  {
    title: 'Look here every week',
    sheets: ['Week', 'Tanks', 'Beds', 'Balance', 'Doses'],
  },
  AHEAD,
  {
    title: 'Type here once what the farm is',
    sheets: ['Site', 'Pumps', 'Plant room', 'What to buy'],
  },
  { title: 'Tables and sources', sheets: ['Crops', 'Species', 'Own figures', 'Sources'] },
];

const groupOf = (name: string): SheetGroup =>
  sheetGroups.find(({ sheets }) => sheets.includes(name)) ?? AHEAD;

/** The sheets by group, those of a group in its order, and what no group names behind the year ahead. */
export const inGroups = <S extends { readonly name: string }>(
  all: readonly S[],
): { readonly title: string; readonly sheets: readonly S[] }[] =>
  sheetGroups.map((group) => {
    const place = ({ name }: S): number =>
      group.sheets.includes(name) ? group.sheets.indexOf(name) : group.sheets.length;
    const sheets = all
      .filter(({ name }) => groupOf(name) === group)
      .sort((a, b) => place(a) - place(b));
    return { title: group.title, sheets };
  });
