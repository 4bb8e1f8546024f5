// The mat: places moved, counted, put on and taken away, cards laid on them, its sheets; one begun.

import assert from 'node:assert/strict';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { eventually, file_of, flow, on_disk, same_on_disk, type Scene } from './flow.ts';

const MAT = 'layouts/mat.toml';
const only = 'real' as const;
/** What an element of the mat's layout holds. */
const holds = (id: string, words: string) =>
  new RegExp(`id = "${id}"(?:(?!\\[\\[element)[^])*?${words}`);
const elements = (page: Page) => page.getByRole('region', { name: 'Elements' });
const stage = (page: Page) => page.getByRole('application', { name: /^The mat/ });
const left_field = (page: Page) => page.getByRole('textbox', { name: /^From the left/ });
const top_field = (page: Page) => page.getByRole('textbox', { name: /^From the top/ });
const value_of = (field: ReturnType<typeof left_field>) => async () =>
  Number(await field.inputValue());
const how_many = (page: Page) => page.getByRole('group', { name: 'How many' });
const counted = (page: Page) => () => how_many(page).locator('output').innerText();

async function opened(page: Page, { desk }: Scene): Promise<string> {
  await left_field(page).waitFor();
  return file_of(desk, MAT);
}
/** The mat on the page, and pixels for a millimetre of it. */
async function mat_on_page(page: Page) {
  const box = await stage(page).boundingBox();
  assert.ok(box);
  return { ...box, scale: box.width / 594 };
}
async function pull(page: Page, from: [number, number], by: [number, number]): Promise<void> {
  const mat = await mat_on_page(page);
  const at = (x: number, y: number) => [mat.x + x * mat.scale, mat.y + y * mat.scale] as const;
  await page.mouse.move(...at(...from));
  await page.mouse.down();
  for (let step = 1; step <= 6; step++) {
    await page.mouse.move(...at(from[0] + (by[0] * step) / 6, from[1] + (by[1] * step) / 6));
  }
  await page.mouse.up();
}

flow(
  'a place is moved with keys, and one step takes it back',
  { at: 'mat/deck', only },
  async (page, scene) => {
    const file = await opened(page, scene);
    const left = value_of(left_field(page));
    assert.equal(await left(), 13);
    await stage(page).focus();
    for (const key of ['Shift+ArrowRight', 'Shift+ArrowRight', 'ArrowRight']) {
      await page.keyboard.press(key);
    }
    await eventually(left, 15.1);
    await on_disk(scene.desk, MAT, holds('deck', String.raw`at = \[ ?15\.1, 164(\.0+)? ?\]`));
    await page.getByRole('button', { name: 'Undo: place of deck' }).click();
    await eventually(left, 13);
    await same_on_disk(scene.desk, MAT, file);
  },
);

flow(
  'a place is pulled, holds on to the top of another, and keeps its size',
  { at: 'mat', only },
  async (page, scene) => {
    await stage(page).waitFor();
    // The pile of the sea, 22 mm from the top: 142 further down it lies beside the deck.
    await pull(page, [520, 60], [0, 141.8]);
    await eventually(value_of(left_field(page)), 494);
    await eventually(value_of(top_field(page)), 164);
    await on_disk(scene.desk, MAT, holds('taken', String.raw`at = \[ ?494(\.0+)?, 164(\.0+)? ?\]`));
    assert.doesNotMatch(file_of(scene.desk, MAT), holds('taken', '\nsize ='));
    await page.getByRole('button', { name: 'Undo: place of taken' }).click();
    await eventually(value_of(top_field(page)), 22);
  },
);

flow(
  'what lies over each other is said where it lies',
  { at: 'mat/taken', only },
  async (page, scene) => {
    await opened(page, scene);
    await top_field(page).fill('164');
    await top_field(page).press('Enter');
    const told = page.getByRole('complementary', { name: 'Properties' });
    await told.getByText(/lie over each other by/).waitFor({ timeout: 20_000 });
  },
);

flow(
  'a row is put on the mat, counted and taken off again',
  { at: 'mat', only },
  async (page, scene) => {
    await stage(page).waitFor();
    const file = file_of(scene.desk, MAT);
    await page.getByRole('button', { name: 'Row', exact: true }).click();
    await how_many(page).waitFor();
    await eventually(counted(page), '3');
    await page.getByRole('button', { name: 'One more' }).click();
    await eventually(counted(page), '4');
    await on_disk(scene.desk, MAT, holds('place-1', 'arrange = "row"[^]*?count = 4'));
    await stage(page).focus();
    await page.keyboard.press('Delete');
    await elements(page).getByRole('button', { name: 'place-1' }).waitFor({ state: 'detached' });
    await same_on_disk(scene.desk, MAT, file);
  },
);

