import type { Paper } from '../../plan/workbook-model';

/** Countries whose offices have Letter paper (ISO 216 has not taken hold there). */
const LETTER = new Set([
  'US',
  'CA',
  'MX',
  'PH',
  'CL',
  'CO',
  'VE',
  'CR',
  'GT',
  'PA',
  'SV',
  'NI',
  'PR',
  'DO',
]);

/** Letter where the browser's own country has it; otherwise by the units of the plan. */
export function paperOf(languages: readonly string[], isUS: boolean): Paper {
  const country = languages.map((tag) => /-([A-Z]{2})\b/.exec(tag)?.[1]).find(Boolean);
  if (isUS) return 'Letter';
  return country !== undefined && LETTER.has(country) ? 'Letter' : 'A4';
}
