import { SPREADSHEET, spreadsheetType } from './namespaces';
import { folderOf, type Package } from './package';
import { childNamed, childrenNamed } from './read-xml';
import { element, xmlPart } from './write-xml';

const DYNAMIC_ARRAYS = 'XLDAPR';

/** The part that says what cm="1" on a cell means: its formula is a dynamic array. */
export const dynamicArraysXml = (): string =>
  xmlPart(
    element(
      'metadata',
      {
        xmlns: SPREADSHEET,
        'xmlns:xda': 'http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray',
      },
      [
        `<metadataTypes count="1"><metadataType name="${DYNAMIC_ARRAYS}" minSupportedVersion="120000" copy="1" pasteAll="1" pasteValues="1" merge="1" splitFirst="1" rowColShift="1" clearFormats="1" clearComments="1" assign="1" coerce="1" cellMeta="1"/></metadataTypes>`,
        `<futureMetadata name="${DYNAMIC_ARRAYS}" count="1"><bk><extLst><ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}"><xda:dynamicArrayProperties fDynamic="1" fCollapsed="0"/></ext></extLst></bk></futureMetadata>`,
        '<cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata>',
      ],
    ),
  );

/**
 * The number by which a cell says that it is a dynamic array; adds what the file needs for it.
 * Undefined where the file has metadata of another kind only.
 */
export function dynamicArrayMark(file: Package, workbook: string): string | undefined {
  const part = file.related(workbook, 'sheetMetadata')?.target;
  if (part === undefined || !file.has(part)) {
    const metadata = `${folderOf(workbook)}metadata.xml`;
    file.add(metadata, spreadsheetType('sheetMetadata'), dynamicArraysXml());
    file.relate(workbook, 'sheetMetadata', metadata);
    return '1';
  }
  const root = file.root(part);
  const types = childrenNamed(childNamed(root, 'metadataTypes'), 'metadataType');
  const type = types.findIndex((type) => type.attributes['name'] === DYNAMIC_ARRAYS) + 1;
  if (type === 0) return undefined;
  const blocks = childrenNamed(childNamed(root, 'cellMetadata'), 'bk');
  const at = blocks.findIndex((bk) => childNamed(bk, 'rc')?.attributes['t'] === String(type));
  return at < 0 ? undefined : String(at + 1);
}
