// What a maker does, done as a maker would: by what stands on the page.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import type { Browser, Locator, Page } from 'playwright-core';
import { go, open_browser, open_desk, open_page, settled, type Desk } from './chromium.ts';

let browser: Browser;
before(async () => {
  browser = await open_browser();
});
after(async () => {
  await browser?.close();
});

type Flow = (page: Page, desk: Desk) => Promise<void>;
interface Needs { mock?: boolean; empty?: boolean; complaints?: RegExp }

/** A test with a desk and a page of its own. Nothing may be complained about but what is named. */
function flow(name: string, steps: Flow, needs: Needs = {}): void {
  const skip = needs.mock && process.env.QUOIN_DESK ? 'needs the stand-in' : false;
  test(name, { skip }, async () => {
    const desk = await open_desk({ empty: needs.empty ?? false });
    const { page, context, complaints } = await open_page(browser, desk.address);
    try {
      await steps(page, desk);
      const expected = needs.complaints;
      assert.deepEqual(complaints.filter((one) => !expected?.test(one)), []);
    } finally {
      await context.close();
      desk.stop();
    }
  });
}

async function eventually(what: () => Promise<unknown>, expected: unknown): Promise<void> {
  let last: unknown;
  for (let tries = 0; tries < 100; tries++) {
    last = await what();
    if (last === expected) return;
    await new Promise((done) => setTimeout(done, 100));
  }
  assert.equal(last, expected);
}
const text_of = (place: Locator) => async () => (await place.innerText()).trim();
const cell = (page: Page, row: number, column: number) =>
  page.locator(`[role=row][aria-rowindex="${row + 2}"] [role=gridcell]`).nth(column);
const view = (page: Page, name: string) =>
  page.getByRole('navigation').getByRole('link', { name, exact: true }).click();

flow('the token leaves the address', async (page) => {
  assert.equal(new URL(page.url()).hash.includes('token'), false);
  await page.reload();
  await page.getByRole('navigation').waitFor();
});

flow('a cell is edited in place, and undone with its name', async (page) => {
  await view(page, 'List');
  const name = cell(page, 0, 4);
  await name.click();
  const before = (await name.innerText()).trim();
  await page.keyboard.press('Enter');
  await page.getByRole('textbox', { name: /^name of/ }).fill('Rough Periwinkle');
  await page.keyboard.press('Enter');
  await eventually(text_of(name), 'Rough Periwinkle');
  const undo = page.getByRole('button', { name: /^Undo: name of/ });
  await undo.waitFor();
  await page.keyboard.press('Control+z');
  await eventually(text_of(name), before);
  await page.keyboard.press('Control+Shift+z');
  await eventually(text_of(name), 'Rough Periwinkle');
  await page.keyboard.press('Control+z');
  await eventually(text_of(name), before);
});

flow('Esc leaves a cell as it was; Tab goes on; arrows walk', async (page) => {
  await view(page, 'List');
  await cell(page, 1, 4).click();
  const before = (await cell(page, 1, 4).innerText()).trim();
  await page.keyboard.type('x');
  await page.getByRole('textbox', { name: /^name of/ }).fill('Something else');
  await page.keyboard.press('Escape');
  assert.equal((await cell(page, 1, 4).innerText()).trim(), before);
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('ArrowLeft');
  assert.equal(await cell(page, 2, 3).getAttribute('aria-selected'), 'true');
  await page.keyboard.press('F2');
  await page.keyboard.press('Tab');
  assert.equal(await cell(page, 2, 4).getAttribute('aria-selected'), 'true');
});

flow('changing copies changes the totals', async (page) => {
  await view(page, 'List');
  const totals = page.getByRole('status').filter({ hasText: 'in the deck' });
  const before = Number(/(\d+) in the deck/.exec(await totals.innerText())?.[1]);
  const head = await page.getByRole('columnheader').allInnerTexts();
  const copies = head.indexOf('copies') - 1;
  const had = Number((await cell(page, 0, copies).innerText()).trim() || '1');
  await cell(page, 0, copies).click();
  await page.keyboard.type(String(had + 3));
  await page.keyboard.press('Enter');
  await eventually(async () =>
    Number(/(\d+) in the deck/.exec(await totals.innerText())?.[1]), before + 3);
  await page.keyboard.press('Control+z');
  await eventually(async () =>
    Number(/(\d+) in the deck/.exec(await totals.innerText())?.[1]), before);
});

