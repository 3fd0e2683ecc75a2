import { strToU8 } from 'fflate';
import { atOnce, partly, type Steps } from '../plan/in-steps';
import { CONTENT_TYPES, PACKAGE_RELATIONSHIPS, relationshipType } from './namespaces';
import {
  childrenNamed,
  readXml,
  spliced,
  splicing,
  type Splice,
  type XmlElement,
  XmlReading,
} from './read-xml';
import { packedParts, soundly, unpackedPart } from './unpack';
import { UnreadableFile } from './unreadable-file';
import { element, xmlPart } from './write-xml';
import { packed, packedPieces, type PackedPart, unpackedPieces, writeZip } from './zip';

const TYPES_PART = '[Content_Types].xml';

export interface Relationship {
  readonly id: string;
  readonly type: string;
  /** The part that it leads to; out of the file, the address as it is written. */
  readonly target: string;
  readonly external: boolean;
}

export const folderOf = (part: string): string => part.slice(0, part.lastIndexOf('/') + 1);

const relationshipsPart = (owner: string): string =>
  `${folderOf(owner)}_rels/${owner.slice(folderOf(owner).length)}.rels`;

/** The part that a relationship's target names, as seen from the part that holds it. */
function resolvedTarget(owner: string, written: string): string {
  const target = written.replaceAll('\\', '/');
  const steps: string[] = target.startsWith('/') ? [] : folderOf(owner).split('/').filter(Boolean);
  for (const step of target.split('/').filter(Boolean)) {
    if (step === '..') steps.pop();
    else if (step !== '.') steps.push(step);
  }
  return steps.join('/');
}

/** A part as a relationship of another one names it. */
function relativeTarget(owner: string, target: string): string {
  const from = owner.split('/').slice(0, -1);
  const to = target.split('/');
  let shared = 0;
  while (shared < from.length && from[shared] === to[shared]) shared += 1;
  return [...from.slice(shared).map(() => '..'), ...to.slice(shared)].join('/');
}

