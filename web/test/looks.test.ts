// Every view, light and dark, on a desk and on a tablet: axe-core finds nothing, nothing is asked
// of another host, nothing sticks out sideways, everything that can be pressed can be reached.
// QUOIN_LOOKS=FOLDER keeps a picture of each.

import assert from 'node:assert/strict';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, before, test } from 'node:test';
import type { Browser, Page } from 'playwright-core';
import { float_drawing } from './art.ts';
import { decoded, go, open_browser, open_page, settled } from './chromium.ts';
import { open_desk, program, type Desk } from './desk.ts';
import { even, fill_sheet, measure, profile_file, show_sheet } from './printer.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const looks = process.env.QUOIN_LOOKS ?? '';
if (looks) mkdirSync(looks, { recursive: true });

let desk: Desk;
let empty: Desk;
let browser: Browser;
/** One printer that the game could be printed for, and one that it could not; and a picture that is
    too coarse. */
function with_printers_and_art(folder: string, machine: string): void {
  writeFileSync(`${folder}/art/finds/buoy.png`, float_drawing(150));
  mkdirSync(`${folder}/printers`);
  mkdirSync(`${machine}/quoin/printers`, { recursive: true });
  writeFileSync(`${folder}/printers/study.toml`, profile_file('Laser in the study'));
  const shop = profile_file('Copy shop', 'flip = "short-edge"\n');
  writeFileSync(`${machine}/quoin/printers/copy-shop.toml`, shop);
}
before(async () => {
  desk = await open_desk({ prepare: with_printers_and_art });
  empty = await open_desk({ empty: true });
  browser = await open_browser('models');
});
after(async () => {
  await browser?.close();
  await desk?.stop();
  await empty?.stop();
});

export interface Stop {
  name: string;
  hash: string;
  ready?: (page: Page) => Promise<unknown>;
}
/** Switches on what is looked at, and off again when it stays with the browser. */
async function likely(page: Page): Promise<void> {
  const box = page.getByRole('checkbox', { name: 'Likely cuts' });
  if (!(await box.isChecked())) await box.check();
  await page.getByText('cards drawn where cuts stray most').waitFor();
}
/** A picture of pixels, as it is written in an address. */
const a_picture = encodeURIComponent(program ? 'art/finds/buoy.png' : 'art/float.png');
const pictures_there = (page: Page) =>
  page.getByRole('list', { name: 'Pictures of the game' }).waitFor();
/** Until something is made of it that could be kept. */
async function to_be_kept(page: Page): Promise<void> {
  await page.locator('[aria-label="Keep it"] button:enabled').first().waitFor();
}
async function mat_drawn(page: Page): Promise<void> {
  if (program) await page.locator('.mat img').waitFor();
}
async function cards_and_sheets(page: Page): Promise<void> {
  await mat_drawn(page);
  await page.getByRole('checkbox', { name: 'Cards on it' }).check();
  await page.getByRole('checkbox', { name: 'Sheets' }).check();
  await page.getByRole('group', { name: 'How many' }).waitFor();
}
async function five_times(page: Page): Promise<void> {
  await page.getByRole('checkbox', { name: 'Bands five times as wide' }).check();
}
/** The rules with the reasons for their form opened. */
async function set_rules(page: Page): Promise<void> {
  await page.getByText('Why this form').waitFor();
  const open = page.locator('.chooser details');
  if (!(await open.evaluate((one) => (one as HTMLDetailsElement).open))) {
    await page.getByText('Why this form').click();
  }
  for (const image of await page.locator('main img').all()) await decoded(image);
}
function to_step(step: number) {
  return async (page: Page) => {
    const steps = page.getByRole('navigation', { name: 'All steps' }).getByRole('button');
    await steps.first().waitFor();
    await steps.nth(step - 1).click();
    await page.getByText(new RegExp(`^Step ${step} of`)).waitFor();
    await decoded(page.locator('.drawn img'));
  };
}

async function whole_list(page: Page): Promise<void> {
  await page.getByRole('button', { name: /^All \d+ files/ }).click();
  await page.getByRole('listitem').filter({ hasText: 'art/back.svg' }).waitFor();
}

