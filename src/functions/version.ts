/** As in package.json and, with a fourth part, in manifest.xml; a test holds them together. */
export const VERSION = '0.1.0';
