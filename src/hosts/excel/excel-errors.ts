/** What Excel's error codes mean to the one who sits before it. */
const sentences: Readonly<Record<string, string>> = {
  InvalidOperationInCellEditMode:
    'A cell is being edited. Finish it with Enter or Esc, then try again.',
  AccessDenied: 'Excel does not allow this here: the sheet or the workbook is protected.',
  ItemNotFound: 'That sheet or cell is no longer there.',
  RequestPayloadSizeLimitExceeded: 'That is more than Excel takes at one time.',
  ResponsePayloadSizeLimitExceeded: 'This workbook is larger than Excel hands over at one time.',
  InvalidSelection: 'Select one block of cells, then try again.',
};

/** Names what is missing, which Office's library tells as "Range.getColumn" or not at all. */
function tooOld(thrown: unknown): string {
  const missing = (thrown as { debugInfo?: { errorLocation?: unknown } }).debugInfo?.errorLocation;
  const without = typeof missing === 'string' && missing !== '' ? `: it lacks ${missing}` : '';
  return `This Excel is too old for that${without}. A newer version, or Excel on the web, can do it.`;
}

/** A sentence for anything that Excel threw. */
export function excelSentence(thrown: unknown): string {
  const code = (thrown as { code?: unknown } | null)?.code;
  if (typeof code === 'string') {
    if (code === 'ApiNotFound') return tooOld(thrown);
    const known = sentences[code];
    if (known) return known;
    const message = thrown instanceof Error ? thrown.message : '';
    return `Excel refused this (${code})${message ? `: ${message}` : '.'}`;
  }
  // What Office's older calls hand over is no Error, but has a message.
  const message = (thrown as { message?: unknown } | null)?.message;
  return typeof message === 'string' ? message : String(thrown);
}
