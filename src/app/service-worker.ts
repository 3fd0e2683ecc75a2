/**
 * Keeps the workbench's own files in the browser, so that it opens without a network after the first visit.
 * A new version takes over once every page of the old one is closed: a page never gets files of two builds.
 */

interface LastingEvent extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface AskedEvent extends Event {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
interface WorkerScope {
  readonly registration: { readonly scope: string };
  readonly clients: { claim(): Promise<void> };
  addEventListener(type: 'install' | 'activate', listener: (event: LastingEvent) => void): void;
  addEventListener(type: 'fetch', listener: (event: AskedEvent) => void): void;
}
const worker = self as unknown as WorkerScope;

/** Set by the build: a mark of this build, and its files. */
declare const BUILD: { readonly mark: string; readonly files: readonly string[] };

const PREFIX = 'workbench-';
const name = `${PREFIX}${BUILD.mark}`;
const start = worker.registration.scope;
const kept = new Set([start, ...BUILD.files.map((file) => new URL(file, start).href)]);

worker.addEventListener('install', (event) =>
  event.waitUntil(
    caches
      .open(name)
      .then((cache) =>
        cache.addAll([...kept].map((address) => new Request(address, { cache: 'reload' }))),
      ),
  ),
);

worker.addEventListener('activate', (event) =>
  event.waitUntil(
    caches
      .keys()
      .then((names) => names.filter((cached) => cached.startsWith(PREFIX) && cached !== name))
      .then((old) => Promise.all(old.map((cached) => caches.delete(cached))))
      .then(() => worker.clients.claim()),
  ),
);

worker.addEventListener('fetch', (event) => {
  const { method, url } = event.request;
  const [address = ''] = url.split(/[?#]/);
  if (method !== 'GET' || !kept.has(address)) return;
  event.respondWith(
    caches
      .open(name)
      .then((cache) => cache.match(address))
      .then((found) => found ?? fetch(event.request)),
  );
});

export {};
