import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { handOver } from '../../src/handover/hand-over';
import { computedValues } from '../../src/engine/engine';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { everythingModel } from '../tools/everything-model';
import { partNames, partText } from '../tools/planted';
import { schemaFaults } from '../tools/schema';

const model = everythingModel('live');
const file = writeXlsx(model, computedValues(model), {
  addIn: {
    id: '00000000-1111-4222-8333-444444444444',
    version: '1.2.3.0',
    from: 'organisation',
    offer: true,
  },
});

const PANES = 'xl/webextensions/taskpanes.xml';
const RELATIONS = 'xl/webextensions/_rels/taskpanes.xml.rels';
const OTHER = 'xl/webextensions/webextension2.xml';

/** The same file with the pane of somebody else's add-in beside Gillbed's. */
function withAnother(bytes: Uint8Array): Uint8Array {
  const parts = unzipSync(bytes);
  const change = (path: string, from: RegExp, to: string): void => {
    const xml = strFromU8(parts[path] ?? new Uint8Array());
    const changed = xml.replace(from, to);
    if (changed === xml) throw new Error(`Nothing was changed in ${path}`);
    parts[path] = strToU8(changed);
  };
  const own = strFromU8(parts['xl/webextensions/webextension1.xml'] ?? new Uint8Array());
  parts[OTHER] = strToU8(own.replaceAll('_xldudf_GILL_', '_xldudf_OTHER_'));
  change(PANES, /<wetp:taskpane .*<\/wetp:taskpane>/s, '$&$&');
  change(PANES, /(r:id=")rId1("[^]*r:id=")rId1/, '$1rId1$2rId2');
  change(
    RELATIONS,
    /<Relationship Id="rId1"([^>]*)webextension1\.xml"\/>/,
    '$&<Relationship Id="rId2"$1webextension2.xml"/>',
  );
  change(
    '[Content_Types].xml',
    /(<Override PartName="\/xl\/webextensions\/webextension)1(\.xml"[^>]*>)/,
    '$&$12$2',
  );
  return zipSync(parts);
}

describe('the add-in that a workbook names', () => {
  it('is removed from a copy that needs no Gillbed', () => {
    expect(partNames(file).join()).toContain('webextension');
    const { bytes } = handOver(file);
    expect(partNames(bytes).join()).not.toContain('webextension');
    expect(partText(bytes, '_rels/.rels')).not.toContain('webextension');
    expect(partText(bytes, '[Content_Types].xml')).not.toContain('webextension');
    expect(schemaFaults(bytes)).toBe('');
  });

  it("leaves another's pane where it is", () => {
    const both = withAnother(file);
    expect(schemaFaults(both)).toBe('');
    const { bytes } = handOver(both);
    expect(
      partNames(bytes)
        .filter((name) => name.includes('webextension'))
        .sort(),
    ).toEqual([RELATIONS, PANES, OTHER].sort());
    expect(partText(bytes, PANES).match(/r:id="\w+"/g)).toEqual(['r:id="rId2"']);
    expect(partText(bytes, RELATIONS)).toContain('Target="webextension2.xml"');
    expect(partText(bytes, RELATIONS)).not.toContain('webextension1');
    expect(schemaFaults(bytes)).toBe('');
  });
});
