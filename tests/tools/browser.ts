import { existsSync } from 'node:fs';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';

const places = [
  process.env['CHROMIUM'],
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

/** A browser without a window that asks the network for nothing of its own. */
export async function openBrowser(): Promise<Browser> {
  const executablePath = places.find((place) => place !== undefined && existsSync(place));
  if (executablePath === undefined) {
    throw new Error('These tests need Chromium: install it, or name its program in CHROMIUM.');
  }
  return chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--no-first-run',
    ],
  });
}

/** No step of a page takes longer on any machine that is fit for tests, three files beside each other. */
const STEP_MS = 120_000;

export interface WatchedPage {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Errors and warnings of the console, and what was thrown in the page. */
  readonly complaints: string[];
  /** Requests that went anywhere but to the page's own origin. */
  readonly foreignRequests: string[];
  /** Leaves the page to the next visit, which finds nothing of this one. */
  close(): Promise<void>;
}

export interface PageOptions {
  readonly width?: number;
  readonly height?: number;
  readonly colorScheme?: 'light' | 'dark';
  /** A context with settings of its own. */
  readonly context?: BrowserContext;
  /** Done before the page goes to its address. */
  readonly before?: (context: BrowserContext) => Promise<unknown>;
}

/** Pages that were left: what was loaded in one before is not compiled again, which is most of a visit's work. */
const left = new WeakMap<Browser, Page[]>();

async function takePage(
  browser: Browser,
  { width = 1280, height = 800, colorScheme = 'light', context }: PageOptions,
): Promise<Page> {
  if (context) return context.newPage();
  const page =
    left.get(browser)?.pop() ??
    (await (await browser.newContext({ acceptDownloads: true })).newPage());
  await page.setViewportSize({ width, height });
  await page.emulateMedia({ colorScheme });
  return page;
}

/** What a visit leaves behind is taken away: what it listens to, answers itself, and keeps for the next one. */
async function leavePage(browser: Browser, page: Page, origin: string): Promise<void> {
  const context = page.context();
  for (const event of ['console', 'pageerror', 'request'] as const) page.removeAllListeners(event);
  await context.unrouteAll();
  await context.setOffline(false);
  await page.goto('about:blank');
  const session = await context.newCDPSession(page);
  const storageTypes = 'cookies,indexeddb,local_storage,cache_storage,service_workers';
  await session.send('Storage.clearDataForOrigin', { origin, storageTypes });
  await session.detach();
  left.set(browser, [...(left.get(browser) ?? []), page]);
}

/** Closes every context in which a page was not left to the next visit. */
export async function closeVisits(browser: Browser): Promise<void> {
  const kept = new Set((left.get(browser) ?? []).map((page) => page.context()));
  for (const context of browser.contexts()) if (!kept.has(context)) await context.close();
}

/** Opens an address in a page and writes down everything that should not happen. */
export async function openPage(
  browser: Browser,
  url: string,
  options: PageOptions = {},
): Promise<WatchedPage> {
  const page = await takePage(browser, options);
  const context = page.context();
  page.setDefaultTimeout(STEP_MS);
  const complaints: string[] = [];
  const foreignRequests: string[] = [];
  const { origin } = new URL(url);
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('request', (request) => {
    const address = request.url();
    const local = /^(?:data|blob|about):/.test(address) || new URL(address).origin === origin;
    if (!local) foreignRequests.push(address);
  });
  await options.before?.(context);
  await page.goto(url);
  const close = (): Promise<void> =>
    options.context ? options.context.close() : leavePage(browser, page, origin);
  return { page, context, complaints, foreignRequests, close };
}
