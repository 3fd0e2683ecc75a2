import { OFFICE_RELATIONSHIPS } from './namespaces';
import type { Package } from './package';
import { element, textElement, xmlPart } from './write-xml';

/**
 * The add-in that a live workbook belongs to, written as Excel writes it ([MS-OWEMXML]), so that a recipient
 * is offered the pane.
 */
export interface AddInReference {
  /** Id of the manifest. */
  readonly id: string;
  /** Version of the manifest, such as "1.0.0.0"; Excel refuses another. */
  readonly version: string;
  /** Where the recipient's Excel finds it. */
  readonly from: AddInStore;
  /** True to offer the pane at first opening; otherwise it opens by itself once it has been opened by hand. */
  readonly offer: boolean;
}

/** Sideloaded by its user, given out by an organisation, or in a shared folder such as \\server\folder. */
export type AddInStore = 'sideloaded' | 'organisation' | { readonly folder: string };

function storeOf(from: AddInStore): { readonly store: string; readonly storeType: string } {
  if (from === 'sideloaded') return { store: 'developer', storeType: 'Registry' };
  if (from === 'organisation') return { store: 'EXCatalog', storeType: 'EXCatalog' };
  return { store: from.folder, storeType: 'FileSystem' };
}

const INSTANCE_ID = '{3D8C1F0A-7B64-4E1E-A0C7-51B9D2E4F6A8}';
const WEB_EXTENSION = 'http://schemas.microsoft.com/office/webextensions/webextension/2010/11';
const TASK_PANES = 'http://schemas.microsoft.com/office/webextensions/taskpanes/2010/11';
const RELATION = 'http://schemas.microsoft.com/office/2011/relationships/webextension';

/** `storedNames` are the custom functions that the workbook calls. */
export function addAddIn(
  file: Package,
  { id, version, from, offer }: AddInReference,
  storedNames: readonly string[],
): void {
  const panes = 'xl/webextensions/taskpanes.xml';
  const extension = 'xl/webextensions/webextension1.xml';
  file.relate('', `${RELATION}taskpanes`, panes);
  const link = file.relate(panes, RELATION, extension);
  file.add(
    panes,
    'application/vnd.ms-office.webextensiontaskpanes+xml',
    xmlPart(
      element('wetp:taskpanes', { 'xmlns:wetp': TASK_PANES }, [
        element(
          'wetp:taskpane',
          { dockstate: 'right', visibility: offer ? 1 : 0, width: 380, row: 1 },
          element('wetp:webextensionref', { 'xmlns:r': OFFICE_RELATIONSHIPS, 'r:id': link }),
        ),
      ]),
    ),
  );
  const functions = element(
    'a:ext',
    {
      'xmlns:a': 'http://schemas.openxmlformats.org/drawingml/2006/main',
      uri: '{7C84B067-C214-45C3-A712-C9D94CD141B2}',
    },
    element(
      'we:customFunctionIdList',
      {},
      storedNames.map((name) => textElement('we:customFunctionIds', name)),
    ),
  );
  file.add(
    extension,
    'application/vnd.ms-office.webextension+xml',
    xmlPart(
      element('we:webextension', { 'xmlns:we': WEB_EXTENSION, id: INSTANCE_ID }, [
        element('we:reference', { id, version, ...storeOf(from) }),
        '<we:alternateReferences/>',
        element(
          'we:properties',
          {},
          element('we:property', { name: 'Office.AutoShowTaskpaneWithDocument', value: 'true' }),
        ),
        '<we:bindings/>',
        element('we:snapshot', { 'xmlns:r': OFFICE_RELATIONSHIPS }),
        storedNames.length === 0 ? '' : element('we:extLst', {}, functions),
      ]),
    ),
  );
}