const by_scanner = (page: Page) => page.getByRole('button', { name: 'With a scanner' }).click();
const by_eye = (page: Page) => page.getByRole('button', { name: 'By eye' }).click();
async function read_wrongly(page: Page): Promise<void> {
  await by_eye(page);
  const scales = even('4', '-6');
  scales[1] = 'three';
  scales[4] = '';
  await fill_sheet(page, 1, { letter: 'E', scales, bars: ['5.9', '199,6'] });
  await measure(page);
  await page.getByRole('alert').waitFor();
}
/** Three sheets, a little turned and larger at the back, and not quite alike. */
async function read_well(page: Page): Promise<void> {
  await by_eye(page);
  const sheets = [
    ['6', '-4', '6', '-2', '8', '-2', '8', '-4'],
    ['8', '-6', '8', '-4', '10', '-4', '10', '-6'],
    ['5', '-3', '5', '-1', '7', '-1', '7', '-3'],
  ];
  for (const [at, scales] of sheets.entries()) {
    await fill_sheet(page, at + 1, { letter: 'E', scales, bars: ['149.6', '199.6'] });
  }
  await show_sheet(page, 1);
  await measure(page);
  await page.getByRole('heading', { name: 'In words' }).waitFor();
  await page.evaluate(async () => {
    for (const image of document.querySelectorAll('main svg image')) {
      const copy = new Image();
      copy.src = image.getAttribute('href') ?? '';
      await copy.decode();
    }
  });
}
const stops: Stop[] = [
  { name: 'table', hash: 'table' },
  { name: 'cards', hash: 'cards' },
  { name: 'cards-one', hash: 'cards/shell-6' },
  { name: 'cards-likely', hash: 'cards/shell-6', ready: likely },
  { name: 'cards-compare', hash: 'cards/=' },
  { name: 'list', hash: 'list' },
  { name: 'layout', hash: 'layout/layouts%2Fface.toml/shell-6/name' },
  { name: 'art', hash: 'art', ready: pictures_there },
  { name: 'art-redraw', hash: `art/${a_picture}`, ready: to_be_kept },
  { name: 'art-straighten', hash: `art/${a_picture}/straighten`, ready: to_be_kept },
  { name: 'art-cut-out', hash: `art/${a_picture}/cut-out`, ready: to_be_kept },
  { name: 'art-colours', hash: `art/${a_picture}/colours`, ready: to_be_kept },
  { name: 'art-facts', hash: `art/${a_picture}/facts` },
  { name: 'mat', hash: 'mat', ready: mat_drawn },
  ...(program ? [{ name: 'mat-place', hash: 'mat/kept-here', ready: cards_and_sheets }] : []),
  { name: 'rules', hash: 'rules', ready: set_rules },
  { name: 'rules-sheet', hash: 'rules/sheet', ready: set_rules },
  { name: 'rules-folding', hash: 'rules/folding' },
  { name: 'sheets', hash: 'sheets' },
  { name: 'sheets-light', hash: 'sheets/1/light' },
  { name: 'sheets-register', hash: 'sheets/2/light', ready: five_times },
  { name: 'cutting', hash: 'cutting' },
  { name: 'cutting-step', hash: 'cutting/steps', ready: to_step(4) },
  { name: 'cutting-fence', hash: 'cutting/steps', ready: to_step(6) },
  { name: 'cutting-corners', hash: 'cutting/steps', ready: to_step(7) },
  { name: 'cutting-net', hash: 'cutting/steps', ready: to_step(9) },
  { name: 'cutting-costs', hash: 'cutting/costs' },
  { name: 'box', hash: 'box' },
  { name: 'box-net', hash: 'box/net' },
  { name: 'printer', hash: 'printer' },
  { name: 'printer-differs', hash: 'printer/copy-shop' },
  { name: 'printer-about', hash: 'printer/new/about' },
  { name: 'printer-print', hash: 'printer/new/print' },
  { name: 'printer-scans', hash: 'printer/new/read', ready: by_scanner },
  { name: 'printer-read', hash: 'printer/new/read', ready: by_eye },
  { name: 'printer-refused', hash: 'printer/new/read', ready: read_wrongly },
  { name: 'printer-found', hash: 'printer/new/read', ready: read_well },
  { name: 'printer-keep', hash: 'printer/new/keep' },
  { name: 'make', hash: 'make' },
  { name: 'share', hash: 'share', ready: whole_list },
];
const only = process.env.QUOIN_STOPS?.split(',');

