// The other views, and what happens when the desk is away or says no.

import assert from 'node:assert/strict';
import { settled } from './chromium.ts';
import { cell, eventually, flow, view } from './flow.ts';

flow('the token leaves the address', async (page) => {
  assert.equal(new URL(page.url()).hash.includes('token'), false);
  await page.reload();
  await page.getByRole('navigation').waitFor();
});

flow('cards are filtered by words, suit and findings', async (page) => {
  await view(page, 'Cards');
  const shown = page.getByRole('list', { name: 'All faces' }).getByRole('button');
  await page.getByRole('searchbox', { name: 'Words on the card' }).fill('scallop');
  await eventually(() => shown.count(), 1);
  await page.getByRole('searchbox', { name: 'Words on the card' }).fill('');
  await page.getByRole('combobox', { name: 'Suit' }).selectOption({ label: 'Rope' });
  await eventually(() => shown.count(), 7);
  await page.getByRole('combobox', { name: 'Suit' }).selectOption({ label: 'Every suit' });
  await page.getByRole('combobox', { name: 'Seen by' }).selectOption('deutan');
  const filter = await shown
    .first()
    .locator('img')
    .evaluate((i) => getComputedStyle(i).filter);
  assert.match(filter, /sight-deutan/);
});

flow('one card is turned over, shown at true size, and the next one taken', async (page) => {
  await view(page, 'Cards');
  await page.getByRole('list', { name: 'All faces' }).getByRole('button').first().click();
  const stage = page.getByRole('region', { name: 'One card' });
  const first = await stage.getByRole('heading').first().innerText();
  await stage.getByRole('button', { name: 'Front' }).click();
  await stage.getByRole('button', { name: 'Back', exact: true }).waitFor();
  await stage.getByRole('checkbox', { name: 'Bleed' }).check();
  await stage.getByRole('checkbox', { name: 'Bleed' }).uncheck();
  await stage.getByRole('button', { name: 'True size' }).click();
  const dialog = page.getByRole('dialog', { name: 'Measure this screen once' });
  await dialog.getByRole('slider').fill('4');
  await dialog.getByRole('button', { name: 'It fits' }).click();
  await settled(page);
  const shown = await stage
    .getByRole('img', { name: first, exact: true, includeHidden: true })
    .boundingBox();
  assert.equal(Math.round(shown?.width ?? 0), 254); // 63.5 mm at 4 pixels each
  await stage.getByRole('button', { name: 'The card after' }).click();
  assert.notEqual(await stage.getByRole('heading').first().innerText(), first);
});

flow('sheets are shown from both sides and against the light', async (page) => {
  await view(page, 'Sheets');
  await page.getByRole('img', { name: 'Sheet 1, front' }).waitFor();
  await page.getByRole('button', { name: 'Back', exact: true }).click();
  await page.getByRole('img', { name: 'Sheet 1, back' }).waitFor();
  await page.getByRole('button', { name: 'Against the light', exact: true }).click();
  await page.getByRole('img', { name: 'Sheet 1, against the light' }).waitFor();
  await page.getByRole('button', { name: 'Sheet 2' }).click();
  await page.getByRole('img', { name: 'Sheet 2, against the light' }).waitFor();
});

flow('the box is folded by its slider and turned by keys', async (page) => {
  await view(page, 'Box');
  const model = page.getByRole('application', { name: /^The box, folded/ });
  const slider = page.getByRole('slider', { name: 'How far it is folded' });
  await slider.fill('0');
  await page.getByText('The net lies flat.').waitFor();
  await page.waitForTimeout(1500);
  const picture = () => model.evaluate((canvas) => (canvas as HTMLCanvasElement).toDataURL());
  const flat = await picture();
  await slider.fill('2.5');
  await page.getByText(/^3\. /).waitFor();
  await page.waitForTimeout(600);
  const half = await picture();
  assert.notEqual(half, flat);
  await model.focus();
  await page.keyboard.press('ArrowLeft');
  await page.waitForTimeout(600);
  assert.notEqual(await picture(), half);
  await page.getByRole('button', { name: 'Net', exact: true }).click();
  await page.getByRole('img', { name: /^Net of/ }).waitFor();
});

flow('a pack is made, stopped, made again and saved', async (page) => {
  await view(page, 'Make');
  await page.getByRole('button', { name: 'Make the pack' }).click();
  await page.getByRole('button', { name: 'Stop' }).click();
  await page.getByText('Stopped.').first().waitFor();
  await page.getByRole('button', { name: 'Make the pack' }).click();
  const save = page.getByRole('button', { name: 'Save home/cards.pdf' });
  await save.waitFor();
  const [download] = await Promise.all([page.waitForEvent('download'), save.click()]);
  assert.equal(download.suggestedFilename(), 'cards.pdf');
});

