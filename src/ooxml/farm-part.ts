import { FARM_NAMESPACE, farmXml } from './farm-xml';
import type { Package } from './package';
import { element, xmlPart } from './write-xml';

/** Names the part for programs that look parts up by id. */
const ITEM_ID = '{6B1B5A35-5D0C-4F52-9C8B-0F6A7D7C9E41}';

/** Keeps the farm's inputs inside the workbook. */
export function addFarm(file: Package, workbook: string, json: string): void {
  const item = 'customXml/item1.xml';
  const properties = 'customXml/itemProps1.xml';
  file.add(item, undefined, xmlPart(farmXml(json)));
  file.relate(workbook, 'customXml', item);
  file.add(
    properties,
    'application/vnd.openxmlformats-officedocument.customXmlProperties+xml',
    xmlPart(
      element(
        'ds:datastoreItem',
        {
          'ds:itemID': ITEM_ID,
          'xmlns:ds': 'http://schemas.openxmlformats.org/officeDocument/2006/customXml',
        },
        element('ds:schemaRefs', {}, element('ds:schemaRef', { 'ds:uri': FARM_NAMESPACE })),
      ),
    ),
  );
  file.relate(item, 'customXmlProps', properties);
}
