// The list: what a maker does with its cells and rows.

import assert from 'node:assert/strict';
import { cell, eventually, flow, text_of, view } from './flow.ts';

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
  await eventually(
    async () => Number(/(\d+) in the deck/.exec(await totals.innerText())?.[1]),
    before + 3,
  );
  await page.keyboard.press('Control+z');
  await eventually(
    async () => Number(/(\d+) in the deck/.exec(await totals.innerText())?.[1]),
    before,
  );
});

flow('a block from a spreadsheet goes into its cells as one step', async (page) => {
  await view(page, 'List');
  await cell(page, 3, 4).click();
  const before = await Promise.all([cell(page, 3, 4), cell(page, 4, 5)].map((c) => c.innerText()));
  await page.evaluate(() => {
    const data = new DataTransfer();
    data.setData('text/plain', 'Sword Shell\tEnsis ensis\nDog Whelk\t"Nucella\nlapillus"\n');
    document.activeElement?.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
    );
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
