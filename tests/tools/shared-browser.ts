/** One browser and one server for all files of a process: what a page has loaded once is not compiled again. */
import type { Browser } from 'playwright-core';
import { closeVisits, openBrowser } from './browser';
import { builtFolder } from './built-folder';
import { serveFolder, type StaticServer } from './static-server';

let browser: Promise<Browser> | undefined;
let server: Promise<StaticServer> | undefined;

/** Closed with the process; `leaveBrowser` closes what a file has left open. */
export const sharedBrowser = (): Promise<Browser> => (browser ??= openBrowser());

/** The built pages. */
export const sharedServer = (): Promise<StaticServer> =>
  (server ??= builtFolder().then((folder) => serveFolder(folder)));

export async function leaveBrowser(): Promise<void> {
  if (browser) await closeVisits(await browser);
}
