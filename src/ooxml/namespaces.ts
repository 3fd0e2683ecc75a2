/** Names by which the file format knows kinds of parts and of relationships. */
export const SPREADSHEET = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
export const OFFICE_RELATIONSHIPS =
  'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
export const PACKAGE_RELATIONSHIPS = 'http://schemas.openxmlformats.org/package/2006/relationships';
export const CONTENT_TYPES = 'http://schemas.openxmlformats.org/package/2006/content-types';

/** A content type of a spreadsheet's own parts, such as "worksheet". */
export const spreadsheetType = (kind: string): string =>
  `application/vnd.openxmlformats-officedocument.spreadsheetml.${kind}+xml`;

/** A relationship's type by its short name, or in full. */
export const relationshipType = (kind: string): string =>
  kind.includes(':') ? kind : `${OFFICE_RELATIONSHIPS}/${kind}`;
