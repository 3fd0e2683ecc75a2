/**
 * Microsoft's own client library, loaded from the npm package as it is. It runs in this process as in a host
 * that talks to it over a native bridge: requests go out as text, answers, events and calls of functions
 * come in as text. Nothing of it is changed or copied.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { runInThisContext } from 'node:vm';
import { type Library, Wire } from './excel-wire';

/** The files of the package that the development pane serves, in readable form. */
export const libraryFiles = [
  'excel-web-16.00.debug.js',
  'excel-win32-16.01.debug.js',
  'excel-mac-16.00.debug.js',
] as const;
export type LibraryFile = (typeof libraryFiles)[number];

export const libraryFolder = join(
  dirname(createRequire(import.meta.url).resolve('@microsoft/office-js/package.json')),
  'dist',
);

/** By its own tag the loader finds out where the rest lies. */
const officeScript = { src: 'https://localhost:3000/office/office.js', getAttribute: () => null };

/** The little of a page that the library looks at while it loads. */
const pageParts = (): Readonly<Record<string, unknown>> => ({
  document: {
    getElementById: () => null,
    getElementsByTagName: (name: string) =>
      name === 'script' ? [officeScript] : [{ appendChild: () => undefined }],
    // Told once the page stands, it would look for a host of its own.
    addEventListener: () => undefined,
    createElement: () => ({ setAttribute: () => undefined, style: {} }),
    cookie: '',
    readyState: 'loading',
    URL: 'https://localhost:3000/pane.html',
  },
  location: new URL('https://localhost:3000/pane.html'),
  navigator: { userAgent: 'Excel' },
  history: {},
  // Later it would look for a host in the page around it.
  setTimeout: () => 0,
});

let loaded: Library | undefined;

/** Loads the library into this process, once. */
export function loadLibrary(file: LibraryFile = libraryFiles[0]): Library {
  if (loaded) return loaded;
  const wire = new Wire();
  const page = pageParts();
  const before = new Map(
    Object.keys(page).map((name) => [name, Object.getOwnPropertyDescriptor(globalThis, name)]),
  );
  for (const [name, value] of Object.entries(page)) {
    Object.defineProperty(globalThis, name, { value, configurable: true, writable: true });
  }
  Object.assign(globalThis, { window: globalThis });
  // It greets whoever reads the console.
  const { log } = console;
  console.log = () => undefined;
  try {
    for (const part of ['office.debug.js', file]) {
      runInThisContext(readFileSync(join(libraryFolder, part), 'utf8'), { filename: part });
    }
  } finally {
    console.log = log;
    for (const [name, descriptor] of before) {
      if (descriptor) Object.defineProperty(globalThis, name, descriptor);
      else Reflect.deleteProperty(globalThis, name);
    }
  }
  loaded = wire.library();
  return loaded;
}
