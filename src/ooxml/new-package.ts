import { strToU8, zipSync, type Zippable } from 'fflate';
import { element, xmlPart } from './write-xml';

const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships/';
const RELATIONSHIPS = 'http://schemas.openxmlformats.org/package/2006/relationships';

/** Relation types by a short name, or in full. */
export const relation = (kind: string): string => (kind.includes(':') ? kind : `${OFFICE}${kind}`);

interface Relation {
  readonly kind: string;
  readonly target: string;
}

/** Target of a relation as seen from the part that holds it. */
function relativeTarget(owner: string, target: string): string {
  const from = owner.split('/').slice(0, -1);
  const to = target.split('/');
  let shared = 0;
  while (shared < from.length && from[shared] === to[shared]) shared += 1;
  return [...from.slice(shared).map(() => '..'), ...to.slice(shared)].join('/');
}

function relationsPart(owner: string): string {
  const cut = owner.lastIndexOf('/') + 1;
  return `${owner.slice(0, cut)}_rels/${owner.slice(cut)}.rels`;
}

/** The parts of a file with their kinds and how they refer to each other. */
export class Package {
  private readonly parts = new Map<string, string>();
  private readonly kinds = new Map<string, string>();
  private readonly relations = new Map<string, Relation[]>();

  /** A part without a content type of its own is plain XML or known by its ending. */
  add(path: string, contentType: string | undefined, xml: string): void {
    this.parts.set(path, xml);
    if (contentType !== undefined) this.kinds.set(path, contentType);
  }

  /** Adds a relation from a part ('' for the file as a whole) and gives its id. */
  relate(owner: string, kind: string, target: string): string {
    const list = this.relations.get(owner) ?? [];
    list.push({ kind: relation(kind), target });
    this.relations.set(owner, list);
    return `rId${list.length}`;
  }

  private contentTypes(): string {
    const types = 'http://schemas.openxmlformats.org/package/2006/content-types';
    const byEnding = (Extension: string, ContentType: string): string =>
      element('Default', { Extension, ContentType });
    return element('Types', { xmlns: types }, [
      byEnding('rels', 'application/vnd.openxmlformats-package.relationships+xml'),
      byEnding('xml', 'application/xml'),
      byEnding('vml', 'application/vnd.openxmlformats-officedocument.vmlDrawing'),
      ...[...this.kinds].map(([path, ContentType]) =>
        element('Override', { PartName: `/${path}`, ContentType }),
      ),
    ]);
  }

  /** The file. Its inner clock stands still, so that equal parts give equal bytes in every time zone. */
  bytes(): Uint8Array {
    const files: Zippable = { '[Content_Types].xml': strToU8(xmlPart(this.contentTypes())) };
    for (const [owner, list] of this.relations) {
      const entries = list.map(({ kind, target }, i) =>
        element('Relationship', {
          Id: `rId${i + 1}`,
          Type: kind,
          Target: relativeTarget(owner, target),
        }),
      );
      const xml = xmlPart(element('Relationships', { xmlns: RELATIONSHIPS }, entries));
      files[relationsPart(owner)] = strToU8(xml);
    }
    for (const [path, xml] of this.parts) files[path] = strToU8(xml);
    // The zip format keeps local time: the first local moment that it knows is the same text everywhere.
    return zipSync(files, { level: 6, mtime: new Date(1980, 0, 1) });
  }
}
