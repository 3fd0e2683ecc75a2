/** Where the pane is served during development; every address of manifest.xml begins with it. */
export const DEVELOPMENT_BASE = 'https://localhost:3000/';

/** The manifest for a copy that is hosted under `base`, such as "https://example.org/gillbed/". */
export function hostedManifest(manifest: string, base: string): string {
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
  const folder = address.href.endsWith('/') ? address.href : `${address.href}/`;
  return manifest
    .replace(
      /<!-- For development .*? -->\n/s,
      `<!-- For the copy of Gillbed under ${folder.replaceAll('--', '%2D%2D')} -->\n`,
    )
    .replaceAll(DEVELOPMENT_BASE, folder.replaceAll('&', '&amp;'))
    .replaceAll(`<AppDomain>${new URL(DEVELOPMENT_BASE).origin}<`, `<AppDomain>${address.origin}<`);
}
