// The rules: written on the left, set and folded on the right; what the files hold then.

import assert from 'node:assert/strict';
import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { decoded } from './chromium.ts';
import { eventually, file_of, flow, on_disk, same_on_disk } from './flow.ts';

const FILE = 'rules.md';
const at = 'rules';
const text = (page: Page) => page.getByRole('textbox', { name: 'Text of the rules' });
const written = (page: Page) => page.getByText(`Written to ${FILE}`);
const caption = (page: Page) => page.locator('.chooser [role=status]').innerText();

flow(
  'typing is written to the file, set on the pages, and taken back',
  { at, only: 'real' },
  async (page, { desk }) => {
    const before = file_of(desk, FILE);
    await text(page).waitFor();
    await written(page).waitFor();
    const first = page.getByRole('img', { name: 'Page 1 of the rules' });
    const shown = await first.getAttribute('src');
    await text(page).focus();
    await page.keyboard.press('Control+Home');
    await page.keyboard.press('End');
    await page.keyboard.insertText(' again');
    await on_disk(desk, FILE, '# {game.title} again\n');
    await eventually(async () => (await first.getAttribute('src')) !== shown, true);
    await decoded(first);
    await page.getByRole('button', { name: /^Undo: writing the rules/ }).click();
    await same_on_disk(desk, FILE, before);
    await eventually(() => text(page).inputValue(), before);
  },
);

flow(
  'a card, a symbol and a number are put in where the caret is',
  { at, only: 'real' },
  async (page, { desk }) => {
    await text(page).waitFor();
    await written(page).waitFor();
    await text(page).focus();
    await page.keyboard.press('Control+End');
    await page
      .getByRole('combobox', { name: 'Put a card into the text' })
      .selectOption('{card:bird-7}');
    await page.getByRole('combobox', { name: 'Put a symbol into the text' }).selectOption('[sea]');
    await page
      .getByRole('combobox', { name: 'Put a number of cards into the text' })
      .selectOption('{count}');
    await on_disk(desk, FILE, '{card:bird-7}[sea]{count}');
  },
);

flow('what is wrong is told at its line, and leads there', { at, only: 'real' }, async (page) => {
  await text(page).waitFor();
  await written(page).waitFor();
  await text(page).fill('# Short\n\nA {card:shel-3} and {count:suit=shell is 14}.\n');
  const found = page.getByRole('list', { name: 'Found in the text' }).getByRole('button');
  await eventually(() => found.count(), 2);
  assert.match(await found.first().innerText(), /Line 3.*There is no card shel-3/s);
  assert.match(await found.first().innerText(), /card:shell-3/);
  await found.first().click();
  const chosen = await text(page).evaluate((field) => {
    const { selectionStart, selectionEnd, value } = field as HTMLTextAreaElement;
    return value.slice(selectionStart, selectionEnd);
  });
  assert.match(chosen, /^A \{card:shel-3\}/);
});

flow(
  'the form is chosen by hand, and by itself again',
  { at, only: 'real' },
  async (page, { desk }) => {
    await eventually(async () => /An accordion of 4 panels/.test(await caption(page)), true);
    const game = file_of(desk, 'game.toml');
    const form = page.getByRole('combobox', { name: 'Form' });
    await form.selectOption('eight-pages');
    await on_disk(desk, 'game.toml', 'form = "eight-pages"');
    await eventually(async () => /One sheet with a slit/.test(await caption(page)), true);
    await page.getByRole('button', { name: 'Folding' }).click();
    await page.getByText('cut the slit along the dashed line', { exact: false }).waitFor();
    await page.getByRole('button', { name: 'On paper' }).click();
    await page.getByRole('img', { name: 'The front of the sheet' }).waitFor();
    await form.selectOption('');
    await same_on_disk(desk, 'game.toml', game);
    await page.getByText('Why this form').click();
    await page.getByText('Too few pages.').first().waitFor();
  },
);

flow(
  'what another program writes elsewhere in the text stays',
  { at, only: 'real' },
  async (page, { desk }) => {
    await text(page).waitFor();
    await written(page).waitFor();
    const before = file_of(desk, FILE);
    await text(page).focus();
    await page.keyboard.press('Control+Home');
    await page.keyboard.press('End');
    await page.keyboard.insertText(' one');
    const path = join(desk.real!.folder, FILE);
    writeFileSync(path, before.replace('For a gentler day', 'For a calmer day'));
    await on_disk(desk, FILE, '# {game.title} one\n');
    await on_disk(desk, FILE, 'For a calmer day');
    await eventually(
      async () => (await text(page).inputValue()).includes('For a calmer day'),
      true,
    );
    assert.match(await text(page).inputValue(), /title\} one/);
  },
);

const without = (folder: string) => rmSync(join(folder, FILE));
flow(
  'rules are begun with one button',
  { at, only: 'real', prepare: without },
  async (page, { desk }) => {
    await page.getByRole('button', { name: 'Begin the rules' }).click();
    await eventually(async () => (await text(page).inputValue()).includes('## Your turn'), true);
    await on_disk(desk, FILE, '## Your turn');
    await page.getByRole('img', { name: 'Page 1 of the rules' }).waitFor();
  },
);
