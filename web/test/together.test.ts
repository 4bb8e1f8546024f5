// Not alone with the files: another program, another page, a desk that dies, a disk that is full.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { another_page, open_browser, open_page } from './chromium.ts';
import { program, RealDesk } from './desk.ts';
import {
  cell,
  eventually,
  file_of,
  flow,
  on_disk,
  text_of,
  took,
  type_cell,
  view,
} from './flow.ts';

const LIST = 'cards.csv';
const GONE = /ERR_|Failed to load|40[139]|422/;
const is_root = process.getuid?.() === 0;

flow('a file that another program changes is seen', { only: 'real' }, async (page, { desk, t }) => {
  await cell(page, 0, 4).waitFor();
  const times: number[] = [];
  for (let round = 0; round < 5; round++) {
    const name = `Smooth Periwinkle ${round}`;
    const file = file_of(desk, LIST).replace(/(\nshell-1,find,shell,1,)[^,]*/, `$1${name}`);
    const seen = cell(page, 0, 4).filter({ hasText: name }).waitFor();
    const began = performance.now();
    desk.real?.write(LIST, file);
    await seen;
    times.push(performance.now() - began);
  }
  took(t, 'from the write to the page, median of 5', median(times), 300);
});

flow(
  'two pages see what is done on the other',
  { only: 'real' },
  async (page, { desk, context }) => {
    const second = await another_page(context, desk.address, 'list');
    await cell(second.page, 0, 4).waitFor();
    await type_cell(page, 0, 4, 'From the first');
    await eventually(text_of(cell(second.page, 0, 4)), 'From the first');
    await type_cell(second.page, 1, 4, 'From the second');
    await eventually(text_of(cell(page, 1, 4)), 'From the second');
    await on_disk(desk, LIST, 'shell-1,find,shell,1,From the first,');
    await on_disk(desk, LIST, 'shell-2,find,shell,2,From the second,');
    await second.page.getByRole('button', { name: 'Undo: name of shell-2' }).click();
    await eventually(text_of(cell(page, 1, 4)), 'Common Cockle');
    assert.deepEqual(second.complaints, []);
  },
);

for (const keep of ['mine', 'theirs'] as const) {
  flow(
    `a value changed here and elsewhere at once is shown twice, and ${keep} is kept`,
    { only: 'real', complaints: /409/ },
    async (page, { desk }) => {
      await cell(page, 0, 4).click();
      await page.keyboard.press('Enter');
      await page.getByRole('textbox', { name: 'name of shell-1' }).fill('Rough Periwinkle');
      desk.real?.write(LIST, file_of(desk, LIST).replace('Flat Periwinkle', 'Edible Periwinkle'));
      // The other program's words reach the page while the maker is still in the cell.
      await page.waitForResponse((answer) => answer.url().includes('/api/state'));
      await page.getByRole('textbox', { name: 'name of shell-1' }).press('Enter');
      const dialog = page.getByRole('dialog', { name: 'Changed in two places' });
      await dialog.getByText('Rough Periwinkle').waitFor();
      await dialog.getByText('Edible Periwinkle').waitFor();
      await dialog.getByRole('button', { name: `Keep ${keep}` }).click();
      await dialog.waitFor({ state: 'hidden' });
      const kept = keep === 'mine' ? 'Rough Periwinkle' : 'Edible Periwinkle';
      await eventually(text_of(cell(page, 0, 4)), kept);
      await on_disk(desk, LIST, `shell-1,find,shell,1,${kept},`);
    },
  );
}

flow(
  'a picture deleted while it is shown is said, and shown again when it is back',
  { at: 'cards/shell-2', only: 'real' },
  async (page, { desk }) => {
    const stage = page.getByRole('region', { name: 'One card' });
    await stage.getByRole('img', { name: 'Common Cockle' }).waitFor();
    const path = 'art/finds/cockle.svg';
    const before = file_of(desk, path);
    rmSync(join(desk.real?.folder ?? '', path));
    await page.getByText('stops the print').first().waitFor();
    await stage
      .getByText(/cockle\.svg/)
      .first()
      .waitFor();
    writeFileSync(join(desk.real?.folder ?? '', path), before);
    await page.getByText('stops the print').first().waitFor({ state: 'hidden' });
  },
);

