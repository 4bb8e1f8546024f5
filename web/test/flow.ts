// How a flow is told: what a maker does, done as a maker would, by what stands on the page, and
// what stands in the files afterwards.

import assert from 'node:assert/strict';
import { loadavg } from 'node:os';
import { after, test, type TestContext } from 'node:test';
import type { Browser, BrowserContext, Locator, Page } from 'playwright-core';
import { open_browser, open_page } from './chromium.ts';
import { open_desk, program, type Desk, type DeskWishes } from './desk.ts';

const browsers = new Map<string, Promise<Browser>>();
const browser = (models: 'models' | 'no models') => {
  const one = browsers.get(models) ?? open_browser(models);
  browsers.set(models, one);
  return one;
};
after(async () => {
  for (const one of browsers.values()) await (await one).close();
});

export interface Scene {
  desk: Desk;
  context: BrowserContext;
  t: TestContext;
}
type Flow = (page: Page, scene: Scene) => Promise<void>;
interface Needs extends DeskWishes {
  /** the view it begins on; 'as printed' opens the address as the program prints it */
  at?: string;
  /** only the stand-in, or only the real desk, can show it */
  only?: 'mock' | 'real';
  models?: 'models';
  complaints?: RegExp;
  /** why this machine cannot show it, or nothing */
  unless?: string | false;
}

/** A test with a desk and a page of its own. Nothing may be complained about but what is named. */
export function flow(name: string, needs: Needs, steps: Flow): void {
  const real = program !== '';
  const apart = needs.only !== undefined && (needs.only === 'real') !== real;
  const where = needs.only === 'real' ? 'needs the real desk' : 'needs the stand-in';
  const skip = apart ? where : (needs.unless ?? false);
  test(name, { skip }, async (t) => {
    const desk = await open_desk(needs);
    let ended = 'failed';
    try {
      const at = needs.at === 'as printed' ? undefined : (needs.at ?? 'list');
      const opened = await open_page(await browser(needs.models ?? 'no models'), desk.address, {
        at,
      });
      const { page, context, complaints } = opened;
      try {
        await steps(page, { desk, context, t });
        const expected = needs.complaints;
        assert.deepEqual(
          complaints.filter((one) => !expected?.test(one)),
          [],
        );
      } catch (problem) {
        await keep_picture(page, name);
        throw problem;
      } finally {
        await context.close();
      }
      ended = 'well';
    } finally {
      // How the desk ends is of interest when all else went well.
      const stopped = desk.stop();
      await (ended === 'well' ? stopped : stopped.catch(() => undefined));
    }
  });
}

/** What the page looked like when a flow failed. */
async function keep_picture(page: Page, name: string): Promise<void> {
  const folder = process.env.QUOIN_LOOKS;
  if (!folder) return;
  const path = `${folder}/failed-${name.replaceAll(/[^a-z0-9]+/gi, '-').slice(0, 60)}.png`;
  await page.screenshot({ path }).catch(() => undefined);
}

/** Asks until the answer is the one expected; the last answer is what the failure shows. */
export async function eventually(what: () => unknown, expected: unknown): Promise<void> {
  let last: unknown;
  const until = Date.now() + 30_000;
  while (Date.now() < until) {
    last = await what();
    if (last === expected) return;
    await new Promise((done) => setTimeout(done, 50));
  }
  assert.equal(last, expected);
}

/** The file holds the words, or, with `not`, holds them no more. Nothing to look at on a stand-in. */
export async function on_disk(desk: Desk, file: string, words: string | RegExp): Promise<void> {
  const { real } = desk;
  if (!real) return;
  const holds = () => {
    const text = real.read(file);
    return (
      (typeof words === 'string' ? text.includes(words) : words.test(text)) ||
      `${file} does not hold ${words}`
    );
  };
  await eventually(holds, true);
}
export async function off_disk(desk: Desk, file: string, words: string): Promise<void> {
  const { real } = desk;
  if (real) await eventually(() => real.read(file).includes(words), false);
}
/** The file is again what it was, to the letter. */
export async function same_on_disk(desk: Desk, file: string, before: string): Promise<void> {
  const { real } = desk;
  if (real) await eventually(() => real.read(file) === before || `${file} is another`, true);
}
export const file_of = (desk: Desk, file: string) => desk.real?.read(file) ?? '';

/** Says how long something took beside its limit. A slow machine is no fault of the page: only what
 * takes ten times as long fails. */
export function took(t: TestContext, what: string, ms: number, limit: number): void {
  const load = loadavg()[0] ?? 0;
  t.diagnostic(`${what}: ${Math.round(ms)} ms of at most ${limit} (load ${load.toFixed(1)})`);
  assert.ok(ms <= 10 * limit, `${what} took ${Math.round(ms)} ms, far more than ${limit}`);
}

export const text_of = (place: Locator) => async () => (await place.innerText()).trim();
export const cell = (page: Page, row: number, column: number) =>
  page.locator(`[role=row][aria-rowindex="${row + 2}"] [role=gridcell]`).nth(column);
export const view = (page: Page, name: string) =>
  page.getByRole('navigation').getByRole('link', { name, exact: true }).click();
/** Types into a cell of the list, as a maker does who has just pressed on it. */
export async function type_cell(page: Page, row: number, column: number, text: string) {
  await cell(page, row, column).click();
  await page.keyboard.press('Enter');
  await page.locator('[role=gridcell] textarea').fill(text);
  await page.keyboard.press('Enter');
}
