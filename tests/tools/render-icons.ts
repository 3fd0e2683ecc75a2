/** Renders the drawings to PNG files: npx tsx tests/tools/render-icons.ts */
import { readFile, writeFile } from 'node:fs/promises';
import { chromium } from 'playwright-core';
import { drawingFor, iconFile, iconSizes } from '../../src/app/icons/sizes';

/** Where the drawings lie, and their PNG files beside them. */
const folder = new URL('../../src/app/icons/', import.meta.url);

const browser = await chromium.launch({
  executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu'],
});
try {
  const page = await browser.newPage();
  for (const size of iconSizes) {
    const svg = await readFile(new URL(drawingFor(size), folder), 'utf8');
    await page.setViewportSize({ width: size, height: size });
    await page.setContent(
      `<style>body{margin:0}svg{display:block;width:${size}px;height:${size}px}</style>${svg}`,
    );
    const png = await page.screenshot({ omitBackground: true });
    await writeFile(new URL(iconFile(size), folder), png);
  }
} finally {
  await browser.close();
}
