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
const STEP_MS = 60_000;

export interface WatchedPage {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Errors and warnings of the console, and what was thrown in the page. */
  readonly complaints: string[];
  /** Requests that went anywhere but to the page's own origin. */
  readonly foreignRequests: string[];
}

export interface PageOptions {
  readonly width?: number;
  readonly height?: number;
  /** A context whose storage is to be used again. */
  readonly context?: BrowserContext;
}

/** Opens an address in a page of its own and writes down everything that should not happen. */
export async function openPage(
  browser: Browser,
  url: string,
  { width = 1280, height = 800, context: given }: PageOptions = {},
): Promise<WatchedPage> {
  const context =
    given ?? (await browser.newContext({ viewport: { width, height }, acceptDownloads: true }));
  const page = await context.newPage();
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
  await page.goto(url);
  return { page, context, complaints, foreignRequests };
}
