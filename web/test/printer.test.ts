// Getting to know a printer: read by eye, by scans, kept, chosen.

import assert from 'node:assert/strict';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { eventually, file_of, flow, off_disk, on_disk, same_on_disk, view } from './flow.ts';
import {
  even,
  fill_sheet,
  measure,
  photograph,
  profile_file,
  scale_field,
  scans_of,
  show_sheet,
  step,
} from './printer.ts';

const REFUSED = /status of 4(09|10|15|22)/;
const heading = (page: Page, name: string) => page.getByRole('heading', { name, exact: true });
const next = (page: Page, name: string) =>
  page.getByRole('link', { name: `Next: ${name}` }).click();
const words_found = (page: Page) => page.getByRole('listitem').filter({ hasText: 'Backs lie' });

async function tell_printer(page: Page, name: string): Promise<void> {
  await page.getByRole('link', { name: 'Measure a printer' }).first().click();
  await page.getByRole('textbox', { name: 'What you call it' }).fill(name);
  await page.getByRole('textbox', { name: 'Tray' }).fill('bypass');
  await eventually(() => page.getByRole('combobox', { name: 'Paper' }).inputValue(), 'A4');
}

flow(
  'a printer is measured by eye on three sheets, kept with the game and used; undo takes it back',
  { at: 'printer', only: 'real' },
  async (page, { desk }) => {
    const before = file_of(desk, 'game.toml');
    await heading(page, 'No printer was measured yet').waitFor();
    await tell_printer(page, 'Laser in the study');
    await page.getByRole('radio', { name: 'Inkjet' }).check();
    await next(page, 'Print the sheet');
    const save = page.getByRole('link', { name: 'Save the measuring sheet' });
    const [download] = await Promise.all([page.waitForEvent('download'), save.click()]);
    assert.equal(download.suggestedFilename(), 'measuring-sheet-A4.pdf');
    assert.equal(
      readFileSync(await download.path())
        .subarray(0, 5)
        .toString(),
      '%PDF-',
    );
    await next(page, 'Read it');
    const bars: [string, string] = ['149,8', '7 7/8 in'];
    await fill_sheet(page, 1, { letter: 'E', scales: even('3', '−2'), bars });
    await fill_sheet(page, 2, { scales: even('4', '-3') });
    // Back and forth, and the page loaded anew: nothing that was written is lost.
    await step(page, 'The printer');
    await eventually(
      () => page.getByRole('textbox', { name: 'What you call it' }).inputValue(),
      'Laser in the study',
    );
    await page.reload();
    await step(page, 'Read it');
    await eventually(() => scale_field(page, 2).inputValue(), '−2');
    await fill_sheet(page, 3, { scales: even('5', '-1 or -2') });
    await measure(page);
    await heading(page, 'In words').waitFor();
    await words_found(page).filter({ hasText: '0.20 mm to the right and 0.11 mm up' }).waitFor();
    await page.getByText('Single sheets stray by 0.05 mm across').waitFor();
    await page.getByRole('img', { name: /^The sheet, seen from the front/ }).waitFor();
    await page.getByRole('img', { name: /^Not corrected: top left/ }).waitFor();
    await page.getByRole('combobox', { name: 'Which sheet' }).selectOption('Sheet 3');
    await page.getByText('What is left is how this sheet strays from the mean.').waitFor();
    await next(page, 'Keep it');
    await page.getByRole('button', { name: 'Keep the printer' }).click();
    await page
      .getByRole('status')
      .filter({ hasText: 'printers/laser-in-the-study.toml' })
      .waitFor();
    await on_disk(desk, 'printers/laser-in-the-study.toml', 'name = "Laser in the study"');
    await on_disk(desk, 'printers/laser-in-the-study.toml', 'tray = "bypass"');
    await on_disk(desk, 'printers/laser-in-the-study.toml', 'sheets = 3');
    await on_disk(desk, 'game.toml', 'profile = "laser-in-the-study"');
    await on_disk(desk, 'game.toml', 'kind = "inkjet"');
    await view(page, 'Sheets');
    await page.getByText('Printer: laser-in-the-study; backs drawn').waitFor();
    await page.getByRole('button', { name: 'Undo: print for Laser in the study' }).click();
    await same_on_disk(desk, 'game.toml', before);
    assert.ok(existsSync(join(desk.real?.folder ?? '', 'printers/laser-in-the-study.toml')));
    await view(page, 'Printer');
    await page.getByRole('button', { name: 'Print this game for it' }).waitFor();
  },
);

