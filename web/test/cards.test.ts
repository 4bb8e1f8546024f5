// Looking: cards, sheets and the box.

import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { settled } from './chromium.ts';
import { eventually, flow, view } from './flow.ts';

const VIEWS = ['Table', 'Cards', 'List', 'Layout', 'Sheets', 'Cutting', 'Box', 'Make'];

flow(
  'the address as it is printed opens the table, loses its token, and every view is reached',
  { at: 'as printed' },
  async (page) => {
    await page.getByRole('navigation').waitFor();
    assert.equal(new URL(page.url()).hash, '#/');
    for (const name of VIEWS) {
      await view(page, name);
      const link = page.getByRole('navigation').getByRole('link', { name, exact: true });
      await eventually(() => link.getAttribute('aria-current'), 'page');
      assert.match(await page.title(), new RegExp(`^Tidewrack · ${name} · Quoin$`));
    }
    await page.reload();
    await page.getByRole('navigation').waitFor();
  },
);

flow('cards are filtered by words and suit', { at: 'cards' }, async (page) => {
  const shown = page.getByRole('list', { name: 'All faces' }).getByRole('button');
  await page.getByRole('searchbox', { name: 'Words on the card' }).fill('scallop');
  await eventually(() => shown.count(), 1);
  await page.getByRole('searchbox', { name: 'Words on the card' }).fill('');
  await page.getByRole('combobox', { name: 'Suit' }).selectOption({ label: 'Rope' });
  await eventually(() => shown.count(), 7);
  await page.getByRole('combobox', { name: 'Suit' }).selectOption({ label: 'Every suit' });
  for (const [sight, filter] of [
    ['deutan', /sight-deutan/],
    ['grey', /sight-grey/],
    ['all', /^none$/],
  ] as const) {
    await page.getByRole('combobox', { name: 'Seen by' }).selectOption(sight);
    const face = shown.first().locator('img');
    const of = () => face.evaluate((i) => getComputedStyle(i).filter);
    await eventually(async () => filter.test(await of()) || (await of()), true);
  }
});

flow(
  'cards are filtered by what was found on them',
  {
    at: 'cards',
    only: 'real',
    prepare: (folder) => {
      const list = join(folder, 'cards.csv');
      const text = readFileSync(list, 'utf8');
      writeFileSync(list, text.replace('cockle.svg', 'no-such-picture.svg'));
    },
  },
  async (page) => {
    const shown = page.getByRole('list', { name: 'All faces' }).getByRole('button');
    await page.getByText('stops the print').first().waitFor();
    await page.getByRole('combobox', { name: 'Findings' }).selectOption('some');
    await eventually(() => shown.count(), 1);
    assert.match(await shown.first().innerText(), /Common Cockle, \d found/);
    await page.getByRole('combobox', { name: 'Findings' }).selectOption('none');
    await eventually(async () => (await page.getByText('55 of 56 faces').count()) > 0, true);
  },
);

flow(
  'one card is turned over, shown at true size, and the next one taken',
  { at: 'cards' },
  async (page) => {
    await page.getByRole('list', { name: 'All faces' }).getByRole('button').first().click();
    const stage = page.getByRole('region', { name: 'One card' });
    const first = await stage.getByRole('heading').first().innerText();
    await stage.getByRole('button', { name: 'Front' }).click();
    await stage.getByRole('img', { name: `Back of ${first}`, exact: true }).waitFor();
    await stage.getByRole('button', { name: 'Back', exact: true }).click();
    for (const name of ['Bleed', 'Safe area', 'Trim', 'Rounded corner']) {
      const box = stage.getByRole('checkbox', { name });
      const before = await box.isChecked();
      await box.click();
      assert.equal(await box.isChecked(), !before);
      await box.click();
    }
    await stage.getByRole('button', { name: 'True size' }).click();
    const dialog = page.getByRole('dialog', { name: 'Measure this screen once' });
    await dialog.getByRole('slider').fill('4');
    await dialog.getByRole('button', { name: 'It fits' }).click();
    await settled(page);
    const picture = stage.getByRole('img', { name: first, exact: true, includeHidden: true });
    const width = async () => Math.round((await picture.boundingBox())?.width ?? 0);
    await eventually(width, 254); // 63.5 mm at 4 pixels each
    await stage.getByRole('button', { name: 'The card after' }).click();
    assert.notEqual(await stage.getByRole('heading').first().innerText(), first);
  },
);

flow('the same element is seen on all cards', { at: 'cards/=' }, async (page) => {
  await page.getByRole('combobox', { name: 'Element' }).selectOption('name');
  const strip = page.getByRole('list', { name: 'name on every card' });
  await eventually(() => strip.getByRole('link').count(), 42);
  const pictures = strip.locator('img');
  const wide = () => pictures.first().evaluate((i) => (i as HTMLImageElement).naturalWidth > 300);
  await eventually(wide, true);
});

flow('sheets are shown from both sides and against the light', { at: 'sheets' }, async (page) => {
  const whole = async (name: string) => {
    const picture = page.getByRole('img', { name });
    await picture.waitFor();
    await eventually(
      () => picture.evaluate((i) => (i as HTMLImageElement).naturalWidth > 300),
      true,
    );
  };
  await whole('Sheet 1, front');
  await page.getByRole('button', { name: 'Back', exact: true }).click();
  await whole('Sheet 1, back');
  await page.getByRole('button', { name: 'Against the light', exact: true }).click();
  await whole('Sheet 1, against the light');
  await page.getByRole('button', { name: 'Sheet 2' }).click();
  await whole('Sheet 2, against the light');
});

flow(
  'the box is folded by its slider and turned by keys',
  { at: 'box', models: 'models' },
  async (page) => {
    const model = page.getByRole('application', { name: /^The box, folded/ });
    const slider = page.getByRole('slider', { name: 'How far it is folded' });
    await model.waitFor();
    const picture = () => model.evaluate((canvas) => (canvas as HTMLCanvasElement).toDataURL());
    /** The picture when two in a row are the same, so that nothing is still on its way. */
    const steady = async () => {
      let last = '';
      for (let tries = 0; tries < 60; tries++) {
        const next = await picture();
        if (next === last) return next;
        last = next;
        await page.waitForTimeout(300);
      }
      return last;
    };
    await steady();
    await slider.fill('0');
    await page.getByText('The net lies flat.').waitFor();
    const flat = await steady();
    await slider.fill('2.5');
    await page.getByText(/^3\. /).waitFor();
    const half = await steady();
    assert.notEqual(half, flat);
    await model.focus();
    await page.keyboard.press('ArrowLeft');
    assert.notEqual(await steady(), half);
    await page.getByRole('button', { name: 'Net', exact: true }).click();
    await page.getByRole('img', { name: /^Net of/ }).waitFor();
  },
);

flow('without WebGL the box is shown in pictures', { at: 'box' }, async (page) => {
  await page.getByText('This browser shows no models').waitFor();
  const net = page.getByRole('img', { name: /^Net of/ });
  await net.waitFor();
  await eventually(() => net.evaluate((i) => (i as HTMLImageElement).naturalWidth > 300), true);
});

flow('a term is explained on focus and Esc closes it', { at: 'box/net' }, async (page) => {
  const term = page.getByRole('button', { name: 'Clearance', exact: true });
  await term.focus();
  const words = page.getByRole('tooltip').filter({ hasText: 'between the deck' });
  await words.waitFor({ state: 'visible' });
  await page.keyboard.press('Escape');
  await words.waitFor({ state: 'hidden' });
});
