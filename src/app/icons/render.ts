/** Renders the drawings to PNG files beside them: npx tsx src/app/icons/render.ts */
import { readFile, writeFile } from 'node:fs/promises';
import { chromium } from 'playwright-core';
import { drawingFor, iconFile, iconSizes } from './sizes';

const browser = await chromium.launch({
  executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu'],
});
try {
  const page = await browser.newPage();
  for (const size of iconSizes) {
    const svg = await readFile(new URL(drawingFor(size), import.meta.url), 'utf8');
    await page.setViewportSize({ width: size, height: size });
    await page.setContent(
      `<style>body{margin:0}svg{display:block;width:${size}px;height:${size}px}</style>${svg}`,
    );
    const png = await page.screenshot({ omitBackground: true });
    await writeFile(new URL(iconFile(size), import.meta.url), png);
  }
} finally {
  await browser.close();
}
