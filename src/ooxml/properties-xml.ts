import type { WorkbookModel } from '../plan/workbook-model';
import { element, textElement, xmlPart } from './write-xml';

/** Title and the day the workbook was made; never the clock's. */
export function coreXml({ title, made }: WorkbookModel): string {
  const moment = `${made}T00:00:00Z`;
  const time = { 'xsi:type': 'dcterms:W3CDTF' };
  return xmlPart(
    element(
      'cp:coreProperties',
      {
        'xmlns:cp': 'http://schemas.openxmlformats.org/package/2006/metadata/core-properties',
        'xmlns:dc': 'http://purl.org/dc/elements/1.1/',
        'xmlns:dcterms': 'http://purl.org/dc/terms/',
        'xmlns:xsi': 'http://www.w3.org/2001/XMLSchema-instance',
      },
      [
        textElement('dc:title', title),
        textElement('dc:creator', 'Gillbed'),
        textElement('dcterms:created', moment, time),
        textElement('dcterms:modified', moment, time),
      ],
    ),
  );
}

export const appXml = (): string =>
  xmlPart(
    element(
      'Properties',
      { xmlns: 'http://schemas.openxmlformats.org/officeDocument/2006/extended-properties' },
      textElement('Application', 'Gillbed'),
    ),
  );
