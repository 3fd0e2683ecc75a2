/**
 * `read` in the publication or a reprint; `derived` from read figures; `common practice`, usage of the
 * trade; `memory`, recalled from a publication and not seen. The last two are shown to growers as
 * usual practice, never as published figures.
 */
export type Evidence = 'read' | 'memory' | 'common practice' | 'derived';

/** Where a figure of a table comes from, and how firmly it stands. */
export interface FactSource {
  readonly text: string;
  readonly evidence: Evidence;
}

/** What a grower reads beside a figure: its publication, or that it is only usual practice. */
export function sourceWords(source: FactSource): string {
  if (source.evidence === 'read') return source.text;
  if (source.evidence === 'derived') return `derived: ${source.text}`;
  return 'usual practice, check with your supplier';
}
