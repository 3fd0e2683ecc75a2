import type { Splice, XmlElement } from './read-xml';

/** The children of a sheet in the order of the format (ECMA-376, part 1, 18.3.1.99). */
const CHILDREN = [
  ...['sheetPr', 'dimension', 'sheetViews', 'sheetFormatPr', 'cols', 'sheetData', 'sheetCalcPr'],
  ...['sheetProtection', 'protectedRanges', 'scenarios', 'autoFilter', 'sortState'],
  ...['dataConsolidate', 'customSheetViews', 'mergeCells', 'phoneticPr', 'conditionalFormatting'],
  ...['dataValidations', 'hyperlinks', 'printOptions', 'pageMargins', 'pageSetup', 'headerFooter'],
  ...['rowBreaks', 'colBreaks', 'customProperties', 'cellWatches', 'ignoredErrors', 'smartTags'],
  ...['drawing', 'legacyDrawing', 'legacyDrawingHF', 'picture', 'oleObjects', 'controls'],
  ...['webPublishItems', 'tableParts', 'extLst'],
];

/** Puts a child that a sheet does not have yet where the format wants it. */
export function insertedChild(root: XmlElement, name: string, xml: string): Splice {
  const rank = CHILDREN.indexOf(name);
  const before = root.children.filter((child) => CHILDREN.indexOf(child.name) <= rank).at(-1);
  const at = before?.end ?? root.openEnd;
  return { start: at, end: at, text: xml };
}
