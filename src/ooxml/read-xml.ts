import { SaxesParser } from 'saxes';
import { atOnce, type Steps } from '../plan/in-steps';
import { UnreadableFile } from './unreadable-file';

/** An element with its place in the text, so that changes can be spliced in and all else left as it is. */
export interface XmlElement {
  /** Without a namespace prefix. */
  readonly name: string;
  readonly prefix: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly start: number;
  /** End of the opening tag. */
  readonly openEnd: number;
  /** End of the whole element. */
  end: number;
  readonly selfClosing: boolean;
  readonly children: XmlElement[];
  /** Text directly inside, entities resolved. */
  text: string;
}

/** Most elements of a sheet hold no other: they share one empty list. */
const NONE: XmlElement[] = [];
Object.freeze(NONE);

interface GrowingElement extends XmlElement {
  children: XmlElement[];
}

/** Asked of each element that was read to its end: true where its parent need not hold it. */
export type OnElement = (element: XmlElement, parent: XmlElement | undefined) => boolean;

/** Reads XML piece by piece into elements with their places. */
export class XmlReading {
  private readonly parser = new SaxesParser({ position: true });
  private readonly open: GrowingElement[] = [];
  private root: XmlElement | undefined;
  /** What a look at an element threw. */
  private thrown: unknown;

  constructor(
    private readonly partName: string,
    private readonly isLetGo: OnElement = () => false,
    /** The whole text, where places in it are asked for. */
    xml?: string,
  ) {
    const { parser, open } = this;
    let start = 0;
    parser.on('error', (problem) => {
      throw problem;
    });
    parser.on('doctype', () => {
      throw new Error('entities of its own');
    });
    // The parser stands behind the sign that ends the name, which may be an end of line of two.
    parser.on('opentagstart', ({ name }) => {
      start = parser.position - name.length - 2;
      if (xml?.charAt(start) !== '<') start -= 1;
    });
    parser.on('opentag', (tag) => {
      const colon = tag.name.indexOf(':');
      const element: GrowingElement = {
        name: tag.name.slice(colon + 1),
        prefix: tag.name.slice(0, colon + 1),
        // The parser's own list of attributes takes several times the room.
        attributes: { ...(tag.attributes as Record<string, string>) },
        start,
        openEnd: parser.position,
        end: parser.position,
        selfClosing: tag.isSelfClosing,
        children: NONE,
        text: '',
      };
      const parent = open.at(-1);
      if (parent?.children === NONE) parent.children = [element];
      else parent?.children.push(element);
      if (open.length > 200) throw new Error('nested too deep');
      open.push(element);
      this.root ??= element;
    });
    const addText = (more: string): void => {
      const element = open.at(-1);
      if (element) element.text += more;
    };
    parser.on('text', addText);
    parser.on('cdata', addText);
    parser.on('closetag', () => {
      const element = open.pop();
      if (!element) return;
      element.end = parser.position;
      const parent = open.at(-1);
      if (this.asked(element, parent)) parent?.children.pop();
    });
  }

  private asked(element: XmlElement, parent: XmlElement | undefined): boolean {
    try {
      return this.isLetGo(element, parent);
    } catch (problem) {
      this.thrown = problem;
      throw problem;
    }
  }

  /** Throws UnreadableFile where the text is not well formed, and what `isLetGo` throws. */
  write(piece: string): void {
    this.soundly(() => this.parser.write(piece));
  }

  /** The root element, once all is written. */
  close(): XmlElement {
    this.soundly(() => this.parser.close());
    if (!this.root) {
      throw new UnreadableFile(`The file is damaged: its part ${this.partName} is empty.`);
    }
    return this.root;
  }

  private soundly(read: () => void): void {
    try {
      read();
    } catch (problem) {
      if (problem === this.thrown) throw problem;
      throw new UnreadableFile(`The file is damaged: its part ${this.partName} cannot be read.`);
    }
  }
}

/** Reads well-formed XML into elements with their places; a sentence where it is not well formed. */
export function readXml(xml: string, partName: string): XmlElement {
  const reading = new XmlReading(partName, undefined, xml);
  // The byte-order mark counts in positions but is no part of the document.
  reading.write(xml);
  return reading.close();
}

export const childrenNamed = (element: XmlElement | undefined, name: string): XmlElement[] =>
  element?.children.filter((child) => child.name === name) ?? [];
export const childNamed = (element: XmlElement | undefined, name: string): XmlElement | undefined =>
  element?.children.find((child) => child.name === name);

/** Every element of a name at any depth, in order. */
export function descendants(element: XmlElement, name: string): XmlElement[] {
  const found: XmlElement[] = [];
  const visit = (element: XmlElement): void => {
    if (element.name === name) found.push(element);
    element.children.forEach(visit);
  };
  element.children.forEach(visit);
  return found;
}

export interface Splice {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** Puts the changes in; what lies between them stays to the letter. */
export const spliced = (xml: string, changes: readonly Splice[]): string =>
  atOnce(splicing(xml, changes));

/** So many changes are put in in one step. */
const CHANGES = 2_000;

/** As `spliced`, in steps. */
export function* splicing(xml: string, changes: readonly Splice[]): Steps<string> {
  const ordered = [...changes].sort((a, b) => a.start - b.start || a.end - b.end);
  // Texts that are put together one by one are a chain, which is made one text when somebody reads it.
  const joined: string[] = [];
  let pieces: string[] = [];
  let at = 0;
  for (const [n, change] of ordered.entries()) {
    pieces.push(xml.slice(at, change.start), change.text);
    at = change.end;
    if (n % CHANGES !== CHANGES - 1) continue;
    joined.push(pieces.join(''));
    pieces = [];
    yield n / ordered.length;
  }
  return joined.join('') + pieces.join('') + xml.slice(at);
}
