// Layouts: elements moved, put on the card, worded and taken off.

import assert from 'node:assert/strict';
import { go } from './chromium.ts';
import { eventually, flow } from './flow.ts';

flow('an element is moved with keys, and one step takes it back', async (page) => {
  await go(page, 'layout');
  const list = page.getByRole('region', { name: 'Elements' });
  await list.getByRole('button', { name: 'name', exact: true }).first().click();
  const left = page.getByRole('textbox', { name: /^From the left/ });
  const before = Number(await left.inputValue());
  await page.getByRole('application', { name: /^The card/ }).focus();
  for (const key of ['ArrowRight', 'ArrowRight', 'Shift+ArrowRight']) {
    await page.keyboard.press(key);
  }
  await eventually(async () => Number(await left.inputValue()), Number((before + 1.2).toFixed(2)));
  await page.getByRole('button', { name: 'Undo: place of name' }).click();
  await eventually(async () => Number(await left.inputValue()), before);
});

flow(
  'an element is dragged, holds on to the safe area, and is undone in one step',
  async (page) => {
    await go(page, 'layout');
    await page
      .getByRole('region', { name: 'Elements' })
      .getByRole('button', { name: 'name', exact: true })
      .first()
      .click();
    const left = page.getByRole('textbox', { name: /^From the left/ });
    await left.waitFor();
    const before = Number(await left.inputValue());
    const card = await page.getByRole('application', { name: /^The card/ }).boundingBox();
    assert.ok(card);
    const scale = card.width / 63.5;
    const at = { x: card.x + (before + 20) * scale, y: card.y + 59.4 * scale };
    await page.mouse.move(at.x, at.y);
    await page.mouse.down();
    const to_safe = (3.4 - before) * scale; // 0.4 mm short of the safe area
    for (let step = 1; step <= 6; step++) await page.mouse.move(at.x + (to_safe * step) / 6, at.y);
    await page.mouse.up();
    await eventually(async () => Number(await left.inputValue()), 3);
    await page.getByRole('button', { name: 'Undo: place of name' }).click();
    await eventually(async () => Number(await left.inputValue()), before);
  },
);

flow('a text is put on the card, worded, and taken off', async (page) => {
  await go(page, 'layout');
  const list = page.getByRole('region', { name: 'Elements' });
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
  await list.getByRole('button', { name: 'Take off the card' }).click();
  await eventually(() => list.getByRole('listitem').count(), before);
  for (let step = 0; step < 3; step++) await page.keyboard.press('Control+z');
  await eventually(() => list.getByRole('listitem').count(), before);
});

flow('a number outside its bounds is not taken', async (page) => {
  await go(page, 'layout');
  await page
    .getByRole('region', { name: 'Elements' })
    .getByRole('button', { name: 'name', exact: true })
    .first()
    .click();
  const width = page.getByRole('textbox', { name: /^Width/ });
  const before = await width.inputValue();
  await width.fill('-4');
  await width.press('Enter');
  assert.equal(await width.getAttribute('aria-invalid'), 'true');
  await width.press('Escape');
  assert.equal(await width.inputValue(), before);
});