flow(
  'a printer is measured by scans of both sides, with the edges of the paper, and kept for all games',
  { at: 'printer/new/about', only: 'real', complaints: REFUSED },
  async (page, { desk }) => {
    await page.getByRole('textbox', { name: 'What you call it' }).fill('Press');
    await next(page, 'Print the sheet');
    const save = page.getByRole('link', { name: 'Save the measuring sheet' });
    const [download] = await Promise.all([page.waitForEvent('download'), save.click()]);
    const pdf = readFileSync(await download.path());
    // 1.02 mm to the left on the back is 1.02 mm to the right behind the front.
    const [front, back] = scans_of(pdf, { across: -1.016, down: 0.677 });
    await next(page, 'Read it');
    await page.getByRole('button', { name: 'With a scanner' }).click();
    const choose = (side: string, buffer: Buffer) =>
      page
        .getByLabel(`${side} of sheet 1`, { exact: true })
        .locator('input[type=file]')
        .setInputFiles({ name: `${side}.png`, mimeType: 'image/png', buffer });
    await choose('Front', back);
    await choose('Back', front);
    await measure(page);
    await page
      .getByText('One picture is to be put right', { exact: false })
      .or(page.getByText('2 things are to be put right', { exact: false }))
      .waitFor();
    const slot = page.getByRole('region', { name: 'Front of sheet 1' });
    await slot.getByText(/shows the back/).waitFor();
    await choose('Front', front);
    await choose('Back', back);
    await measure(page);
    const line = await words_found(page).innerText();
    const found = /lie ([0-9.]+) mm to the right and ([0-9.]+) mm down/.exec(line);
    // The corners of the pictures' paper lie to half a pixel of 0.17 mm.
    assert.ok(Math.abs(Number(found?.[1]) - 1.016) < 0.09, line);
    assert.ok(Math.abs(Number(found?.[2]) - 0.677) < 0.09, line);
    await page.getByText('by the edges of the paper, known to', { exact: false }).waitFor();
    await page.getByText('The size of fronts was not measured', { exact: false }).waitFor();
    await next(page, 'Keep it');
    await page.getByRole('radio', { name: /on this computer/ }).check();
    await page.getByRole('checkbox', { name: 'Print this game for it' }).uncheck();
    await page.getByRole('button', { name: 'Keep the printer' }).click();
    await page.getByRole('status').filter({ hasText: 'press.toml' }).waitFor();
    const machine = join(desk.real?.machine ?? '', 'quoin/printers/press.toml');
    assert.match(readFileSync(machine, 'utf8'), /how = "scans"/);
    assert.doesNotMatch(file_of(desk, 'game.toml'), /profile/);
    assert.equal(existsSync(join(desk.real?.folder ?? '', 'printers')), false);
    // Once more under the same name: the one that is there gives way only when it is told to.
    await step(page, 'What was found');
    await next(page, 'Keep it');
    await page.getByRole('radio', { name: /on this computer/ }).check();
    await page.getByRole('button', { name: 'Keep the printer' }).click();
    await page.getByRole('alert').filter({ hasText: 'kept there already' }).waitFor();
    await page.getByRole('button', { name: 'Let the earlier one give way' }).click();
    await page.getByRole('status').filter({ hasText: 'press.toml' }).waitFor();
    await on_disk(desk, 'game.toml', 'profile = "press"');
  },
);

