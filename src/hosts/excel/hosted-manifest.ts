/** Where the pane is served during development; every address of manifest.xml begins with it. */
export const DEVELOPMENT_BASE = 'https://localhost:3000/';

/**
 * The folder under which a copy is hosted, with a slash at its end, such as "https://example.org/gillbed/".
 * Throws, with a sentence, where `base` is no such address.
 */
export function hostedFolder(base: string): string {
  let address: URL;
  try {
    address = new URL(base);
  } catch {
    throw new Error(
      `The base must be a whole address such as https://example.org/gillbed/; got "${base}"`,
    );
  }
  if (address.protocol !== 'https:' || address.search || address.hash) {
    throw new Error(`The base must begin with https:// and end with a folder; got "${base}"`);
  }
  return address.href.endsWith('/') ? address.href : `${address.href}/`;
}

/** The manifest for a copy that is hosted under a folder. */
export function hostedManifest(manifest: string, folder: string): string {
  return manifest
    .replace(
      /<!-- For development .*? -->\n/s,
      `<!-- For the copy of Gillbed under ${folder.replaceAll('--', '%2D%2D')} -->\n`,
    )
    .replaceAll(DEVELOPMENT_BASE, folder.replaceAll('&', '&amp;'))
    .replaceAll(
      `<AppDomain>${new URL(DEVELOPMENT_BASE).origin}<`,
      `<AppDomain>${new URL(folder).origin}<`,
    );
}
