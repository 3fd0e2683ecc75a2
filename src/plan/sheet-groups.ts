/** Which sheets belong together, in the order in which they stand in the workbook behind Start. */

interface SheetGroup {
  /** Says on Start what its sheets are for. */
  readonly title: string;
  /** Of the tabs; Start says the same in words. */
  readonly tab: TabColour;
  readonly sheets: readonly string[];
}

/** What one does on a sheet, by the colour of its tab: dark where one types, light where one looks. */
const tabs = { type: '#1A3E8C', look: '#8FB98A', tables: '#B9C2C6' } as const;
type TabColour = (typeof tabs)[keyof typeof tabs];

const AHEAD: SheetGroup = {
  title: 'Look here for the year ahead',
  tab: tabs.look,
  sheets: [...['Stock plan', 'Tank year', 'Sowing', 'Season', 'Money']],
};

const sheetGroups: readonly SheetGroup[] = [
  {
    title: 'Type here what happened, and what is planned',
    tab: tabs.type,
    sheets: ['Fish log', 'Feed log', 'Plantings', 'Harvest log', 'Water log', 'Treatments'],
  },
  {
    title: 'Look here every week',
    tab: tabs.look,
    sheets: ['Week', 'Tanks', 'Beds', 'Balance'],
  },
  AHEAD,
  {
    title: 'Type here once what the farm is',
    tab: tabs.type,
    sheets: ['Site', 'Plant room'],
  },
  {
    title: 'Tables and sources',
    tab: tabs.tables,
    sheets: ['Crops', 'Species', 'Own figures', 'Sources'],
  },
];

const groupOf = (name: string): SheetGroup =>
  sheetGroups.find(({ sheets }) => sheets.includes(name)) ?? AHEAD;

/** The sheets by group, those of a group in its order, and what no group names behind the year ahead. */
export const inGroups = <S extends { readonly name: string }>(
  all: readonly S[],
): { readonly title: string; readonly sheets: readonly (S & { readonly tabColour: string })[] }[] =>
  sheetGroups.map((group) => {
    const place = ({ name }: S): number =>
      group.sheets.includes(name) ? group.sheets.indexOf(name) : group.sheets.length;
    const sheets = all
      .filter(({ name }) => groupOf(name) === group)
      .sort((a, b) => place(a) - place(b))
      .map((sheet) => ({ ...sheet, tabColour: group.tab }));
    return { title: group.title, sheets };
  });