async function violations(page: Page): Promise<string[]> {
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const found = await (globalThis as any).axe.run(document, {
      resultTypes: ['violations'],
      // In so low a window much lies half under the edge of what scrolls: too small only there.
      rules: { 'target-size': { enabled: innerHeight >= 500 } },
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
    });
    return found.violations.flatMap((violation: any) =>
      violation.nodes.map(
        (node: any) =>
          `${violation.id}: ${node.target.join(' ')} ${node.failureSummary.slice(0, 200)}`,
      ),
    );
  });
}

/** What can be pressed or written in but not be brought into view, or is covered there. */
function unreachable(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const said: string[] = [];
    const all = document.querySelectorAll<HTMLElement>(
      'main :is(a, button, input, select, textarea, summary), header :is(a, button, select)',
    );
    for (const one of all) {
      const style = getComputedStyle(one);
      const hidden = !one.checkVisibility({ visibilityProperty: true }) || one.matches(':disabled');
      if (hidden || style.opacity === '0' || one.closest('.skip, dialog')) continue;
      one.scrollIntoView({ block: 'center', inline: 'center' });
      const box = one.getBoundingClientRect();
      const name = one.getAttribute('aria-label') ?? one.textContent?.trim() ?? one.tagName;
      const words = `${one.tagName} "${name.slice(0, 40)}"`;
      if (box.left < -1 || box.right > innerWidth + 1) said.push(`${words} sticks out sideways`);
      // Cards in a fan cover each other in part, so any place on it will do.
      const places = [0.5, 0.1, 0.9].flatMap((x) => [0.5, 0.1, 0.9].map((y) => [x, y] as const));
      const shares = places.some(([x, y]) => {
        const top = document.elementFromPoint(box.left + box.width * x, box.top + box.height * y);
        return top && (one.contains(top) || top === one.closest('label'));
      });
      if (!shares) said.push(`${words} is covered or out of view`);
      if (one.matches('.button') && one.scrollWidth > one.clientWidth + 1)
        said.push(`${words} is cut off`);
    }
    for (const pane of document.querySelectorAll('main, main *')) pane.scrollTop = 0;
    scrollTo(0, 0);
    return said;
  });
}

const sizes = [
  { theme: 'light', width: 1280, height: 720 },
  { theme: 'dark', width: 820, height: 1180 },
  // What a window of 1280 by 720 has left at 200 % (WCAG 2.2, 1.4.4 and 1.4.10).
  { theme: 'light', width: 640, height: 360 },
] as const;

async function look(page: Page, name: string): Promise<void> {
  if (looks) await page.screenshot({ path: `${looks}/${name}.png` });
  const sideways = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  assert.equal(sideways, 0, 'the page sticks out sideways');
  assert.deepEqual(await unreachable(page), []);
  assert.deepEqual(await violations(page), []);
}

for (const { theme, width, height } of sizes) {
  test(`every view can be read, ${theme}, ${width} by ${height}`, async (t) => {
    const opened = await open_page(browser, desk.address, { theme, width, height, at: 'list' });
    const { page, context, complaints } = opened;
    for (const stop of stops.filter((one) => !only || only.includes(one.name))) {
      await t.test(stop.name, async () => {
        await go(page, stop.hash);
        await stop.ready?.(page);
        await page.waitForTimeout(/^(box|table)/.test(stop.name) ? 1000 : 300);
        await settled(page);
        await look(page, `${stop.name}-${theme}-${width}`);
      });
    }
    // The readings that are wrong on purpose are refused, and the browser says so.
    const refused = /status of 422/;
    assert.deepEqual(
      complaints.filter((one) => !refused.test(one)),
      [],
    );
    await context.close();
  });
}

for (const { theme, width, height } of sizes) {
  test(`the first run can be read, ${theme}, ${width} by ${height}`, async () => {
    const opened = await open_page(browser, empty.address, { theme, width, height, at: '' });
    await opened.page.getByRole('heading', { name: 'A game begins here' }).waitFor();
    await look(opened.page, `start-${theme}-${width}`);
    assert.deepEqual(opened.complaints, []);
    await opened.context.close();
  });
}
