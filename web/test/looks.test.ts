// Every view, light and dark, on a desk and on a tablet: axe-core finds nothing, nothing is asked
// of another host, nothing sticks out sideways. QUOIN_LOOKS=FOLDER keeps a picture of each.

import assert from 'node:assert/strict';
import { mkdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, before, test } from 'node:test';
import type { Browser, Page } from 'playwright-core';
import { go, open_browser, open_desk, open_page, settled, type Desk } from './chromium.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const looks = process.env.QUOIN_LOOKS ?? '';
if (looks) mkdirSync(looks, { recursive: true });

let desk: Desk;
let browser: Browser;
before(async () => {
  desk = await open_desk();
  browser = await open_browser();
});
after(async () => {
  await browser?.close();
  desk?.stop();
});

export interface Stop {
  name: string;
  hash: string;
  ready?: (page: Page) => Promise<unknown>;
}
const stops: Stop[] = [
  { name: 'table', hash: 'table' },
  { name: 'cards', hash: 'cards' },
  { name: 'cards-one', hash: 'cards/shell-6' },
  { name: 'cards-compare', hash: 'cards/=' },
  { name: 'list', hash: 'list' },
  { name: 'layout', hash: 'layout/layouts%2Fface.toml/shell-6/name' },
  { name: 'sheets', hash: 'sheets' },
  { name: 'sheets-light', hash: 'sheets/1/light' },
  { name: 'box', hash: 'box' },
  { name: 'box-net', hash: 'box/net' },
  { name: 'make', hash: 'make' },
];
const only = process.env.QUOIN_STOPS?.split(',');

async function violations(page: Page): Promise<string[]> {
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const found = await (globalThis as any).axe.run(document, {
      resultTypes: ['violations'],
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

const sizes = [
  { theme: 'light', width: 1280, height: 720 },
  { theme: 'light', width: 820, height: 1180 },
  { theme: 'dark', width: 1280, height: 720 },
  { theme: 'dark', width: 820, height: 1180 },
  // What a window of 1280 by 720 has left at 200 % (WCAG 2.2, 1.4.4 and 1.4.10).
  { theme: 'light', width: 640, height: 360 },
] as const;

for (const { theme, width, height } of sizes) {
  test(`every view can be read, ${theme}, ${width} by ${height}`, async (t) => {
    const { page, context, complaints } = await open_page(browser, desk.address, {
      theme,
      width,
      height,
    });
    for (const stop of stops.filter((one) => !only || only.includes(one.name))) {
      await t.test(stop.name, async () => {
        await go(page, stop.hash);
        await page.waitForTimeout(/^(box|table)/.test(stop.name) ? 1500 : 500);
        await settled(page);
        if (looks) {
          await page.screenshot({ path: `${looks}/${stop.name}-${theme}-${width}.png` });
        }
        const sideways = await page.evaluate(
          () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
        );
        assert.equal(sideways, 0, 'the page sticks out sideways');
        assert.deepEqual(await violations(page), []);
      });
    }
    assert.deepEqual(complaints, []);
    await context.close();
  });
}
