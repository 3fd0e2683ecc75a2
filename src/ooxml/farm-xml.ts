/**
 * The farm file as it is kept inside a workbook: a custom XML part of this namespace, whose only
 * element holds the farm's JSON as text.
 */
export const FARM_NAMESPACE = 'urn:gillbed:farm:1';

const escapes: readonly (readonly [plain: string, escaped: string])[] = [
  ['&', '&amp;'],
  ['<', '&lt;'],
  ['>', '&gt;'],
];

// Control characters cannot stand in XML; JSON has its own spelling for them.
const CONTROL = /[^\P{Cc}\t\n\r]/gu;
const spelled = (character: string): string =>
  `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`;

export const farmXml = (json: string): string =>
  `<farm xmlns="${FARM_NAMESPACE}">${escapes.reduce(
    (text, [plain, escaped]) => text.replaceAll(plain, escaped),
    json.replace(CONTROL, spelled),
  )}</farm>`;

/** The farm's JSON out of such a part; undefined where the XML is something else. */
export function farmFromXml(xml: string): string | undefined {
  const text = /<(?:\w+:)?farm\b[^>]*>([\s\S]*)<\/(?:\w+:)?farm>/.exec(xml)?.[1];
  if (text === undefined || !xml.includes(`"${FARM_NAMESPACE}"`)) return undefined;
  // Other programs may have put the text into a CDATA block or escaped quotes as well.
  const cdata = /^\s*<!\[CDATA\[([\s\S]*)\]\]>\s*$/.exec(text)?.[1];
  if (cdata !== undefined) return cdata;
  return [...escapes, ['"', '&quot;'] as const, ["'", '&apos;'] as const]
    .reverse()
    .reduce((left, [plain, escaped]) => left.replaceAll(escaped, plain), text);
}
