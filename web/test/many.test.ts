// Large games and games full of faults.

import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { cell, eventually, flow, on_disk, took, view } from './flow.ts';

/** The rows of the demo game, eighteen times over: 1008 cards. */
function thousand(folder: string): void {
  const file = join(folder, 'cards.csv');
  const [head = '', ...rows] = readFileSync(file, 'utf8').trimEnd().split('\n');
  const more = Array.from({ length: 18 }, (_, copy) =>
    rows.map((row) => row.replace(/^[^,]*/, (id) => (copy === 0 ? id : `${id}-${copy}`))),
  );
  writeFileSync(file, `${[head, ...more.flat()].join('\n')}\n`);
}

flow(
  'a thousand cards scroll without a stall, and an edit is shown at once',
  { at: 'cards', only: 'real', prepare: thousand },
  async (page, { desk, t }) => {
    await page.getByText('1008 faces').waitFor();
    const faces = page.getByRole('list', { name: 'All faces' });
    assert.ok((await faces.getByRole('button').count()) < 80);
    const longest = await page.evaluate(async () => {
      const pane = document.querySelector('[aria-label="All faces"]')?.parentElement;
      if (!pane) return Infinity;
      let [last, most] = [0, 0];
      const end = pane.scrollHeight - pane.clientHeight;
      for (let step = 0; step <= 90; step++) {
        pane.scrollTop = (end * step) / 90;
        const now = await new Promise<number>((done) => requestAnimationFrame(done));
        if (last > 0) most = Math.max(most, now - last);
        last = now;
      }
      return most;
    });
    took(t, 'longest frame while scrolling through 1008 cards', longest, 250);
    await faces.getByRole('button').first().focus();
    await page.keyboard.press('End');
    await eventually(
      async () => faces.locator('[data-at="1007"]').evaluate((b) => b === document.activeElement),
      true,
    );
    assert.ok((await faces.getByRole('button').count()) < 80);
    await view(page, 'List');
    await page.getByRole('gridcell').first().click();
    const times: number[] = [];
    for (let round = 0; round < 5; round++) {
      await cell(page, 0, 4).click();
      await page.keyboard.press('Enter');
      await page.getByRole('textbox', { name: 'name of shell-1' }).fill(`Periwinkle ${round}`);
      // Until the desk has written it and the page has the state that shows it.
      const shown = page.getByRole('status').getByText('on the way');
      const answered = page.waitForResponse((answer) => answer.url().includes('/api/state'));
      const began = performance.now();
      await page.keyboard.press('Enter');
      await answered;
      times.push(performance.now() - began);
      await shown.waitFor({ state: 'hidden' });
      await on_disk(desk, 'cards.csv', `Periwinkle ${round},`);
    }
    const middle = [...times].sort((a, b) => a - b)[2] ?? 0;
    took(t, 'from Enter to the new state, 1008 cards, median of 5', middle, 200);
    await page.keyboard.press('Control+End');
    await eventually(async () => cell(page, 1007, 10).getAttribute('aria-selected'), 'true');
    assert.ok((await page.getByRole('row').count()) < 60);
  },
);

/** Two hundred rows that ask for pictures that are not there. */
function faulty(folder: string): void {
  const file = join(folder, 'cards.csv');
  const head = readFileSync(file, 'utf8').split('\n')[0] ?? '';
  const rows = Array.from(
    { length: 200 },
    (_, at) => `c-${at},find,shell,1,Card ${at},Plate,Words,missing-${at}.svg,1,,`,
  );
  writeFileSync(file, `${[head, ...rows].join('\n')}\n`);
}

flow(
  'a game with two hundred faults opens and shows them',
  { at: 'cards', only: 'real', prepare: faulty },
  async (page) => {
    await page.getByText('200 faces').waitFor();
    await page.getByText('stop the print').first().waitFor();
    await page.getByRole('button', { name: /See all/ }).click();
    const all = page.getByRole('region', { name: 'What would go wrong' });
    await all.getByRole('article').first().waitFor();
    const said = await all.innerText();
    const number = Number(/(\d+)\s+stop the print/.exec(said)?.[1]);
    assert.ok(number >= 200, `${number} are counted`);
    assert.ok((await all.getByRole('article').count()) > 0);
    await view(page, 'List');
    await cell(page, 0, 0).waitFor();
  },
);