flow(
  'the handle of a row takes places away',
  { at: 'mat/strandline', only },
  async (page, scene) => {
    const file = await opened(page, scene);
    await eventually(counted(page), '7');
    // The row is 483.5 mm wide from 94.5 on; two places and their gaps are 139 mm.
    await pull(page, [578, 209.95], [-139, 0]);
    await eventually(counted(page), '5');
    await on_disk(scene.desk, MAT, holds('strandline', 'count = 5'));
    await page.getByRole('button', { name: 'Undo: places of strandline' }).click();
    await eventually(counted(page), '7');
    await same_on_disk(scene.desk, MAT, file);
  },
);

flow(
  'a suit is given a place by ticking it',
  { at: 'mat/strandline', only },
  async (page, scene) => {
    await opened(page, scene);
    await page.getByRole('checkbox', { name: 'Weed' }).check();
    await on_disk(scene.desk, MAT, holds('strandline', String.raw`suits = \[ ?"weed" ?\]`));
  },
);

flow(
  'cards lie on the places at their size, and the sheets are shown',
  { at: 'mat', only },
  async (page) => {
    await stage(page).waitFor();
    await page.getByRole('checkbox', { name: 'Cards on it' }).check();
    const cards = page.locator('.upon .face');
    await eventually(() => cards.count(), 21);
    const mat = await mat_on_page(page);
    const size = await cards.first().evaluate((one) => (one as HTMLElement).offsetWidth);
    assert.ok(Math.abs(size - 63.5 * mat.scale) < 1.5, `${size} px for 63.5 mm`);
    await page.getByRole('checkbox', { name: 'Sheets' }).check();
    await page.getByText('B4', { exact: true }).waitFor();
    await page.getByText('8 sheets of A4').waitFor();
  },
);

flow('the mat is zoomed into and pulled about', { at: 'mat', only }, async (page) => {
  await stage(page).waitFor();
  const before = await mat_on_page(page);
  await page.getByRole('button', { name: 'Larger' }).click();
  await page.getByRole('button', { name: 'Larger' }).click();
  await eventually(
    async () => Math.round(((await mat_on_page(page)).scale / before.scale) * 100),
    225,
  );
  const [x, y] = [before.x + before.width / 2, before.y + before.height / 2];
  const zoomed = await mat_on_page(page);
  // Where the shore alone lies, nothing is taken hold of.
  await page.mouse.move(x, y);
  await page.keyboard.down('Control');
  await page.mouse.wheel(0, 200);
  await page.keyboard.up('Control');
  await eventually(async () => (await mat_on_page(page)).scale < zoomed.scale, true);
  const still = await mat_on_page(page);
  await pull(page, [330, 140], [-30, 0]);
  const went = (await mat_on_page(page)).x - still.x;
  assert.ok(Math.abs(went + 30 * still.scale) < 3, `${went} px for 30 mm`);
  await page.getByRole('button', { name: /^\d+ %$/ }).click();
  await eventually(async () => (await mat_on_page(page)).scale, before.scale);
});

function without_mat(folder: string): void {
  const game = `${folder}/game.toml`;
  writeFileSync(game, readFileSync(game, 'utf8').replace(/\[mat\][^[]*/, ''));
  rmSync(`${folder}/${MAT}`);
}

flow(
  'a game without a mat begins one with a press',
  { at: 'mat', only, prepare: without_mat },
  async (page, scene) => {
    const game = file_of(scene.desk, 'game.toml');
    await page.getByRole('button', { name: 'Begin a mat' }).waitFor();
    await page.getByRole('button', { name: 'Begin a mat' }).click();
    await elements(page).getByRole('button', { name: 'draw' }).waitFor();
    await on_disk(scene.desk, 'game.toml', /\[mat\]\nsize = "A2"\nlayout = "layouts\/mat\.toml"/);
    assert.match(file_of(scene.desk, MAT), /id = "suits"\nkind = "place"\narrange = "row"/);
    await page.getByText('Nothing stands in the way of this mat.').waitFor({ timeout: 20_000 });
    await page.getByRole('button', { name: 'Undo: a mat' }).click();
    await page.getByRole('button', { name: 'Begin a mat' }).waitFor();
    await same_on_disk(scene.desk, 'game.toml', game);
  },
);