/** How a part is written down: by its mark of byte order, or by what its first line says. */
function encodingOf(bytes: Uint8Array): string {
  const [first, second] = bytes;
  if ((first === 0xff && second === 0xfe) || (first === 0x3c && second === 0)) return 'utf-16le';
  if ((first === 0xfe && second === 0xff) || (first === 0 && second === 0x3c)) return 'utf-16be';
  const head = String.fromCharCode(...bytes.subarray(0, 120));
  const said = /^(?:\xEF\xBB\xBF)?<\?xml[^>]*\sencoding\s*=\s*["']([\w.-]+)["']/.exec(head)?.[1];
  // What is written byte by byte, so that this line can be read, is in no case UTF-16.
  return said === undefined || /^utf-?16/i.test(said) ? 'utf-8' : said;
}

const noText = (part: string): UnreadableFile =>
  new UnreadableFile(`The file is damaged: its part ${part} is not written as text.`);

const ownEntities = (part: string): UnreadableFile =>
  new UnreadableFile(
    `The part ${part} declares entities of its own, which no workbook needs; it was not opened.`,
  );

function decoded(bytes: Uint8Array, part: string): string {
  let xml: string;
  try {
    xml = new TextDecoder(encodingOf(bytes), { fatal: true, ignoreBOM: false }).decode(bytes);
  } catch {
    throw noText(part);
  }
  if (/<!DOCTYPE/i.test(xml)) throw ownEntities(part);
  return xml;
}

/** The text of a part piece by piece, as its bytes are unpacked. */
function* decodedPieces(pieces: Iterable<Uint8Array>, part: string): Generator<string> {
  let decoder: TextDecoder | undefined;
  let end = '';
  const checked = (text: string): string => {
    // The word could be cut by the end of a piece.
    if (/<!DOCTYPE/i.test(end + text)) throw ownEntities(part);
    end = text.slice(-10);
    return text;
  };
  try {
    for (const piece of pieces) {
      decoder ??= new TextDecoder(encodingOf(piece), { fatal: true, ignoreBOM: false });
      yield checked(decoder.decode(piece, { stream: true }));
    }
    yield checked(decoder?.decode() ?? '');
  } catch (problem) {
    if (problem instanceof TypeError || problem instanceof RangeError) throw noText(part);
    throw problem;
  }
}

/** Characters of a part that are worked on in one step. */
const STEP = 65_536;

function* textPieces(text: string): Generator<string> {
  for (let at = 0; at < text.length; at += STEP) yield text.slice(at, at + STEP);
}

/** Parts up to this length in letters stay decoded; larger ones are decoded anew when somebody asks. */
const KEPT_LENGTH = 1_000_000;

/** Text as it is packed: the first line must not say that it is written in another way. */
const asUtf8 = (xml: string): string =>
  xml.replace(/^(<\?xml[^>]*\sencoding\s*=\s*["'])(?!utf-8["'])[\w.-]+/i, '$1UTF-8');

function* encodedPieces(xml: string): Generator<Uint8Array> {
  for (let at = 0; at < xml.length;) {
    let end = at + STEP;
    // A letter of two halves is written as a whole.
    if (/[\uD800-\uDBFF]/.test(xml.charAt(end - 1))) end += 1;
    yield strToU8(xml.slice(at, end));
    at = end;
  }
}

function* packedText(xml: string): Steps<PackedPart> {
  const text = asUtf8(xml);
  if (text.length <= KEPT_LENGTH) return packed(strToU8(text));
  return yield* packedPieces(encodedPieces(text), text.length);
}

/**
 * The parts of a file, their content types and how they refer to each other: a new file, or one that was opened.
 * Parts of an opened file stay packed as they lie in it until somebody reads them. What is not changed goes into
 * the next file just so.
 */
export class Package {
  private readonly parts: Map<string, PackedPart | string>;
  private readonly texts = new Map<string, string>();
  /** The large part that was read last. */
  private large: { readonly part: string; readonly text: string } | undefined;
  private readonly roots = new Map<string, XmlElement>();
  private readonly addedTypes = new Map<string, string>();
  private readonly addedRelationships = new Map<string, Relationship[]>();

  /** Names of parts by their small letters: two that differ in capitals alone are one. */
  private readonly spellings = new Map<string, string>();

  constructor(parts: ReadonlyMap<string, PackedPart> = new Map()) {
    this.parts = new Map(parts);
    for (const name of parts.keys()) this.spellings.set(name.toLowerCase(), name);
  }

  /** Throws UnreadableFile, with a sentence, for anything that is no .xlsx, or is damaged. */
  static open(bytes: Uint8Array): Package {
    return new Package(packedParts(bytes));
  }

  /** The same file, to try changes on: what is done to it leaves this one alone. */
  copy(): Package {
    const copy = new Package();
    for (const [part, content] of this.parts) copy.parts.set(part, content);
    for (const [part, text] of this.texts) copy.texts.set(part, text);
    for (const [part, root] of this.roots) copy.roots.set(part, root);
    for (const [part, type] of this.addedTypes) copy.addedTypes.set(part, type);
    for (const [owner, added] of this.addedRelationships)
      copy.addedRelationships.set(owner, [...added]);
    for (const [name, part] of this.spellings) copy.spellings.set(name, part);
    return copy;
  }

  get names(): readonly string[] {
    return [...this.parts.keys()];
  }

  /** Whether there is a part of the name, in whatever capitals. */
  has(part: string): boolean {
    return this.parts.has(part) || this.spellings.has(part.toLowerCase());
  }

  /** Whether a part has other content than in the file that was opened. */
  get isChanged(): boolean {
    return [...this.parts.values()].some((content) => typeof content === 'string');
  }

  /** Whether somebody has signed the file as it was. */
  get isSigned(): boolean {
    return this.relationships('').some(({ type }) => type.endsWith('/digital-signature/origin'));
  }

  /** A part as text; throws UnreadableFile where it is missing, not UTF-8 or declares entities. */
  text(part: string): string {
    const known = this.texts.get(part);
    if (known !== undefined) return known;
    const content = this.parts.get(part);
    if (content === undefined) {
      throw new UnreadableFile(`The file is damaged: its part ${part} is missing.`);
    }
    if (typeof content === 'string') return content;
    if (this.large?.part === part) return this.large.text;
    const text = decoded(unpackedPart(content), part);
    if (text.length <= KEPT_LENGTH) this.texts.set(part, text);
    else this.large = { part, text };
    return text;
  }

  /** A part as text in pieces, so that none of it has to be held; throws as `text` does. */
  *pieces(part: string): Generator<string> {
    const content = this.parts.get(part);
    if (content === undefined || typeof content === 'string' || this.texts.has(part)) {
      yield* textPieces(this.text(part));
    } else yield* decodedPieces(soundly(unpackedPieces(content)), part);
  }

  /** Has the text of a large part at hand, in steps; `text` then gives it at once. */
  *loading(part: string): Steps<void> {
    const content = this.parts.get(part);
    if (typeof content !== 'object' || content.size <= KEPT_LENGTH || this.large?.part === part)
      return;
    const pieces: string[] = [];
    let done = 0;
    for (const piece of this.pieces(part)) {
      pieces.push(piece);
      done += piece.length;
      yield Math.min(1, done / content.size);
    }
    this.large = { part, text: pieces.join('') };
  }

  /** About how many letters a part has. */
  length(part: string): number {
    const content = this.parts.get(part);
    return typeof content === 'string' ? content.length : (content?.size ?? 0);
  }

  /** A part as text where it can be read; other programs' parts may be anything. */
  readableText(part: string): string | undefined {
    try {
      return this.text(part);
    } catch (problem) {
      if (problem instanceof UnreadableFile) return undefined;
      throw problem;
    }
  }

  /** The root element of a part, with the places of all elements in its text. */
  root(part: string): XmlElement {
    const known = this.roots.get(part);
    if (known) return known;
    const root = readXml(this.text(part), part);
    this.roots.set(part, root);
    return root;
  }

  /** Has the root of a part at hand, in steps; `root` then gives it at once, and throws as it does. */
  *rooting(part: string): Steps<void> {
    if (this.roots.has(part)) return;
    yield* partly(this.loading(part), 0, 0.3);
    const xml = this.text(part);
    const reading = new XmlReading(part, undefined, xml);
    let done = 0;
    for (const piece of textPieces(xml)) {
      reading.write(piece);
      done += piece.length;
      yield 0.3 + (0.7 * done) / xml.length;
    }
    this.roots.set(part, reading.close());
  }

  /** Lets go of what was read of a large part; it is read again when somebody asks. */
  forget(part: string): void {
    this.roots.delete(part);
    if (this.large?.part === part) this.large = undefined;
    if (typeof this.parts.get(part) !== 'string') this.texts.delete(part);
  }

  /** Gives a part other content. */
  replace(part: string, xml: string): void {
    this.parts.set(part, xml);
    this.spellings.set(part.toLowerCase(), part);
    this.texts.delete(part);
    this.roots.delete(part);
    if (this.large?.part === part) this.large = undefined;
  }

  /** Puts changes into the text of a part. */
  edit(part: string, changes: readonly Splice[]): void {
    if (changes.length > 0) this.replace(part, spliced(this.text(part), changes));
  }

  /** As `edit`, in steps. */
  *editing(part: string, changes: readonly Splice[]): Steps<void> {
    if (changes.length > 0) this.replace(part, yield* splicing(this.text(part), changes));
  }

  /** A new part. One without a content type of its own is plain XML or known by its ending. */
  add(part: string, contentType: string | undefined, xml: string): void {
    this.replace(part, xml);
    if (contentType !== undefined) this.addedTypes.set(part, contentType);
  }

  /** Has an opened file say what parts of an ending are; a new one knows its own. */
  knowEnding(ending: string, contentType: string): void {
    if (!this.has(this.typesPart)) return;
    const known = childrenNamed(this.root(this.typesPart), 'Default').some(
      ({ attributes }) => attributes['Extension']?.toLowerCase() === ending,
    );
    if (known) return;
    this.append(this.typesPart, (prefix) => [
      element(`${prefix}Default`, { Extension: ending, ContentType: contentType }),
    ]);
  }

  /** The relationships of a part ('' for the file as a whole). */
  relationships(owner: string): readonly Relationship[] {
    const stored = this.storedRelationships(owner).map(({ attributes }): Relationship => {
      const written = attributes['Target'] ?? '';
      const external = attributes['TargetMode'] === 'External';
      return {
        id: attributes['Id'] ?? '',
        type: attributes['Type'] ?? '',
        target: external ? written : this.spelled(resolvedTarget(owner, written)),
        external,
      };
    });
    return [...stored, ...(this.addedRelationships.get(owner) ?? [])];
  }

  /** The stored relationships of a part as they are written, with the part that they stand in. */
  linkElements(owner: string): readonly { readonly element: XmlElement; readonly part: string }[] {
    const part = this.spelled(relationshipsPart(owner));
    return this.storedRelationships(owner).map((element) => ({ element, part }));
  }

  /** The part of a kind, such as "sharedStrings", that a part leads to, where there is one. */
  related(owner: string, kind: string): Relationship | undefined {
    return this.relationships(owner).find(({ type }) => type.endsWith(`/${kind}`));
  }

  /** Adds a relationship; the kind is a short name such as "worksheet", or a whole type. Gives its id. */
  relate(owner: string, kind: string, target: string, external = false): string {
    const taken = new Set(this.relationships(owner).map(({ id }) => id));
    let n = taken.size + 1;
    while (taken.has(`rId${n}`)) n += 1;
    const added = this.addedRelationships.get(owner) ?? [];
    added.push({ id: `rId${n}`, type: relationshipType(kind), target, external });
    this.addedRelationships.set(owner, added);
    return `rId${n}`;
  }

  /** Takes a part out of an opened file, with its relationship and its content type. */
  remove(owner: string, { id, target }: Relationship): void {
    this.edit(
      this.spelled(relationshipsPart(owner)),
      this.storedRelationships(owner)
        .filter(({ attributes }) => attributes['Id'] === id)
        .map(({ start, end }) => ({ start, end, text: '' })),
    );
    this.drop(target);
  }

  /** Parts that refer to others ('' for the file as a whole). */
  owners(): readonly string[] {
    const stored = this.names.flatMap((part) => {
      const [, folder = '', name] = /^(.*?)_rels\/([^/]*)\.rels$/i.exec(part) ?? [];
      return name === undefined ? [] : [folder + name];
    });
    return [...new Set([...stored, ...this.addedRelationships.keys()])];
  }

  /** Takes a part out, with its content type and its own relationships. Nothing may refer to it any more. */
  drop(target: string): void {
    this.edit(
      this.typesPart,
      childrenNamed(this.root(this.typesPart), 'Override')
        .filter(
          ({ attributes }) => attributes['PartName']?.toLowerCase() === `/${target}`.toLowerCase(),
        )
        .map(({ start, end }) => ({ start, end, text: '' })),
    );
    for (const part of [target, this.spelled(relationshipsPart(target))]) {
      this.parts.delete(part);
      this.spellings.delete(part.toLowerCase());
      this.forget(part);
      this.texts.delete(part);
    }
  }

  /** The file. Its inner clock stands still, so that equal parts give equal bytes in every time zone. */
  bytes(): Uint8Array {
    return atOnce(this.packing());
  }

  /** As `bytes`, in steps. */
  *packing(): Steps<Uint8Array> {
    const isNew = !this.has(this.typesPart);
    const fresh = new Map<string, string>();
    const put = (part: string, elements: Elements, empty: () => string): void => {
      if (this.has(part)) this.append(part, elements);
      else fresh.set(part, empty());
    };
    put(
      this.typesPart,
      (prefix) => this.overrides(prefix),
      () => this.newTypes(),
    );
    for (const [owner, added] of this.addedRelationships) {
      const elements = relationshipElements(owner, added);
      put(this.spelled(relationshipsPart(owner)), elements, () =>
        xmlPart(element('Relationships', { xmlns: PACKAGE_RELATIONSHIPS }, elements(''))),
      );
    }
    this.addedTypes.clear();
    this.addedRelationships.clear();
    // In a new file what leads to the others comes first.
    const ordered = isNew ? [...fresh, ...this.parts] : [...this.parts, ...fresh];
    const files = new Map<string, PackedPart>();
    const whole = ordered.reduce(
      (sum, [, part]) => sum + (typeof part === 'string' ? part.length : 0),
      1,
    );
    let done = 0;
    for (const [part, content] of ordered) {
      if (typeof content === 'string') {
        const share = (letters: number): number => Math.min(1, letters / whole);
        const file = yield* partly(packedText(content), share(done), share(done + content.length));
        done += content.length;
        files.set(part, file);
        yield share(done);
      } else files.set(part, content);
    }
    return writeZip(files);
  }

  /** A part's name as the file writes it. */
  private spelled(part: string): string {
    if (this.parts.has(part)) return part;
    const known = (name: string): string | undefined => this.spellings.get(name.toLowerCase());
    let readable = part;
    try {
      readable = decodeURIComponent(part);
    } catch {
      // A percent sign of the name itself.
    }
    return known(part) ?? known(readable) ?? part;
  }

  private get typesPart(): string {
    return this.spelled(TYPES_PART);
  }

  private storedRelationships(owner: string): readonly XmlElement[] {
    const part = this.spelled(relationshipsPart(owner));
    return this.has(part) ? childrenNamed(this.root(part), 'Relationship') : [];
  }

  private overrides(prefix: string): string[] {
    return [...this.addedTypes].map(([part, ContentType]) =>
      element(`${prefix}Override`, { PartName: `/${part}`, ContentType }),
    );
  }

  private newTypes(): string {
    const byEnding = (Extension: string, ContentType: string): string =>
      element('Default', { Extension, ContentType });
    return xmlPart(
      element('Types', { xmlns: CONTENT_TYPES }, [
        byEnding('rels', 'application/vnd.openxmlformats-package.relationships+xml'),
        byEnding('xml', 'application/xml'),
        byEnding('vml', 'application/vnd.openxmlformats-officedocument.vmlDrawing'),
        ...this.overrides(''),
      ]),
    );
  }

  /** Puts elements in front of the closing tag of a part's root. */
  private append(part: string, elements: Elements): void {
    const xml = this.text(part);
    const root = this.root(part);
    const text = elements(root.prefix).join('');
    if (text === '') return;
    if (root.selfClosing) {
      const open = xml.slice(root.start, root.openEnd).replace(/\s*\/>$/, '>');
      const whole = `${open}${text}</${root.prefix}${root.name}>`;
      this.edit(part, [{ start: root.start, end: root.end, text: whole }]);
      return;
    }
    const at = xml.lastIndexOf('</', root.end - 1);
    this.edit(part, [{ start: at, end: at, text }]);
  }
}

/** Elements whose names begin with the prefix that a part uses. */
type Elements = (prefix: string) => readonly string[];

const relationshipElements =
  (owner: string, added: readonly Relationship[]): Elements =>
  (prefix) =>
    added.map(({ id, type, target, external }) =>
      element(`${prefix}Relationship`, {
        Id: id,
        Type: type,
        Target: external ? target : relativeTarget(owner, target),
        ...(external && { TargetMode: 'External' }),
      }),
    );
