import { readFile } from 'node:fs/promises';
import { childNamed, readXml } from '../ooxml/read-xml';
import type { AddInReference, AddInStore } from '../ooxml/add-in-part';
import { Mistake } from './mistake';

/** The manifest of every copy: id and version are the same wherever one is hosted. */
const MANIFEST = new URL('../../manifest.xml', import.meta.url);

function storeNamed(where: string): AddInStore {
  if (where === 'organisation' || where === 'sideloaded') return where;
  if (/^\\\\[^\\]+\\[^\\]+/.test(where)) return { folder: where };
  throw new Mistake(
    `--add-in takes organisation, sideloaded, or the shared folder that Excel takes add-ins from, such as '\\\\server\\add-ins'; got ${where}.`,
  );
}

/** What a workbook says of Gillbed to whom it is sent: its pane is offered there. */
export async function addInFrom(where: string): Promise<AddInReference> {
  const from = storeNamed(where);
  const manifest = readXml(await readFile(MANIFEST, 'utf8'), 'manifest.xml');
  const textOf = (name: string): string => childNamed(manifest, name)?.text.trim() ?? '';
  return { id: textOf('Id'), version: textOf('Version'), from, offer: true };
}
