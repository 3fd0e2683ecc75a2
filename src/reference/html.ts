export const escapeHtml = (text: string): string =>
  text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');

/** Cautions in a box of their own; nothing for none. */
export const cautionsBox = (cautions: readonly string[]): string =>
  cautions.length === 0
    ? ''
    : `<div class="caution"><strong>Cautions.</strong><ul>${cautions
        .map((text) => `<li>${escapeHtml(text)}</li>`)
        .join('\n')}</ul></div>`;

interface PageOptions {
  /** Leads from the page to the folder of the written reference. */
  readonly root?: string;
  /** More style sheets beside the page. */
  readonly styles?: readonly string[];
}

/** A whole page in the look of the written reference. */
export const page = (
  title: string,
  body: string,
  { root = '', styles = [] }: PageOptions = {},
): string => `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'self' 'unsafe-inline'; script-src 'self'; img-src 'self'">
<title>${escapeHtml(title)}</title>
<link rel="icon" href="../icons/icon-32.png">
${[`${root}reference.css`, ...styles].map((href) => `<link rel="stylesheet" href="${href}">`).join('\n')}
</head>
<body>
${body}
</body>
</html>
`;