flow(
  'a desk killed in the middle of an edit loses nothing, says so, and takes back after its start',
  { only: 'real', complaints: GONE },
  async (page, { desk }) => {
    const real = desk.real;
    assert.ok(real);
    const port = real.port;
    await type_cell(page, 0, 4, 'Before the fall');
    await on_disk(desk, LIST, 'Before the fall');
    await page.getByRole('button', { name: 'Undo: name of shell-1' }).waitFor();
    await type_cell(page, 1, 4, 'In the middle of it');
    await real.kill();
    await page.getByText('The desk does not answer.').waitFor();
    await type_cell(page, 2, 4, 'While it was away');
    await page.getByText(/changes? (is|are) kept here/).waitFor();
    await page.getByText('name of shell-3: While it was away').waitFor();
    await real.start(port);
    await page.getByText('The desk was started anew.').waitFor();
    await page.goto(real.address);
    await view(page, 'List');
    await on_disk(desk, LIST, 'shell-1,find,shell,1,Before the fall,');
    await on_disk(desk, LIST, 'shell-2,find,shell,2,In the middle of it,');
    await on_disk(desk, LIST, 'shell-3,find,shell,3,While it was away,');
    for (const name of ['shell-3', 'shell-2', 'shell-1']) {
      await page.getByRole('button', { name: `Undo: name of ${name}` }).click();
    }
    await on_disk(desk, LIST, 'shell-1,find,shell,1,Flat Periwinkle,');
    await on_disk(desk, LIST, 'shell-2,find,shell,2,Common Cockle,');
    await on_disk(desk, LIST, 'shell-3,find,shell,3,Common Limpet,');
  },
);

flow(
  'a file that cannot be read is said, and the rest stays open',
  { only: 'real', unless: is_root && 'root reads every file', complaints: GONE },
  async (page, { desk }) => {
    await cell(page, 0, 4).waitFor();
    chmodSync(join(desk.real?.folder ?? '', LIST), 0);
    await page.getByText('stops the print').first().waitFor();
    chmodSync(join(desk.real?.folder ?? '', LIST), 0o644);
    await eventually(text_of(cell(page, 0, 4)), 'Flat Periwinkle');
  },
);

/** A disk of 8 MB in memory, or why there can be none. */
function small_disk(): { folder: string; why: string } {
  if (program === '') return { folder: '', why: 'needs the real desk' };
  if (!is_root) return { folder: '', why: 'only root can mount a small disk' };
  const folder = mkdtempSync(join(tmpdir(), 'quoin-small-'));
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=8m', 'tmpfs', folder], { stdio: 'pipe' });
    return { folder, why: '' };
  } catch (problem) {
    rmSync(folder, { recursive: true });
    const said = problem instanceof Error ? problem.message.split('\n').at(-1) : '';
    return { folder: '', why: `no small disk can be mounted here: ${said}` };
  }
}

const disk = small_disk();
test(
  'an edit on a full disk is said and kept from the file, and goes through when there is room',
  { skip: disk.why || false },
  async () => {
    const browser = await open_browser('no models');
    const real = new RealDesk({ within: disk.folder });
    try {
      await real.start();
      const { page } = await open_page(browser, real.address, { at: 'list' });
      await cell(page, 0, 4).waitFor();
      const before = real.read(LIST);
      const filler = join(disk.folder, 'filler');
      try {
        writeFileSync(filler, Buffer.alloc(64e6));
      } catch {
        // full, as it should be
      }
      await type_cell(page, 0, 4, 'No room for this '.repeat(800));
      await page
        .getByText(/no (space|room)|full/i)
        .first()
        .waitFor();
      assert.equal(real.read(LIST), before, 'the list is whole');
      rmSync(filler);
      await type_cell(page, 1, 4, 'Room again');
      await on_disk({ real } as never, LIST, 'Room again');
    } finally {
      await browser.close();
      await real.stop();
      execFileSync('umount', [disk.folder]);
      rmSync(disk.folder, { recursive: true });
    }
  },
);

function median(times: number[]): number {
  return [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;
}

flow(
  'what is typed while the desk is away arrives when it is back',
  { only: 'mock', complaints: GONE },
  async (page, { desk }) => {
    await cell(page, 0, 4).click();
    desk.mock.away = true;
    await type_cell(page, 0, 4, 'Kept Periwinkle');
    await page.getByText('The desk does not answer.').waitFor();
    await page.getByText('1 change is kept here').waitFor();
    assert.equal((await cell(page, 0, 4).innerText()).trim(), 'Kept Periwinkle');
    desk.mock.away = false;
    await page.getByText('The desk does not answer.').waitFor({ state: 'hidden' });
    await eventually(async () => desk.mock.game.content.rows[0][4], 'Kept Periwinkle');
  },
);

flow('a refused edit says why and what to do', { only: 'mock', complaints: GONE }, async (page) => {
  await type_cell(page, 0, 4, 'refuse this');
  const alert = page.getByRole('alert');
  await alert.getByText('The list cannot hold these words.').waitFor();
  await alert.getByText('Write other words.').waitFor();
  await alert.getByRole('button', { name: 'Put this away' }).click();
  await alert.waitFor({ state: 'hidden' });
});
