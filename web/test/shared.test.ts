// The web page of a share, as a friend opens it: from the disk, with no network, on a desk and on a
// phone, light and dark, by keyboard alone. Only with a real program, which makes the share.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { after, before, test } from 'node:test';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { open_browser } from './chromium';

const program = process.env.QUOIN_PROGRAM;
const skip = program ? false : 'it takes the real program';
const demo = fileURLToPath(new URL('../../../examples/tidewrack', import.meta.url));
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let folder = '';
let browser: Browser;

before(async () => {
  if (!program) return;
  folder = mkdtempSync(`${tmpdir()}/quoin-shared-`);
  const env = { ...process.env, XDG_CACHE_HOME: `${folder}/cache` };
  execFileSync(program, ['share', demo, '--out', `${folder}/out`, '--quiet'], {
    env,
    stdio: 'pipe',
  });
  browser = await open_browser('no models');
});

after(async () => {
  await browser?.close();
  if (folder) rmSync(folder, { recursive: true, force: true });
});

async function opened(width: number, height: number, theme: 'light' | 'dark'): Promise<Page> {
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme: theme,
    reducedMotion: 'reduce',
    offline: true,
  });
  const page = await context.newPage();
  const asked: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  page.on('pageerror', (problem) => assert.fail(String(problem)));
  await page.goto(pathToFileURL(`${folder}/out/index.html`).href);
  for (const address of asked) assert.match(address, /^file:/);
  return page;
}

async function picture_of(page: Page, name: string) {
  const looks = process.env.QUOIN_LOOKS;
  if (looks) await page.screenshot({ path: `${looks}/shared-${name}.png`, fullPage: true });
}

const SIZES = [
  ['desk', 1280, 720],
  ['phone', 390, 844],
] as const;

for (const [name, width, height] of SIZES) {
  for (const theme of ['light', 'dark'] as const) {
    test(`a friend's page is sound on a ${name}, ${theme}`, { skip }, async () => {
      const page = await opened(width, height, theme);
      await page.evaluate(() => {
        for (const image of document.images) image.loading = 'eager';
      });
      await page.waitForFunction(() => [...document.images].every((one) => one.naturalWidth > 0));
      await page.evaluate(axe);
      const faults = await page.evaluate(async () => {
        const run = (window as unknown as { axe: { run: () => Promise<unknown> } }).axe.run;
        const { violations } = (await run()) as { violations: { id: string }[] };
        return violations.map((one) => one.id);
      });
      assert.deepEqual(faults, []);
      const beyond = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(beyond <= 0, `${beyond} px stand out on the right`);
      await picture_of(page, `${name}-${theme}`);
      await page.context().close();
    });
  }
}

test("each file of a friend's page is there, as large as it says", { skip }, async () => {
  const page = await opened(1280, 720, 'light');
  const links = await page
    .locator('.files a')
    .evaluateAll((all) =>
      all.map((one) => ({ to: one.getAttribute('href') ?? '', text: one.textContent ?? '' })),
    );
  assert.ok(links.length >= 13, `${links.length} files are offered`);
  assert.equal(
    new Set(links.map((one) => one.text.replace(/ [^ ]+ (kB|MB)$/, ''))).size,
    links.length,
  );
  for (const { to, text } of links) {
    const bytes = statSync(`${folder}/out/${decodeURIComponent(to)}`).size;
    const said = /([\d.]+) (kB|MB)$/.exec(text.trim());
    assert.ok(said, text);
    const size = Number(said[1]) * (said[2] === 'MB' ? 1e6 : 1e3);
    assert.ok(Math.abs(size - bytes) <= 0.06 * bytes + 1000, `${to}: ${text}, but ${bytes} bytes`);
  }
  await page.context().close();
});

test("a friend's page is gone through by keyboard, each stop to be seen", { skip }, async () => {
  const page = await opened(390, 844, 'light');
  const count = await page.locator('a').count();
  const seen = new Set<string>();
  for (let at = 0; at < count; at++) {
    await page.keyboard.press('Tab');
    const stop = await page.evaluate(() => {
      const one = document.activeElement as HTMLElement;
      const style = getComputedStyle(one);
      return {
        to: one.getAttribute('href') ?? '',
        ring: style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2,
      };
    });
    assert.notEqual(stop.to, '');
    assert.ok(stop.ring, `${stop.to} shows no ring`);
    seen.add(stop.to);
  }
  assert.equal(seen.size, count);
  await page.context().close();
});

test("a friend who presses 'Print it yourself' comes to the files", { skip }, async () => {
  const page = await opened(390, 844, 'light');
  await page.getByRole('link', { name: 'Print it yourself' }).press('Enter');
  await page.waitForFunction(() => scrollY > 100);
  assert.ok(await page.getByRole('heading', { name: 'Print it', exact: true }).isVisible());
  await page.context().close();
});