flow(
  'wrong readings are refused at their fields with their remedies, and nothing is lost',
  { at: 'printer/new/read', only: 'real', complaints: REFUSED },
  async (page) => {
    await scale_field(page, 1).waitFor();
    const scales = even('3', '-2');
    scales[1] = 'three';
    scales[2] = '12:-9';
    scales[6] = '';
    await fill_sheet(page, 1, { scales, bars: ['5.9', '20 cm'] });
    await fill_sheet(page, 2, { scales: even('3', '-2') });
    await show_sheet(page, 2);
    await measure(page);
    // The page shows the sheet that is wrong, and goes to the first field of it.
    await page.getByText('5 things are to be put right', { exact: false }).waitFor();
    const told = (name: string, words: string) =>
      page
        .locator('.one')
        .filter({ has: page.getByLabel(name) })
        .getByText(words)
        .waitFor();
    await told('150 mm bar', 'For inches write 5.9in.');
    await told('Behind A lies', 'The letter behind A was not given.');
    await told('(2) down', 'no line of it');
    await told('(3) across', '20.55 mm off');
    await told('(7) across', 'Scale (7) was not read.');
    const focused = () => page.evaluate(() => document.activeElement?.getAttribute('aria-invalid'));
    await eventually(focused, 'true');
    await eventually(() => scale_field(page, 2).inputValue(), 'three');
    // What is put right is no longer marked, one by one.
    await page.getByRole('textbox', { name: '150 mm bar' }).fill('5.9in');
    await page.getByText('4 things are to be put right', { exact: false }).waitFor();
    await page.getByLabel('Behind A lies').selectOption('E');
    await scale_field(page, 2).fill('-2');
    await scale_field(page, 3).fill('4:3');
    await scale_field(page, 7).fill('3');
    await measure(page);
    // Now they are understood, and do not go together.
    await page.getByText('do not go with a flat sheet', { exact: false }).waitFor();
    await eventually(() => page.locator('input[aria-invalid=true]').count(), 4);
    await scale_field(page, 3).fill('3');
    await eventually(() => page.locator('input[aria-invalid=true]').count(), 0);
    await measure(page);
    await words_found(page).filter({ hasText: '0.15 mm to the right' }).waitFor();
    // G behind A: turned about the other edge.
    await step(page, 'Read it');
    await page.getByLabel('Behind A lies').selectOption('G');
    await measure(page);
    await page.getByText('with a sheet made to be turned about the short edge').waitFor();
  },
);

flow(
  'a photograph of something else and what is no picture are refused with what to do',
  { at: 'printer/new/read', only: 'real', complaints: REFUSED },
  async (page) => {
    await page.getByRole('button', { name: 'With a scanner' }).click();
    const slot = (side: string) => page.getByRole('region', { name: `${side} of sheet 1` });
    const choose = (side: string, name: string, mimeType: string, buffer: Buffer) =>
      slot(side).locator('input[type=file]').setInputFiles({ name, mimeType, buffer });
    await choose('Front', 'letter.png', 'image/png', Buffer.from('no picture'));
    await slot('Front').getByRole('alert').waitFor();
    assert.equal(await page.getByRole('button', { name: 'See what' }).isDisabled(), true);
    // Two pictures dropped together are the front and the back.
    const dropped = await page.evaluateHandle((text) => {
      const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
      const data = new DataTransfer();
      for (const name of ['holiday.png', 'holiday-2.png']) {
        data.items.add(new File([bytes], name, { type: 'image/png' }));
      }
      return data;
    }, photograph().toString('base64'));
    await slot('Front').dispatchEvent('dragover', { dataTransfer: dropped });
    await slot('Front').dispatchEvent('drop', { dataTransfer: dropped });
    await slot('Back').getByText('holiday-2.png').waitFor();
    await measure(page);
    for (const side of ['Front', 'Back']) {
      await slot(side)
        .getByText(/measuring sheet/)
        .first()
        .waitFor();
      await slot(side)
        .getByText(/holiday/)
        .waitFor();
    }
    await slot('Back').getByRole('button', { name: 'Without the picture of the back' }).click();
    await slot('Back').getByText('Drop the picture here').waitFor();
    await slot('Front')
      .getByText(/measuring sheet/)
      .first()
      .waitFor();
  },
);

