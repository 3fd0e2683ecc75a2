import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openPage } from '../tools/browser';
import { leaveBrowser, sharedBrowser, sharedServer } from '../tools/shared-browser';
import type { StaticServer } from '../tools/static-server';

let browser: Browser;
let server: StaticServer;
beforeAll(async () => {
  server = await sharedServer();
  browser = await sharedBrowser();
});
afterAll(async () => {
  await leaveBrowser();
});

it('restores the search when the reader comes back from a function', async () => {
  const { page, complaints, close } = await openPage(
    browser,
    `${server.origin}/reference/index.html`,
  );
  const found = page.locator('#found li');
  await page.locator('#search').fill('dew point');
  await found.first().getByRole('link').click();
  await page.getByRole('heading', { name: 'GILL.AIR.DEWPOINT' }).waitFor();
  await page.goBack();
  await found.first().waitFor();
  expect(await page.locator('#search').inputValue()).toBe('dew point');
  expect(page.url()).toContain('#find=dew%20point');

  await page.locator('#search').fill('');
  expect(new URL(page.url()).hash).toBe('');
  expect(await found.count()).toBe(0);
  expect(complaints).toEqual([]);
  await close();
});

it('searches for the words of its address', async () => {
  const { page, close } = await openPage(
    browser,
    `${server.origin}/reference/index.html#find=hoop%20house`,
  );
  await page.locator('#found [data-id="HEAT.COVER"]').waitFor();
  expect(await page.locator('#search').inputValue()).toBe('hoop house');
  await page.goto(`${server.origin}/reference/index.html#find=%E0%A4%A`);
  expect(await page.locator('#search').inputValue()).toBe('');
  await close();
});
