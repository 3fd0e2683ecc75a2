/** Formulas of own sheets that stand in no cell: rules, marks, charts, tables, links. */
import type { Package } from '../ooxml/package';
import type { Splice, XmlElement } from '../ooxml/read-xml';
import type { SheetPart } from '../ooxml/workbook-parts';
import { escapeAttribute, escapeText } from '../ooxml/write-xml';

const FORMULAS = new Set([
  'f',
  'formula',
  'formula1',
  'formula2',
  'calculatedColumnFormula',
  'totalsRowFormula',
]);

/** The parts that belong to sheets, each with the sheet that it belongs to. */
export function partsOfSheets(
  file: Package,
  sheets: readonly Pick<SheetPart, 'name' | 'part'>[],
): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  const visit = (part: string, sheet: string): void => {
    if (found.has(part) || !file.has(part) || !/\.(?:xml|vml)$/.test(part)) return;
    found.set(part, sheet);
    for (const { target, external } of file.relationships(part))
      if (!external) visit(target, sheet);
  };
  for (const { name, part } of sheets) visit(part, name);
  return found;
}

/** Changes of the formulas in these parts; `rewritten` gives each as it is to read. */
export function formulasOfParts(
  file: Package,
  parts: ReadonlyMap<string, string>,
  rewritten: (formula: string, sheet: string) => string,
): ReadonlyMap<string, readonly Splice[]> {
  const edits = new Map<string, readonly Splice[]>();
  for (const [part, sheet] of parts) {
    const xml = file.readableText(part);
    if (
      xml === undefined ||
      !/<(?:\w+:)?(?:f|formula\d?|calculatedColumnFormula|totalsRowFormula|hyperlink)\b/.test(xml)
    )
      continue;
    const splices: Splice[] = [];
    const visit = (element: XmlElement): void => {
      // Formulas of cells are changed with their cells.
      if (element.name === 'c' && element.attributes['r'] !== undefined) return;
      if (FORMULAS.has(element.name) && element.text !== '') {
        const text = rewritten(element.text, sheet);
        const close = xml.lastIndexOf('</', element.end - 1);
        if (text !== element.text)
          splices.push({ start: element.openEnd, end: close, text: escapeText(text) });
      }
      const location = element.name === 'hyperlink' ? element.attributes['location'] : undefined;
      if (location !== undefined && location.includes('!')) {
        const text = rewritten(location, sheet);
        if (text !== location)
          splices.push({
            start: element.start,
            end: element.openEnd,
            text: xml
              .slice(element.start, element.openEnd)
              .replace(
                /(\slocation=)(?:"[^"]*"|'[^']*')/,
                () => ` location="${escapeAttribute(text)}"`,
              ),
          });
      }
      element.children.forEach(visit);
    };
    visit(file.root(part));
    if (splices.length > 0) edits.set(part, splices);
  }
  return edits;
}
