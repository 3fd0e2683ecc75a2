import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.wasm': 'application/wasm',
  '.xml': 'application/xml',
  '.xlsx': 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
};

export interface StaticServer {
  /** "http://localhost:PORT", without a slash at its end. */
  readonly origin: string;
  close(): Promise<void>;
}

export interface ServeOptions {
  /** The folder's place in the site, with a slash at both ends. Default its root. */
  readonly under?: string;
  /** What the host adds to a file's answer, by its path from the site's root. Default nothing. */
  readonly headers?: (path: string) => ReadonlyMap<string, string>;
}

/** Serves a folder as any plain web space would, on a free port of this machine only. */
export async function serveFolder(
  folder: string,
  { under = '/', headers = () => new Map() }: ServeOptions = {},
): Promise<StaticServer> {
  const answer = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const path = normalize(decodeURIComponent(new URL(request.url ?? '/', 'http://x').pathname));
    const file = join(folder, path.slice(under.length - 1), path.endsWith('/') ? 'index.html' : '');
    const found =
      path.startsWith(under) &&
      file.startsWith(folder) &&
      (await stat(file).catch(() => undefined))?.isFile();
    if (!found) {
      response.writeHead(404).end();
      return;
    }
    response.writeHead(200, {
      ...Object.fromEntries(headers(path)),
      'content-type': types[extname(file)] ?? 'application/octet-stream',
    });
    createReadStream(file).pipe(response);
  };
  const server = createServer((request, response) => {
    answer(request, response).catch((fault: unknown) => response.destroy(fault as Error));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return {
    origin: `http://localhost:${port}`,
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
}
