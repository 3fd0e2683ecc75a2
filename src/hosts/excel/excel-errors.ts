/** What Excel's error codes mean to the one who sits before it. */
const sentences: Readonly<Record<string, string>> = {
  InvalidOperationInCellEditMode:
    'A cell is being edited. Finish it with Enter or Esc, then try again.',
  AccessDenied: 'Excel does not allow this here: the sheet or the workbook is protected.',
  ItemNotFound: 'That sheet or cell is no longer there.',
  RequestPayloadSizeLimitExceeded:
    'The plan is larger than Excel takes at one time. Fewer batches or a shorter season would fit.',
  ResponsePayloadSizeLimitExceeded: 'This workbook is larger than Excel hands over at one time.',
  InvalidSelection: 'Select one block of cells, then try again.',
  ApiNotFound: 'This Excel is too old for that. A newer version, or Excel on the web, can do it.',
};

/** A sentence for anything that Excel threw. */
export function excelSentence(thrown: unknown): string {
  const code = (thrown as { code?: unknown } | null)?.code;
  if (typeof code === 'string') {
    const known = sentences[code];
    if (known) return known;
    const message = thrown instanceof Error ? thrown.message : '';
    return `Excel refused this (${code})${message ? `: ${message}` : '.'}`;
  }
  // What Office's older calls hand over is no Error, but has a message.
  const message = (thrown as { message?: unknown } | null)?.message;
  return typeof message === 'string' ? message : String(thrown);
}