const two_shelves = (folder: string, machine: string): void => {
  mkdirSync(join(folder, 'printers'));
  mkdirSync(join(machine, 'quoin/printers'), { recursive: true });
  writeFileSync(join(folder, 'printers/study.toml'), profile_file('Study'));
  writeFileSync(join(folder, 'printers/torn.toml'), 'name =\n');
  const shop = profile_file('Copy shop', 'flip = "short-edge"\n');
  writeFileSync(join(machine, 'quoin/printers/copy-shop.toml'), shop);
};

flow(
  'one of several printers is chosen for the game, another, and none',
  { at: 'printer', only: 'real', prepare: two_shelves },
  async (page, { desk }) => {
    const before = file_of(desk, 'game.toml');
    const list = page.getByRole('navigation', { name: 'Printers that were measured' });
    await list.getByRole('link', { name: /Study/ }).click();
    await page
      .getByText('Backs lie 0.62 mm to the right and 0.35 mm up', { exact: false })
      .waitFor();
    await page.getByText('read by eye, 3 sheets', { exact: false }).waitFor();
    await page.getByRole('button', { name: 'Print this game for it' }).click();
    await on_disk(desk, 'game.toml', 'profile = "study"');
    await list.getByText('in use').waitFor();
    await list.getByRole('link', { name: /Copy shop/ }).click();
    await page.getByText('turned its sheets about the short edge', { exact: false }).waitFor();
    await page.getByRole('button', { name: 'Print this game for it' }).click();
    await on_disk(desk, 'game.toml', 'profile = "copy-shop"');
    await page.getByText('This game is printed for it').waitFor();
    await page.getByRole('button', { name: 'Print for no printer' }).click();
    await off_disk(desk, 'game.toml', 'profile');
    await list.getByRole('link', { name: /torn/ }).click();
    await page.getByText('Its file cannot be read:').waitFor();
    assert.equal(
      await page.getByRole('button', { name: 'Print this game for it' }).isDisabled(),
      true,
    );
    for (let steps = 0; steps < 3; steps++) {
      const undo = page.getByRole('button', { name: /^Undo: print for/ });
      await undo.click();
      await page.waitForTimeout(300);
    }
    await same_on_disk(desk, 'game.toml', before);
  },
);

flow(
  'a printer is measured and kept by keyboard alone',
  { at: 'printer/new/about', only: 'real' },
  async (page, { desk }) => {
    const focused = () =>
      page.evaluate(() => {
        const one = document.activeElement as HTMLInputElement | null;
        const label = one?.labels?.[0]?.innerText ?? one?.getAttribute('aria-label');
        return (label ?? one?.innerText ?? '').trim();
      });
    const tab_to = async (name: RegExp) => {
      for (let steps = 0; steps < 80; steps++) {
        await page.keyboard.press('Tab');
        if (name.test(await focused())) return;
      }
      assert.fail(`Tab never comes to ${name}`);
    };
    await page.getByRole('textbox', { name: 'What you call it' }).waitFor();
    await tab_to(/^What you call it/);
    await page.keyboard.type('By keys');
    await tab_to(/^Next: Print the sheet/);
    await page.keyboard.press('Enter');
    await page.getByRole('link', { name: 'Save the measuring sheet' }).waitFor();
    await tab_to(/^Next: Read it/);
    await page.keyboard.press('Enter');
    await scale_field(page, 1).waitFor();
    await tab_to(/^Behind A lies/);
    await page.keyboard.type('E');
    for (let number = 1; number <= 8; number++) {
      await tab_to(new RegExp(`^\\(${number}\\)`));
      await page.keyboard.type(number % 2 === 1 ? '2' : '-4');
    }
    await page.keyboard.press('Enter');
    await words_found(page).filter({ hasText: '0.10 mm to the right and 0.20 mm up' }).waitFor();
    await tab_to(/^Next: Keep it/);
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Keep the printer' }).waitFor();
    await tab_to(/^Keep the printer/);
    await page.keyboard.press('Enter');
    await page.getByRole('status').filter({ hasText: 'printers/by-keys.toml' }).waitFor();
    await on_disk(desk, 'printers/by-keys.toml', 'name = "By keys"');
    await on_disk(desk, 'game.toml', 'profile = "by-keys"');
  },
);
