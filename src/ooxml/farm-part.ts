import { FARM_NAMESPACE, farmFromXml, farmXml } from './farm-xml';
import type { Package } from './package';
import { element, xmlPart } from './write-xml';

/** Names the part for programs that look parts up by id. */
const ITEM_ID = '{6B1B5A35-5D0C-4F52-9C8B-0F6A7D7C9E41}';

/** Keeps the farm's inputs inside the workbook. */
export function addFarm(file: Package, workbook: string, json: string): void {
  let n = 1;
  while (file.has(`customXml/item${n}.xml`) || file.has(`customXml/itemProps${n}.xml`)) n += 1;
  const item = `customXml/item${n}.xml`;
  const properties = `customXml/itemProps${n}.xml`;
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

/** The part that keeps a farm in a file, where there is one. */
export const farmPartOf = (file: Package): string | undefined =>
  file.names.find(
    (name) =>
      /^customXml\/item\d+\.xml$/.test(name) &&
      farmFromXml(file.readableText(name) ?? '') !== undefined,
  );

/** Keeps a farm's inputs inside a workbook that was opened, in the place of those that it may have kept so far. */
export function keepFarm(file: Package, workbook: string, json: string): void {
  const known = farmPartOf(file);
  if (known === undefined) addFarm(file, workbook, json);
  else if (farmFromXml(file.text(known)) !== json) file.replace(known, xmlPart(farmXml(json)));
}
