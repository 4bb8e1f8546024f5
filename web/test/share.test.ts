// Giving the game to others: what is missing is filled in, decided and shared.

import assert from 'node:assert/strict';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { eventually, file_of, flow, on_disk, same_on_disk } from './flow.ts';

const LIST = 'art/sources.csv';
/** What these tests do in each page may not be done in a frame that is shut off. */
const FRAMED = /sandboxed and lacks the 'allow-same-origin' flag/;

/** Two files of which something is missing. */
function in_trouble(folder: string): void {
  const path = join(folder, LIST);
  const list = readFileSync(path, 'utf8')
    .replace('finds/gull.svg,The Quoin illustrators,CC0-1.0', 'finds/gull.svg,Mara,unknown')
    .replace('finds/tern.svg,The Quoin illustrators', 'finds/tern.svg,');
  writeFileSync(path, list);
}

flow(
  'what is missing of a picture is filled in, and taken back',
  { at: 'share', only: 'real', prepare: in_trouble },
  async (page, { desk }) => {
    if (!desk.real) return;
    const before = file_of(desk, LIST);
    await page.getByText('2 files to settle first').waitFor();
    assert.equal(await page.getByRole('button', { name: 'Share the game' }).isDisabled(), true);
    const gull = page.getByRole('listitem').filter({ hasText: 'art/finds/gull.svg' });
    await gull.getByLabel('Licence').fill('CC-BY-4.0');
    await gull.getByLabel('Licence').press('Tab');
    await on_disk(desk, LIST, 'finds/gull.svg,Mara,CC-BY-4.0');
    const tern = page.getByRole('listitem').filter({ hasText: 'art/finds/tern.svg' });
    await tern.getByLabel('Made by').fill('Ida');
    await tern.getByLabel('Made by').press('Tab');
    await on_disk(desk, LIST, 'finds/tern.svg,Ida,CC0-1.0');
    await page.getByText(/^Each of the \d+ files may be given on/).waitFor();
    await eventually(() => page.getByRole('button', { name: 'Share the game' }).isEnabled(), true);
    await page.locator('#work').focus();
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await same_on_disk(desk, LIST, before);
  },
);

flow(
  'a game is shared without what may not be given on, and its page is looked at',
  { at: 'share', only: 'real', complaints: FRAMED, prepare: in_trouble },
  async (page, { desk }) => {
    if (!desk.real) return;
    const gull = page.getByRole('listitem').filter({ hasText: 'art/finds/gull.svg' });
    await gull.getByRole('radio', { name: 'Leave out what shows it' }).check();
    const tern = page.getByRole('listitem').filter({ hasText: 'art/finds/tern.svg' });
    await tern.getByRole('radio', { name: 'I asked, and may' }).check();
    await page.getByRole('button', { name: 'Share the game' }).click();
    await page.getByRole('progressbar', { name: 'Sharing the game' }).waitFor();
    await page.getByRole('heading', { name: 'share/tidewrack-1.0' }).waitFor({ timeout: 120_000 });
    const frame = page.frameLocator('iframe[title="The page of the share"]');
    await frame.getByRole('heading', { name: 'Tidewrack', exact: true }).waitFor();
    const shared = join(desk.real.folder, 'share/tidewrack-1.0');
    const manifest = readFileSync(join(shared, 'share.json'), 'utf8');
    assert.equal(manifest.includes('"bird-5"'), false, 'the gull is left out');
    assert.ok(readFileSync(join(shared, 'index.html'), 'utf8').includes('Used with permission'));
    assert.ok(existsSync(`${shared}.zip`));
  },
);

flow(
  'sharing is stopped, and nothing is half written',
  { at: 'share', only: 'real' },
  async (page, { desk }) => {
    if (!desk.real) return;
    await page.getByRole('button', { name: 'Share the game' }).click();
    await page.getByRole('progressbar', { name: 'Sharing the game' }).waitFor();
    await page.getByRole('button', { name: 'Stop' }).click();
    await page
      .getByRole('status')
      .filter({ hasText: /stopped/i })
      .first()
      .waitFor();
    const folder = join(desk.real.folder, 'share');
    const left = existsSync(folder) ? readdirSync(folder) : [];
    assert.deepEqual(left, [], 'no share, and no part of one');
  },
);
