// Layouts: elements moved, sized, put on the card, worded and taken off, and the file afterwards.

import assert from 'node:assert/strict';
import type { Page } from 'playwright-core';
import { eventually, file_of, flow, off_disk, on_disk, same_on_disk, type Scene } from './flow.ts';

const FACE = 'layouts/face.toml';
const at = `layout/${encodeURIComponent(FACE)}/shell-6/name`;
const elements = (page: Page) => page.getByRole('region', { name: 'Elements' });
const left_field = (page: Page) => page.getByRole('textbox', { name: /^From the left/ });
const number_in = (page: Page, name: RegExp) => async () =>
  Number(await page.getByRole('textbox', { name }).inputValue());
const stage = (page: Page) => page.getByRole('application', { name: /^The card/ });

async function opened(page: Page, { desk }: Scene): Promise<string> {
  await left_field(page).waitFor();
  return file_of(desk, FACE);
}
/** Pixels of the page for a millimetre of the card, and the card's corner. */
async function card_on_page(page: Page) {
  const card = await stage(page).boundingBox();
  assert.ok(card);
  return { ...card, scale: card.width / 63.5 };
}

flow('an element is moved with keys, and one step takes it back', { at }, async (page, scene) => {
  const file = await opened(page, scene);
  const left = number_in(page, /^From the left/);
  const before = await left();
  await stage(page).focus();
  for (const key of ['ArrowRight', 'ArrowRight', 'Shift+ArrowRight']) {
    await page.keyboard.press(key);
  }
  await eventually(left, Number((before + 1.2).toFixed(2)));
  if (scene.desk.real)
    await on_disk(scene.desk, FACE, /id = "name"[^[]*at = \[ ?7(\.0+)?, 56\.4 ?\]/);
  await page.getByRole('button', { name: 'Undo: place of name' }).click();
  await eventually(left, before);
  await same_on_disk(scene.desk, FACE, file);
});

flow(
  'an element is dragged, holds on to the safe area, and is undone in one step',
  { at },
  async (page, scene) => {
    const file = await opened(page, scene);
    const left = number_in(page, /^From the left/);
    const before = await left();
    const card = await card_on_page(page);
    const from = { x: card.x + (before + 20) * card.scale, y: card.y + 59.4 * card.scale };
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    const to_safe = (3.4 - before) * card.scale; // 0.4 mm short of the safe area
    for (let step = 1; step <= 6; step++)
      await page.mouse.move(from.x + (to_safe * step) / 6, from.y);
    await eventually(left, 3);
    if (scene.desk.real)
      assert.equal(file_of(scene.desk, FACE), file, 'a drag under way is not written');
    await page.mouse.up();
    await eventually(left, 3);
    await on_disk(scene.desk, FACE, /id = "name"[^[]*at = \[ ?3(\.0+)?, 56\.4 ?\]/);
    await page.getByRole('button', { name: 'Undo: place of name' }).click();
    await eventually(left, before);
    await same_on_disk(scene.desk, FACE, file);
  },
);

flow('an element is sized by its corner and by keys', { at }, async (page, scene) => {
  const file = await opened(page, scene);
  const width = number_in(page, /^Width/);
  const before = await width();
  const card = await card_on_page(page);
  const corner = { x: card.x + 57.8 * card.scale, y: card.y + 62.4 * card.scale };
  await page.mouse.move(corner.x, corner.y);
  await page.mouse.down();
  await page.keyboard.down('Alt'); // nothing holds on
  await page.mouse.move(corner.x - 3 * card.scale, corner.y, { steps: 4 });
  // Let go only when the drag is in what the desk shows: it must be written all the same.
  const shown = page.waitForResponse((answer) => answer.url().includes('/api/layout'));
  await page.mouse.move(corner.x - 5 * card.scale, corner.y, { steps: 4 });
  await shown;
  await eventually(async () => Math.abs((await width()) - (before - 5)) < 0.2, true);
  await page.waitForTimeout(300);
  await page.mouse.up();
  await page.keyboard.up('Alt');
  await eventually(async () => Math.abs((await width()) - (before - 5)) < 0.2, true);
  await on_disk(scene.desk, FACE, /id = "name"[^#]*size = \[ ?4[67]/);
  await stage(page).focus();
  const sized = await width();
  await page.keyboard.press('Control+Shift+ArrowRight');
  await eventually(width, Number((sized + 1).toFixed(2)));
  await page.keyboard.press('Control+z');
  await eventually(width, sized);
  await page.keyboard.press('Control+z');
  await eventually(width, before);
  await same_on_disk(scene.desk, FACE, file);
});

flow('a text is put on the card, worded, coloured, and taken off', { at }, async (page, scene) => {
  const file = await opened(page, scene);
  const list = elements(page);
  const before = await list.getByRole('listitem').count();
  await page
    .getByRole('group', { name: 'Put on the card' })
    .getByRole('button', { name: 'Text' })
    .click();
  await eventually(() => list.getByRole('listitem').count(), before + 1);
  const words = page.getByRole('textbox', { name: 'Text', exact: true });
  await words.fill('Low water');
  await words.press('Enter');
  await page.getByRole('button', { name: /^Undo: text of/ }).waitFor();
  await on_disk(scene.desk, FACE, 'text = "Low water"');
  await list.getByRole('button', { name: 'Take off the card' }).click();
  await eventually(() => list.getByRole('listitem').count(), before);
  await off_disk(scene.desk, FACE, 'Low water');
  for (let step = 0; step < 3; step++) {
    const undo = await page.getByRole('button', { name: /^Undo: / }).getAttribute('aria-label');
    await page.keyboard.press('Control+z');
    const now = page.getByRole('button', { name: /^(Undo: |Nothing to undo)/ });
    await eventually(async () => (await now.getAttribute('aria-label')) !== undo, true);
  }
  await eventually(() => list.getByRole('listitem').count(), before);
  await same_on_disk(scene.desk, FACE, file);
});

flow(
  'a value of the element is changed, and a number outside its bounds is not taken',
  { at },
  async (page, scene) => {
    const file = await opened(page, scene);
    const width = page.getByRole('textbox', { name: /^Width/ });
    const before = await width.inputValue();
    await width.fill('-4');
    await width.press('Enter');
    assert.equal(await width.getAttribute('aria-invalid'), 'true');
    await width.press('Escape');
    assert.equal(await width.inputValue(), before);
    await page.getByRole('combobox', { name: 'Valign' }).selectOption('top');
    await on_disk(scene.desk, FACE, /id = "name"[^#]*valign = "top"/);
    await page.getByRole('button', { name: 'Undo: valign of name' }).click();
    await same_on_disk(scene.desk, FACE, file);
  },
);

flow(
  'a picture dropped on the card lies on it, and in the game folder',
  { at, only: 'real' },
  async (page, scene) => {
    await opened(page, scene);
    const card = page.getByRole('region', { name: 'The card' });
    const data = await page.evaluateHandle(async () => {
      const canvas = new OffscreenCanvas(300, 300);
      const brush = canvas.getContext('2d');
      brush?.fillRect(40, 40, 220, 220);
      const dropped = new DataTransfer();
      const bytes = await canvas.convertToBlob({ type: 'image/png' });
      dropped.items.add(new File([bytes], 'buoy.png', { type: 'image/png' }));
      return dropped;
    });
    await card.dispatchEvent('dragover', { dataTransfer: data });
    await card.dispatchEvent('drop', { dataTransfer: data });
    await elements(page)
      .getByRole('button', { name: /^picture-1/ })
      .waitFor();
    await on_disk(scene.desk, FACE, /picture = "(art\/)?buoy\.png"/);
    assert.equal(scene.desk.real?.read('art/buoy.png').includes('PNG'), true);
  },
);

flow(
  'the line round a shape is thickened and coloured, one value of its table at a time',
  { at: `layout/${encodeURIComponent(FACE)}/shell-6/foam`, only: 'real' },
  async (page, scene) => {
    const file = await opened(page, scene);
    const line = page.getByRole('group', { name: 'Stroke' });
    const width = line.getByRole('textbox', { name: /^Width/ });
    await width.fill('0.6');
    await width.press('Enter');
    await on_disk(scene.desk, FACE, 'stroke = { colour = "paper", width = 0.6, cap = "round" }');
    await line.getByRole('combobox', { name: 'Cap' }).selectOption('square');
    await on_disk(scene.desk, FACE, 'stroke = { colour = "paper", width = 0.6, cap = "square" }');
    await page.getByText('As usual (').click();
    await page.getByRole('button', { name: 'Put on: shadow' }).click();
    await on_disk(scene.desk, FACE, /id = "foam"[^#]*shadow = \{[^}]*offset = \[0\.4, 0\.6\]/);
    for (const name of ['shadow of foam', 'stroke cap of foam', 'stroke width of foam']) {
      await page.getByRole('button', { name: `Undo: ${name}` }).click();
    }
    await same_on_disk(scene.desk, FACE, file);
  },
);

flow(
  'a turned element is moved along the card and sized along itself',
  { at: `layout/${encodeURIComponent(FACE)}/shell-6/hairline`, only: 'real' },
  async (page, scene) => {
    await opened(page, scene);
    await page.getByText('As usual (').click();
    const turn = page.getByRole('textbox', { name: /^Rotation/ });
    await turn.fill('30');
    await turn.press('Enter');
    await on_disk(
      scene.desk,
      FACE,
      /id = "hairline"[^[]*at = \[5\.8, 67\.3\][^[]*size = \[8, 0\.5\][^#]*rotation = 30/,
    );
    await stage(page).focus();
    await page.keyboard.press('Shift+ArrowRight');
    await on_disk(
      scene.desk,
      FACE,
      /id = "hairline"[^[]*at = \[6\.8, 67\.3\][^[]*size = \[8, 0\.5\]/,
    );
    // Wider by 1 mm to its own right: the left end stays, so the middle goes half a millimetre
    // along the element, and the unturned corner with it (cos 30° = 0.866, sin 30° = 0.5).
    await page.waitForTimeout(1300); // another step
    await page.keyboard.press('Control+Shift+ArrowRight');
    await on_disk(
      scene.desk,
      FACE,
      /id = "hairline"[^[]*at = \[6\.73, 67\.55\][^[]*size = \[9, 0\.5\]/,
    );
  },
);
