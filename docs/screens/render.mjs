// Draws screens: node render.mjs SCREENS.json FOLDER [FOLDER OF README'S PICTURES]
import { readFile, writeFile } from 'node:fs/promises';
import { build } from 'esbuild';
import puppeteer from 'puppeteer-core';
import UPNG from 'upng-js';

const [file, folder, readme] = process.argv.slice(2);
const width = 390; // of a phone
const kept = { 'plan-show': 'plan', ride: 'ride', 'coach-digest': 'digest' }; // README's pictures

const { Screens: screens, Names: names, Zone: zone } = JSON.parse(await readFile(file, 'utf8'));
const bundle = await build({
  entryPoints: [`${import.meta.dirname}/page.js`], bundle: true, write: false, outdir: '/', format: 'iife', target: 'chrome120',
  loader: { '.woff2': 'dataurl', '.woff': 'empty' }, logLevel: 'error',
  plugins: [{ name: 'inside', setup: (b) => b.onLoad({ filter: /inside\.css$/ }, async (f) => ({ contents: await readFile(f.path, 'utf8'), loader: 'text' })) }],
});
const part = (ending) => bundle.outputFiles.find((f) => f.path.endsWith(ending)).text;

const browser = await puppeteer.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: ['--no-sandbox'] });
try {
  const page = await browser.newPage();
  page.on('pageerror', (fault) => { throw fault; });
  await page.setViewport({ width, height: 100, deviceScaleFactor: 2 });
  await page.setContent('<!doctype html><html lang="en"><body></body></html>');
  await page.addStyleTag({ content: part('.css') });
  await page.addScriptTag({ content: part('.js') });
  for (const [i, screen] of screens.entries()) {
    const name = `${folder}/${String(i + 1).padStart(2, '0')}-${screen.Name}`;
    for (const theme of ['dark', 'light']) {
      const words = await page.evaluate((...all) => window.show(...all), screen, names, zone, theme);
      const broad = await page.evaluate(() => document.documentElement.scrollWidth);
      if (broad > width) throw new Error(`${screen.Name} is ${broad} wide`);
      const image = await page.screenshot({ fullPage: true });
      await writeFile(`${name}-${theme}.png`, image);
      if (theme === 'light') continue;
      await writeFile(`${name}.txt`, words);
      if (readme && kept[screen.Name]) await writeFile(`${readme}/${kept[screen.Name]}.png`, small(image));
    }
  }
  console.log(`${screens.length} screens are in ${folder}`);
} finally {
  await browser.close();
}

/** small is the picture with fewer colours. */
function small(image) {
  const whole = UPNG.decode(image);
  return Buffer.from(UPNG.encode(UPNG.toRGBA8(whole), whole.width, whole.height, 128));
}
