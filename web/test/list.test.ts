// The list: what a maker does with its cells and rows, and what the file holds then.

import assert from 'node:assert/strict';
import type { Page } from 'playwright-core';
import {
  cell,
  eventually,
  file_of,
  flow,
  on_disk,
  same_on_disk,
  text_of,
  type_cell,
  view,
} from './flow.ts';

const LIST = 'cards.csv';

async function column_of(page: Page, name: string): Promise<number> {
  await page.getByRole('columnheader').nth(1).waitFor();
  return (await page.getByRole('columnheader').allInnerTexts()).indexOf(name) - 1;
}
const in_deck = async (page: Page) => {
  const totals = page.getByRole('status').filter({ hasText: 'in the deck' });
  return Number(/(\d+) in the deck/.exec(await totals.innerText())?.[1]);
};

flow('a cell is edited in place, and undone with its name', {}, async (page, { desk }) => {
  const name = cell(page, 0, 4);
  await name.click();
  const before = (await name.innerText()).trim();
  const file = file_of(desk, LIST);
  await type_cell(page, 0, 4, 'Rough, "very" Periwinkle');
  await eventually(text_of(name), 'Rough, "very" Periwinkle');
  await on_disk(desk, LIST, 'shell-1,find,shell,1,"Rough, ""very"" Periwinkle",Littorina');
  await page.getByRole('button', { name: /^Undo: name of/ }).waitFor();
  await page.keyboard.press('Control+z');
  await eventually(text_of(name), before);
  await same_on_disk(desk, LIST, file);
  await page.keyboard.press('Control+Shift+z');
  await eventually(text_of(name), 'Rough, "very" Periwinkle');
  await page.keyboard.press('Control+z');
  await same_on_disk(desk, LIST, file);
});

flow('Esc leaves a cell as it was; Tab goes on; arrows walk', {}, async (page) => {
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

flow('changing copies changes the totals and the sheets', {}, async (page, { desk }) => {
  const copies = await column_of(page, 'copies');
  const before = await in_deck(page);
  const file = file_of(desk, LIST);
  const had = Number((await cell(page, 0, copies).innerText()).trim() || '1');
  await cell(page, 0, copies).click();
  await page.keyboard.type(String(had + 12));
  await page.keyboard.press('Enter');
  await eventually(() => in_deck(page), before + 12);
  await on_disk(desk, LIST, `periwinkle.svg,${had + 12},`);
  const totals = page.getByRole('status').filter({ hasText: 'in the deck' });
  await eventually(async () => /\b10\s+sheets/.test(await totals.innerText()), true);
  await page.keyboard.press('Control+z');
  await eventually(() => in_deck(page), before);
  await same_on_disk(desk, LIST, file);
});

flow('a block from a spreadsheet goes into its cells as one step', {}, async (page, { desk }) => {
  await cell(page, 3, 4).click();
  const file = file_of(desk, LIST);
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
  await on_disk(desk, LIST, 'Sword Shell,Ensis ensis,');
  await on_disk(desk, LIST, 'Dog Whelk,"Nucella\nlapillus",');
  await page.getByRole('button', { name: 'Undo: pasting 4 cells' }).click();
  await eventually(text_of(cell(page, 3, 4)), before[0]?.trim());
  await eventually(text_of(cell(page, 4, 5)), before[1]?.trim());
  await same_on_disk(desk, LIST, file);
});

flow('rows are added, copied, moved and removed', {}, async (page, { desk }) => {
  const grid = page.getByRole('grid');
  const rows = async () => Number(await grid.getAttribute('aria-rowcount')) - 1;
  await cell(page, 2, 0).click();
  const before = await rows();
  const file = file_of(desk, LIST);
  const lines = () => file_of(desk, LIST).trimEnd().split('\n').length;
  const had = lines();
  const id = (await cell(page, 2, 0).innerText()).trim();
  await page.getByRole('button', { name: 'Copy', exact: true }).click();
  await eventually(rows, before + 1);
  if (desk.real) await eventually(lines, had + 1);
  await cell(page, 2, 0).click();
  await page.keyboard.press('Alt+ArrowUp');
  await eventually(text_of(cell(page, 1, 0)), id);
  await on_disk(desk, LIST, /\nshell-1,.*\nshell-3,.*\nshell-2,/);
  await page.keyboard.press('Control+z');
  await eventually(text_of(cell(page, 2, 0)), id);
  await cell(page, 3, 0).click();
  await page.getByRole('button', { name: 'Remove' }).click();
  await eventually(rows, before);
  await same_on_disk(desk, LIST, file);
  await page.getByRole('button', { name: 'New card' }).click();
  await eventually(rows, before + 1);
  if (desk.real) await eventually(lines, had + 1);
  await page.keyboard.press('Control+z');
  await eventually(rows, before);
  await same_on_disk(desk, LIST, file);
});

flow('a row is dragged to another place', {}, async (page, { desk }) => {
  await cell(page, 3, 0).waitFor();
  const file = file_of(desk, LIST);
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
  await on_disk(desk, LIST, /\nshell-4,.*\nshell-1,/);
  await page.keyboard.press('Control+z');
  await eventually(text_of(cell(page, 0, 0)), id);
  await same_on_disk(desk, LIST, file);
});

flow('a problem is marked at its cell and leads there', {}, async (page, { desk }) => {
  const copies = await column_of(page, 'copies');
  const file = file_of(desk, LIST);
  await type_cell(page, 5, copies, 'three');
  await page.getByText('stops the print').first().waitFor();
  await view(page, 'Sheets');
  await page.getByRole('button', { name: /See all/ }).click();
  await page.getByRole('link', { name: /Go to .*copies/ }).click();
  await eventually(async () => cell(page, 5, copies).getAttribute('aria-selected'), 'true');
  assert.match((await cell(page, 5, copies).getAttribute('title')) ?? '', /three/);
  await on_disk(desk, LIST, 'scallop.svg,three,');
  await page.keyboard.press('Control+z');
  await same_on_disk(desk, LIST, file);
});

flow(
  'a row that another program moves while its cell is edited still gets the words',
  { only: 'real' },
  async (page, { desk }) => {
    await cell(page, 1, 4).click();
    await page.keyboard.press('Enter');
    const words = page.getByRole('textbox', { name: 'name of shell-2' });
    await words.fill('Edible Cockle');
    const [head = '', first = '', ...rest] = desk.real?.read(LIST).split('\n') ?? [];
    const other = first.replace('shell-1,', 'shell-0,');
    desk.real?.write(LIST, [head, other, first, ...rest].join('\n'));
    await eventually(text_of(cell(page, 0, 0)), 'shell-0');
    await page.locator('[role=gridcell] textarea').press('Enter');
    await on_disk(desk, LIST, 'shell-2,find,shell,2,Edible Cockle,');
    await on_disk(desk, LIST, 'shell-1,find,shell,1,Flat Periwinkle,');
  },
);
