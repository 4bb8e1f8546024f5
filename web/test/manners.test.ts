// Manners: by keyboard alone, and nothing said of what takes no time.

import assert from 'node:assert/strict';
import type { Page } from 'playwright-core';
import { cell, eventually, flow, on_disk, text_of } from './flow.ts';

const focused = (page: Page) =>
  page.evaluate(() => {
    const one = document.activeElement as HTMLElement | null;
    return (one?.getAttribute('aria-label') ?? one?.innerText ?? '').trim();
  });
async function tab_to(page: Page, name: RegExp): Promise<void> {
  for (let steps = 0; steps < 60; steps++) {
    await page.keyboard.press('Tab');
    if (name.test(await focused(page))) return;
  }
  assert.fail(`Tab never comes to ${name}`);
}
const outlined = (page: Page) =>
  page.evaluate(() => {
    const one = document.activeElement;
    const style = one && getComputedStyle(one);
    return style !== null && style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 1.5;
  });

flow(
  'a card is found, renamed and looked at by keyboard alone',
  { at: 'cards' },
  async (page, { desk }) => {
    await page.getByRole('list', { name: 'All faces' }).getByRole('button').first().waitFor();
    await page.keyboard.press('Tab');
    assert.equal(await focused(page), 'Skip to the work');
    await tab_to(page, /^List$/);
    assert.ok(await outlined(page), 'what has the focus is seen');
    await page.keyboard.press('Enter');
    await cell(page, 0, 0).waitFor();
    await tab_to(page, /^shell-1$/);
    for (let steps = 0; steps < 4; steps++) await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Control+a');
    await page.keyboard.type('By hand');
    await page.keyboard.press('Enter');
    await eventually(text_of(cell(page, 0, 4)), 'By hand');
    await on_disk(desk, 'cards.csv', 'shell-1,find,shell,1,By hand,');
    await page.keyboard.press('Control+z');
    await eventually(text_of(cell(page, 0, 4)), 'Flat Periwinkle');
    // And round to the top again: nothing holds the focus for good.
    await tab_to(page, /^Skip to the work$/);
    await tab_to(page, /^Cards$/);
    await page.keyboard.press('Enter');
    await tab_to(page, /Flat Periwinkle/);
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    await page
      .getByRole('region', { name: 'One card' })
      .getByRole('heading', { name: 'Common Cockle' })
      .waitFor();
  },
);

flow(
  'nothing is said of what takes less than a fifth of a second',
  { at: 'list' },
  async (page) => {
    // Notes how long the words had been there when they were first seen.
    await page.addInitScript(() => {
      const seen: number[] = [];
      Object.assign(globalThis, { seen_after: seen });
      let since = 0;
      const look = () => {
        const words = document.querySelector('.late');
        if (!words) since = 0;
        else if (since === 0) since = performance.now();
        const shown = words && getComputedStyle(words).visibility === 'visible';
        if (shown && seen.length === 0) seen.push(performance.now() - since);
        requestAnimationFrame(look);
      };
      requestAnimationFrame(look);
    });
    const seen_after = () => page.evaluate(() => (globalThis as any).seen_after as number[]);
    let wait = 0;
    await page.route('**/api/state', async (route) => {
      await new Promise((done) => setTimeout(done, wait));
      await route.continue();
    });
    wait = 1500;
    await page.reload();
    await page.getByRole('navigation').waitFor();
    const late = await seen_after();
    assert.equal(late.length, 1, 'what takes long is said');
    assert.ok((late[0] ?? 0) >= 150, `and not before a fifth of a second: after ${late[0]} ms`);
  },
);