flow('a block from a spreadsheet goes into its cells as one step', async (page) => {
  await view(page, 'List');
  await cell(page, 3, 4).click();
  const before = await Promise.all([cell(page, 3, 4), cell(page, 4, 5)].map((c) => c.innerText()));
  await page.evaluate(() => {
    const data = new DataTransfer();
    data.setData('text/plain', 'Sword Shell\tEnsis ensis\nDog Whelk\t"Nucella\nlapillus"\n');
    document.activeElement?.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }));
  });
  await eventually(text_of(cell(page, 3, 4)), 'Sword Shell');
  await eventually(async () => (await cell(page, 4, 5).innerText()).includes('lapillus'), true);
  await page.getByRole('button', { name: 'Undo: pasting 4 cells' }).click();
  await eventually(text_of(cell(page, 3, 4)), before[0]?.trim());
  await eventually(text_of(cell(page, 4, 5)), before[1]?.trim());
});

flow('rows are added, copied, moved and removed', async (page) => {
  await view(page, 'List');
  const grid = page.getByRole('grid');
  const rows = async () => Number(await grid.getAttribute('aria-rowcount')) - 1;
  const before = await rows();
  await cell(page, 2, 0).click();
  const id = (await cell(page, 2, 0).innerText()).trim();
  await page.getByRole('button', { name: 'Copy', exact: true }).click();
  await eventually(rows, before + 1);
  await cell(page, 2, 0).click();
  await page.keyboard.press('Alt+ArrowUp');
  await eventually(text_of(cell(page, 1, 0)), id);
  await page.keyboard.press('Control+z');
  await eventually(text_of(cell(page, 2, 0)), id);
  await cell(page, 3, 0).click();
  await page.getByRole('button', { name: 'Remove' }).click();
  await eventually(rows, before);
  await page.getByRole('button', { name: 'New card' }).click();
  await eventually(rows, before + 1);
  await page.keyboard.press('Control+z');
  await eventually(rows, before);
});

flow('a row is dragged to another place', async (page) => {
  await view(page, 'List');
  const id = (await cell(page, 0, 0).innerText()).trim();
  const grip = page.getByRole('rowheader').first();
  const from = await grip.boundingBox();
  const target = await cell(page, 3, 0).boundingBox();
  assert.ok(from && target);
  await page.mouse.move(from.x + 12, from.y + 10);
  await page.mouse.down();
  await page.mouse.move(from.x + 12, target.y + 10, { steps: 5 });
  await page.mouse.up();
  await eventually(text_of(cell(page, 3, 0)), id);
  await page.keyboard.press('Control+z');
  await eventually(text_of(cell(page, 0, 0)), id);
});

flow('a problem is marked at its cell and leads there', async (page) => {
  await view(page, 'List');
  const head = await page.getByRole('columnheader').allInnerTexts();
  const copies = head.indexOf('copies') - 1;
  await cell(page, 5, copies).click();
  await page.keyboard.type('three');
  await page.keyboard.press('Enter');
  await page.getByText('stops the print').first().waitFor();
  await view(page, 'Table');
  await page.getByRole('button', { name: /See all/ }).click();
  await page.getByRole('link', { name: /Go to .*copies/ }).click();
  await eventually(async () => cell(page, 5, copies).getAttribute('aria-selected'), 'true');
  assert.match((await cell(page, 5, copies).getAttribute('title')) ?? '', /three/);
  await page.keyboard.press('Control+z');
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
  const filter = await shown.first().locator('img').evaluate((i) => getComputedStyle(i).filter);
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
  const shown = await stage.getByRole('img', { name: first, includeHidden: true }).boundingBox();
  assert.equal(Math.round(shown?.width ?? 0), 254); // 63.5 mm at 4 pixels each
  await stage.getByRole('button', { name: 'The card after' }).click();
  assert.notEqual(await stage.getByRole('heading').first().innerText(), first);
});

