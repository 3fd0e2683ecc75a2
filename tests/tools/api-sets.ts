/** The requirement set of each member of Excel's API, as the type definitions of the API say it. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const definitions = createRequire(import.meta.url).resolve('@types/office-js/index.d.ts');

const IN_CLASS = /^ {8}(?:readonly )?(\w+)\??\s*[(:]/;
const IS_TYPE = /^ {4}(?:export )?(?:class|interface) (\w+)/;
const SET = /\[Api set: (\w+) ([\d.]+)[^\]]*\]/;

/** Members such as "Range.formulas" with their set, such as "ExcelApi 1.1". */
export function memberSets(): ReadonlyMap<string, string> {
  const lines = readFileSync(definitions, 'utf8').split('\n');
  const from = lines.findIndex((line) => line.startsWith('declare namespace Excel {'));
  const sets = new Map<string, string>();
  let type = '';
  let typeSet = '';
  let said = '';
  for (const line of lines.slice(from + 1)) {
    if (line.startsWith('}')) break;
    const set = SET.exec(line);
    if (set) said = `${set[1]} ${set[2]}`;
    const begins = IS_TYPE.exec(line);
    if (begins) {
      type = begins[1] as string;
      typeSet = said;
      said = '';
      continue;
    }
    const member = IN_CLASS.exec(line)?.[1];
    if (member === undefined || type === '') continue;
    const name = `${type}.${member}`;
    // Where a member says nothing, the class does; the first of several forms counts.
    if (!sets.has(name)) sets.set(name, said || typeSet);
    said = '';
  }
  return sets;
}

/** Members that are called otherwise on the wire; the library keeps one to itself. */
const apiNames: Readonly<Record<string, string>> = {
  'Worksheet.gridlines': 'Worksheet.showGridlines',
  'Workbook.createAndOpenWorkbook': '',
  'WorksheetCollection._RegisterDataChangedEvent': 'WorksheetCollection.onChanged',
  ...Object.fromEntries(
    ['Calculated', 'RowSorted', 'ColumnSorted', 'Added', 'Deleted'].map((what) => [
      `WorksheetCollection._Register${what}Event`,
      `WorksheetCollection.on${what}`,
    ]),
  ),
};

/** Members under the names by which the add-in calls them. */
export const apiNamesOf = (wired: Iterable<string>): string[] =>
  [...wired].map((name) => apiNames[name] ?? name).filter((name) => name !== '');
