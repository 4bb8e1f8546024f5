// How a flow is told: what a maker does, done as a maker would, by what stands on the page.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import type { Browser, Locator, Page } from 'playwright-core';
import { open_browser, open_desk, open_page, type Desk } from './chromium.ts';

let browser: Browser;
before(async () => {
  browser = await open_browser();
});
after(async () => {
  await browser?.close();
});

type Flow = (page: Page, desk: Desk) => Promise<void>;
interface Needs {
  mock?: boolean;
  empty?: boolean;
  complaints?: RegExp;
}

/** A test with a desk and a page of its own. Nothing may be complained about but what is named. */
export function flow(name: string, steps: Flow, needs: Needs = {}): void {
  const skip = needs.mock && process.env.QUOIN_DESK ? 'needs the stand-in' : false;
  test(name, { skip }, async () => {
    const desk = await open_desk({ empty: needs.empty ?? false });
    const { page, context, complaints } = await open_page(browser, desk.address);
    try {
      await steps(page, desk);
      const expected = needs.complaints;
      assert.deepEqual(
        complaints.filter((one) => !expected?.test(one)),
        [],
      );
    } finally {
      await context.close();
      desk.stop();
    }
  });
}

export async function eventually(what: () => Promise<unknown>, expected: unknown): Promise<void> {
  let last: unknown;
  for (let tries = 0; tries < 100; tries++) {
    last = await what();
    if (last === expected) return;
    await new Promise((done) => setTimeout(done, 100));
  }
  assert.equal(last, expected);
}
export const text_of = (place: Locator) => async () => (await place.innerText()).trim();
export const cell = (page: Page, row: number, column: number) =>
  page.locator(`[role=row][aria-rowindex="${row + 2}"] [role=gridcell]`).nth(column);
export const view = (page: Page, name: string) =>
  page.getByRole('navigation').getByRole('link', { name, exact: true }).click();