flow(
  'what is typed while the desk is away arrives when it is back',
  async (page, desk) => {
    await view(page, 'List');
    await cell(page, 0, 4).click();
    desk.mock.away = true;
    await page.keyboard.press('Enter');
    await page.getByRole('textbox', { name: /^name of/ }).fill('Kept Periwinkle');
    await page.keyboard.press('Enter');
    await page.getByText('The desk does not answer.').waitFor();
    await page.getByText('1 change is kept here').waitFor();
    assert.equal((await cell(page, 0, 4).innerText()).trim(), 'Kept Periwinkle');
    desk.mock.away = false;
    await page.getByText('The desk does not answer.').waitFor({ state: 'hidden' });
    await eventually(async () => desk.mock.game.content.rows[0][4], 'Kept Periwinkle');
  },
  { mock: true, complaints: /ERR_|Failed to load/ },
);

flow(
  'a refused edit says why and what to do',
  async (page) => {
    await view(page, 'List');
    await cell(page, 0, 4).click();
    await page.keyboard.press('Enter');
    await page.getByRole('textbox', { name: /^name of/ }).fill('refuse this');
    await page.keyboard.press('Enter');
    const alert = page.getByRole('alert');
    await alert.getByText('The list cannot hold these words.').waitFor();
    await alert.getByText('Write other words.').waitFor();
    await alert.getByRole('button', { name: 'Put this away' }).click();
    await alert.waitFor({ state: 'hidden' });
  },
  { mock: true, complaints: /422/ },
);

flow(
  'both values of a conflict are shown, and one is kept',
  async (page, desk) => {
    desk.mock.game.conflicts = [
      {
        id: 'c1',
        label: 'name of shell-1',
        file: 'cards.csv',
        mine: 'Rough Periwinkle',
        theirs: 'Edible Periwinkle',
        place: { file: 'cards.csv', line: 2, column: 14, length: 4 },
      },
    ];
    await page.reload();
    const dialog = page.getByRole('dialog', { name: 'Changed in two places' });
    await dialog.getByText('Rough Periwinkle').waitFor();
    await dialog.getByText('Edible Periwinkle').waitFor();
    await dialog.getByRole('button', { name: 'Keep theirs' }).click();
    await dialog.waitFor({ state: 'hidden' });
    assert.equal(desk.mock.game.conflicts.length, 0);
  },
  { mock: true },
);

flow(
  'a first game begins from pictures',
  async (page) => {
    await page.getByRole('heading', { name: 'A game begins here' }).waitFor();
    await page.getByLabel('What the game is called').fill('Reef');
    const file = (name: string) => ({ name, mimeType: 'image/png', buffer: Buffer.from('png') });
    await page.locator('input[type=file]').setInputFiles([file('01-crab.png'), file('back.png')]);
    await page.getByText('2 pictures').waitFor();
    await page.getByRole('button', { name: 'Make a game of them' }).click();
    await page.getByRole('navigation').waitFor();
  },
  { mock: true, empty: true },
);

flow('a term is explained on focus and Esc closes it', async (page) => {
  await view(page, 'Box');
  const term = page.getByRole('button', { name: 'Clearance', exact: true });
  await term.focus();
  const words = page.getByRole('tooltip').filter({ hasText: 'between the deck' });
  await words.waitFor({ state: 'visible' });
  await page.keyboard.press('Escape');
  await words.waitFor({ state: 'hidden' });
});

flow(
  'without WebGL the box is shown in pictures',
  async (page) => {
    await page.addInitScript(() => {
      HTMLCanvasElement.prototype.getContext = () => null;
    });
    await page.reload();
    await view(page, 'Box');
    await page.getByText('This browser shows no models').waitFor();
    await page.getByRole('img', { name: /^Net of/ }).waitFor();
  },
  { complaints: /WebGL/ },
);

flow(
  'a thousand cards scroll with only those in view in the page',
  async (page, desk) => {
    const { rows } = desk.mock.game.content;
    const more = [];
    for (let copy = 1; copy <= 18; copy++) {
      for (const row of rows) more.push([`${row[0]}-${copy}`, ...row.slice(1)]);
    }
    desk.mock.game.content.rows = more;
    await page.reload();
    await view(page, 'Cards');
    await page.getByText('1008 faces').waitFor();
    const faces = page.getByRole('list', { name: 'All faces' });
    assert.ok((await faces.getByRole('button').count()) < 80);
    await faces.getByRole('button').first().focus();
    await page.keyboard.press('End');
    await eventually(
      async () => faces.locator('[data-at="1007"]').evaluate((b) => b === document.activeElement),
      true,
    );
    assert.ok((await faces.getByRole('button').count()) < 80);
    await view(page, 'List');
    await page.getByRole('gridcell').first().click();
    await page.keyboard.press('Control+End');
    await eventually(async () => cell(page, 1007, 10).getAttribute('aria-selected'), 'true');
    assert.ok((await page.getByRole('row').count()) < 60);
  },
  { mock: true },
);
