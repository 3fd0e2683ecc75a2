import { SaxesParser } from 'saxes';
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

/** Reads well-formed XML into elements with their places; a sentence where it is not well formed. */
export function readXml(xml: string, partName: string): XmlElement {
  const parser = new SaxesParser({ position: true });
  const open: GrowingElement[] = [];
  let root: XmlElement | undefined;
  parser.on('error', (problem) => {
    throw problem;
  });
  parser.on('opentag', (tag) => {
    const colon = tag.name.indexOf(':');
    const element: GrowingElement = {
      name: tag.name.slice(colon + 1),
      prefix: tag.name.slice(0, colon + 1),
      // The parser's own list of attributes takes several times the room.
      attributes: { ...(tag.attributes as Record<string, string>) },
      start: xml.lastIndexOf('<', parser.position - 1),
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
    root ??= element;
  });
  const addText = (more: string): void => {
    const element = open.at(-1);
    if (element) element.text += more;
  };
  parser.on('text', addText);
  parser.on('cdata', addText);
  parser.on('closetag', () => {
    const element = open.pop();
    if (element) element.end = parser.position;
  });
  try {
    // The byte-order mark counts in positions but is no part of the document.
    parser.write(xml).close();
  } catch {
    throw new UnreadableFile(`The file is damaged: its part ${partName} cannot be read.`);
  }
  if (!root) throw new UnreadableFile(`The file is damaged: its part ${partName} is empty.`);
  return root;
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
export function spliced(xml: string, changes: readonly Splice[]): string {
  const ordered = [...changes].sort((a, b) => a.start - b.start || a.end - b.end);
  let out = '';
  let at = 0;
  for (const change of ordered) {
    out += xml.slice(at, change.start) + change.text;
    at = change.end;
  }
  return out + xml.slice(at);
}
