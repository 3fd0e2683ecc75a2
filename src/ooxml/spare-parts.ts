import { readPart, writePart, type Parts } from './package';
import { relationships, relationshipsPart, type Relationship } from './workbook-parts';
import { childNamed, childrenNamed, readXml, spliced } from './read-xml';

const CONTENT_TYPES = '[Content_Types].xml';

/** Takes a part, its relationship and its content type out of the file. */
function removePart(parts: Parts, holder: string, link: Relationship): void {
  parts.delete(link.target);
  parts.delete(relationshipsPart(link.target));
  const list = relationshipsPart(holder);
  const xml = readPart(parts, list);
  const again = relationships(parts, holder).find((one) => one.id === link.id);
  if (again) {
    const { start, end } = again.element;
    writePart(parts, list, spliced(xml, [{ start, end, text: '' }]));
  }
  const types = readPart(parts, CONTENT_TYPES);
  const entry = childrenNamed(readXml(types, CONTENT_TYPES), 'Override').find(
    (one) => one.attributes['PartName'] === `/${link.target}`,
  );
  if (entry) {
    writePart(
      parts,
      CONTENT_TYPES,
      spliced(types, [{ start: entry.start, end: entry.end, text: '' }]),
    );
  }
}

/** The stored order of calculation names cells that hold no formula any more; spreadsheets make it anew. */
export function removeCalculationOrder(parts: Parts): void {
  const main =
    relationships(parts, '').find((one) => one.type.endsWith('/officeDocument'))?.target ?? '';
  for (const link of relationships(parts, main)) {
    if (link.type.endsWith('/calcChain')) removePart(parts, main, link);
  }
}

/** The reference to Gillbed's own pane is of no use in a copy that needs no Gillbed. Others' panes stay. */
export function removeAddInParts(parts: Parts): void {
  const link = relationships(parts, '').find((one) => one.type.endsWith('/webextensiontaskpanes'));
  if (!link || !parts.has(link.target)) return;
  const extensions = relationships(parts, link.target);
  const ours = extensions.filter((one) => {
    const bytes = parts.get(one.target);
    return bytes !== undefined && new TextDecoder().decode(bytes).includes('_xldudf_GILL_');
  });
  for (const one of ours) removePart(parts, link.target, one);
  if (ours.length === extensions.length) {
    if (ours.length > 0) removePart(parts, '', link);
    return;
  }
  const xml = readPart(parts, link.target);
  const gone = childrenNamed(readXml(xml, link.target), 'taskpane').filter((pane) => {
    const { attributes = {} } = childNamed(pane, 'webextensionref') ?? {};
    const id = Object.entries(attributes).find(([name]) => name.endsWith(':id'))?.[1];
    return ours.some((one) => one.id === id);
  });
  const edits = gone.map(({ start, end }) => ({ start, end, text: '' }));
  writePart(parts, link.target, spliced(xml, edits));
}

/** New formulas come without stored values: the workbook is computed when it is opened. */
export function calculateOnOpening(parts: Parts, workbook: string): void {
  const xml = readPart(parts, workbook);
  const root = readXml(xml, workbook);
  const settings = childNamed(root, 'calcPr');
  if (settings) {
    const open = xml.slice(settings.start, settings.openEnd);
    const text = /fullCalcOnLoad="/.test(open)
      ? open.replace(/fullCalcOnLoad="[^"]*"/, 'fullCalcOnLoad="1"')
      : open.replace(/(\/?>)$/, ' fullCalcOnLoad="1"$1');
    writePart(
      parts,
      workbook,
      spliced(xml, [{ start: settings.start, end: settings.openEnd, text }]),
    );
    return;
  }
  const before = ['definedNames', 'externalReferences', 'functionGroups', 'sheets']
    .map((name) => childNamed(root, name))
    .find(Boolean);
  if (!before) return;
  const text = `<${root.prefix}calcPr fullCalcOnLoad="1"/>`;
  writePart(parts, workbook, spliced(xml, [{ start: before.end, end: before.end, text }]));
}