flow('an element is moved with keys, and one step takes it back', async (page) => {
  await go(page, 'layout');
  const list = page.getByRole('region', { name: 'Elements' });
  await list.getByRole('button', { name: 'name' }).first().click();
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

flow('an element is dragged, holds on to the safe area, and is undone in one step', async (page) => {
  await go(page, 'layout');
  await page.getByRole('region', { name: 'Elements' }).getByRole('button', { name: 'name' }).first()
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
});

flow('a text is put on the card, worded, and taken off', async (page) => {
  await go(page, 'layout');
  const list = page.getByRole('region', { name: 'Elements' });
  const before = await list.getByRole('listitem').count();
  await page.getByRole('group', { name: 'Put on the card' }).getByRole('button', { name: 'Text' })
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
  await page.getByRole('region', { name: 'Elements' }).getByRole('button', { name: 'name' }).first()
    .click();
  const width = page.getByRole('textbox', { name: /^Width/ });
  const before = await width.inputValue();
  await width.fill('-4');
  await width.press('Enter');
  assert.equal(await width.getAttribute('aria-invalid'), 'true');
  await width.press('Escape');
  assert.equal(await width.inputValue(), before);
});

flow('sheets are shown from both sides and against the light', async (page) => {
  await view(page, 'Sheets');
  await page.getByRole('img', { name: 'Sheet 1, front' }).waitFor();
  await page.getByRole('button', { name: 'Back', exact: true }).click();
  await page.getByRole('img', { name: 'Sheet 1, back' }).waitFor();
  await page.getByRole('button', { name: 'Against the light' }).click();
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

flow('what is typed while the desk is away arrives when it is back', async (page, desk) => {
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
}, { mock: true, complaints: /ERR_|Failed to load/ });

flow('a refused edit says why and what to do', async (page) => {
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
}, { mock: true, complaints: /422/ });

flow('both values of a conflict are shown, and one is kept', async (page, desk) => {
  desk.mock.game.conflicts = [{
    id: 'c1', label: 'name of shell-1', file: 'cards.csv', mine: 'Rough Periwinkle',
    theirs: 'Edible Periwinkle', place: { file: 'cards.csv', line: 2, column: 14, length: 4 },
  }];
  await page.reload();
  const dialog = page.getByRole('dialog', { name: 'Changed in two places' });
  await dialog.getByText('Rough Periwinkle').waitFor();
  await dialog.getByText('Edible Periwinkle').waitFor();
  await dialog.getByRole('button', { name: 'Keep theirs' }).click();
  await dialog.waitFor({ state: 'hidden' });
  assert.equal(desk.mock.game.conflicts.length, 0);
}, { mock: true });

flow('a first game begins from pictures', async (page) => {
  await page.getByRole('heading', { name: 'A game begins here' }).waitFor();
  await page.getByLabel('What the game is called').fill('Reef');
  const file = (name: string) => ({ name, mimeType: 'image/png', buffer: Buffer.from('png') });
  await page.locator('input[type=file]').setInputFiles([file('01-crab.png'), file('back.png')]);
  await page.getByText('2 pictures').waitFor();
  await page.getByRole('button', { name: 'Make a game of them' }).click();
  await page.getByRole('navigation').waitFor();
}, { mock: true, empty: true });

flow('a term is explained on focus and Esc closes it', async (page) => {
  await view(page, 'Box');
  const term = page.getByRole('button', { name: 'Clearance', exact: true });
  await term.focus();
  const words = page.getByRole('tooltip').filter({ hasText: 'between the deck' });
  await words.waitFor({ state: 'visible' });
  await page.keyboard.press('Escape');
  await words.waitFor({ state: 'hidden' });
});
