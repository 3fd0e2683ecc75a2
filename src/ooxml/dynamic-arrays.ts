import { readPart, writePart, type Parts } from './package';
import { relationships, relationshipsPart } from './workbook-parts';
import { childNamed, childrenNamed, readXml, spliced } from './read-xml';

const RELATIONSHIP =
  'http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata';
const CONTENT_TYPE =
  'application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml';
const DYNAMIC_ARRAYS = 'XLDAPR';

/** The part by which a file says that a formula is a dynamic array, as Excel itself writes it. */
const METADATA = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<metadata xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray"><metadataTypes count="1"><metadataType name="XLDAPR" minSupportedVersion="120000" copy="1" pasteAll="1" pasteValues="1" merge="1" splitFirst="1" rowColShift="1" clearFormats="1" clearComments="1" assign="1" coerce="1" cellMeta="1"/></metadataTypes><futureMetadata name="XLDAPR" count="1"><bk><extLst><ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}"><xda:dynamicArrayProperties fDynamic="1" fCollapsed="0"/></ext></extLst></bk></futureMetadata><cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata></metadata>`;

/** Puts an element in front of the closing tag of a part's root. */
export function appendToRoot(parts: Parts, part: string, element: string): void {
  const xml = readPart(parts, part);
  const root = readXml(xml, part);
  if (root.selfClosing) {
    const open = xml.slice(root.start, root.openEnd).replace(/\s*\/>$/, '>');
    const text = `${open}${element}</${root.prefix}${root.name}>`;
    writePart(parts, part, spliced(xml, [{ start: root.start, end: root.end, text }]));
    return;
  }
  const at = xml.lastIndexOf('</', root.end - 1);
  writePart(parts, part, spliced(xml, [{ start: at, end: at, text: element }]));
}

/** Adds a part with its content type and its relationship from the workbook; gives the relationship's id. */
export function addPart(
  parts: Parts,
  workbook: string,
  part: string,
  xml: string,
  kind: { type: string; contentType: string },
): string {
  writePart(parts, part, xml);
  const types = '[Content_Types].xml';
  const { prefix } = readXml(readPart(parts, types), types);
  appendToRoot(
    parts,
    types,
    `<${prefix}Override PartName="/${part}" ContentType="${kind.contentType}"/>`,
  );
  const taken = new Set(relationships(parts, workbook).map((one) => one.id));
  let n = taken.size + 1;
  while (taken.has(`rId${n}`)) n += 1;
  const list = relationshipsPart(workbook);
  const listPrefix = readXml(readPart(parts, list), list).prefix;
  appendToRoot(
    parts,
    list,
    `<${listPrefix}Relationship Id="rId${n}" Type="${kind.type}" Target="/${part}"/>`,
  );
  return `rId${n}`;
}

/**
 * The number by which a cell says that it is a dynamic array; adds what the file needs for it.
 * Undefined where the file has metadata of another kind only.
 */
export function dynamicArrayMark(parts: Parts, workbook: string): string | undefined {
  const part = relationships(parts, workbook).find((one) =>
    one.type.endsWith('/sheetMetadata'),
  )?.target;
  if (!part || !parts.has(part)) {
    const folder = workbook.slice(0, workbook.lastIndexOf('/') + 1);
    addPart(parts, workbook, `${folder}metadata.xml`, METADATA, {
      type: RELATIONSHIP,
      contentType: CONTENT_TYPE,
    });
    return '1';
  }
  const root = readXml(readPart(parts, part), part);
  const types = childrenNamed(childNamed(root, 'metadataTypes'), 'metadataType');
  const type = types.findIndex((one) => one.attributes['name'] === DYNAMIC_ARRAYS) + 1;
  if (type === 0) return undefined;
  const blocks = childrenNamed(childNamed(root, 'cellMetadata'), 'bk');
  const at = blocks.findIndex((bk) => childNamed(bk, 'rc')?.attributes['t'] === String(type));
  return at < 0 ? undefined : String(at + 1);
}
