/** Attributes of an element; undefined ones are left out. */
export type Attributes = Readonly<Record<string, string | number | undefined>>;

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  '\n': '&#10;',
  '\r': '&#13;',
  '\t': '&#9;',
};

export const escapeText = (text: string): string =>
  text.replace(/[&<>]/g, (character) => entities[character] ?? character);

export const escapeAttribute = (text: string): string =>
  text.replace(/[&<>"\n\r\t]/g, (character) => entities[character] ?? character);

const LONE_SURROGATE = /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g;
// Every control character but tab and line feed, and what XML has no place for.
const UNWRITABLE = /[^\P{Cc}\t\n]|[\uFFFE\uFFFF]/gu;
const LOOKS_ESCAPED = /_(?=x[0-9A-Fa-f]{4}_)/g;

const hexadecimal = (character: string): string =>
  `_x${character.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}_`;

/**
 * Text of a cell, note or table head: characters that XML cannot hold get the file format's own spelling,
 * and text that looks like such a spelling is kept apart from it.
 */
export const cellText = (text: string): string =>
  text
    .replace(LONE_SURROGATE, '\uFFFD')
    .replace(LOOKS_ESCAPED, '_x005F_')
    .replace(UNWRITABLE, hexadecimal);

/** One element; without content it closes itself. `content` is XML already. */
export function element(
  name: string,
  attributes: Attributes = {},
  content: string | readonly string[] = '',
): string {
  let open = `<${name}`;
  for (const key in attributes) {
    const value = attributes[key];
    if (value !== undefined) open += ` ${key}="${escapeAttribute(String(value))}"`;
  }
  const inner = typeof content === 'string' ? content : content.join('');
  return inner === '' ? `${open}/>` : `${open}>${inner}</${name}>`;
}

export const textElement = (name: string, text: string, attributes: Attributes = {}): string =>
  element(name, attributes, escapeText(text));

/** `<t>` with its spaces kept. */
export function runText(text: string): string {
  const written = cellText(text);
  const spaces = /^\s|\s$|[\n\t]| {2}/.test(written) ? { 'xml:space': 'preserve' } : {};
  return textElement('t', written, spaces);
}

export const xmlPart = (root: string): string =>
  `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n${root}`;
