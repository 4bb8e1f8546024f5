// The pack, and a game's beginning.

import assert from 'node:assert/strict';
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { eventually, flow, on_disk } from './flow.ts';
import { sources } from './desk.ts';

flow(
  'a pack is chosen, made and saved, and its files lie in the game folder',
  { at: 'make' },
  async (page, { desk }) => {
    for (const part of ['For a print shop', 'For a cutting machine', 'Pictures']) {
      await page.getByRole('checkbox', { name: part }).uncheck();
    }
    await page.getByRole('textbox', { name: 'Only these cards' }).fill('no-such-card');
    await page.getByText('No card is called no-such-card.').waitFor();
    assert.equal(await page.getByRole('button', { name: 'Make the pack' }).isDisabled(), true);
    await page.getByRole('textbox', { name: 'Only these cards' }).fill('');
    await page.getByRole('button', { name: 'Make the pack' }).click();
    const save = page.getByRole('button', { name: 'Save home/cards.pdf' });
    await save.waitFor();
    const [download] = await Promise.all([page.waitForEvent('download'), save.click()]);
    assert.equal(download.suggestedFilename(), 'cards.pdf');
    if (!desk.real) return;
    const saved = readFileSync(await download.path());
    const made = readFileSync(join(desk.real.folder, 'pack/home/cards.pdf'));
    assert.equal(saved.subarray(0, 5).toString(), '%PDF-');
    assert.equal(saved.equals(made), true, 'what is saved is what was made');
    assert.equal(existsSync(join(desk.real.folder, 'pack/shop')), false);
  },
);

flow(
  'the making of a pack shows how far it is and is stopped; nothing is half written',
  { at: 'make' },
  async (page, { desk }) => {
    await page.getByRole('spinbutton', { name: 'Decks' }).fill('30');
    await page.getByRole('button', { name: 'Make the pack' }).click();
    await page.getByRole('progressbar', { name: 'Making the pack' }).waitFor();
    await page.getByRole('button', { name: 'Stop' }).click();
    await page
      .getByRole('status')
      .filter({ hasText: /stopped/i })
      .first()
      .waitFor();
    await page.getByRole('button', { name: 'Make the pack' }).waitFor();
    if (!desk.real) return;
    const left = readdirSync(desk.real.folder).filter((name) => name.startsWith('pack'));
    assert.deepEqual(left, [], 'no pack, and no part of one');
  },
);

const picture = (name: string) => ({
  name,
  mimeType: 'image/svg+xml',
  buffer: readFileSync(join(sources, 'examples/harbour-lights', name)),
});

flow('a first game begins from pictures', { at: '', empty: true }, async (page, { desk }) => {
  await page.getByRole('heading', { name: 'A game begins here' }).waitFor();
  await page.getByLabel('What the game is called').fill('Reef');
  const names = ['back.svg', 'half-tide-stone.svg', 'long-ness.svg', 'north-rock.svg'];
  const data = await page.evaluateHandle(
    (files) => {
      const dropped = new DataTransfer();
      for (const { name, text } of files) {
        dropped.items.add(new File([text], name, { type: 'image/svg+xml' }));
      }
      return dropped;
    },
    names.map((name) => ({ name, text: picture(name).buffer.toString() })),
  );
  const ground = page.getByRole('region', { name: 'From pictures' });
  await ground.dispatchEvent('dragover', { dataTransfer: data });
  await ground.dispatchEvent('drop', { dataTransfer: data });
  await page.getByText('4 pictures').waitFor();
  await page.getByRole('button', { name: 'Make a game of them' }).click();
  await page.getByRole('navigation').getByRole('link', { name: 'Cards' }).click();
  if (!desk.real) return;
  const faces = page.getByRole('list', { name: 'All faces' }).getByRole('button');
  await eventually(() => faces.count(), 3);
  await on_disk(desk, 'game.toml', 'title = "Reef"');
  await on_disk(desk, 'cards.csv', 'north-rock');
});

flow(
  'a first game begins from the starter',
  { at: '', empty: true, only: 'real' },
  async (page, { desk }) => {
    await page.getByRole('button', { name: 'Start with it' }).click();
    await page.getByRole('navigation').getByRole('link', { name: 'List' }).click();
    await page.getByRole('gridcell').first().waitFor();
    assert.ok(existsSync(join(desk.real?.folder ?? '', 'game.toml')));
    assert.ok(existsSync(join(desk.real?.folder ?? '', 'cards.csv')));
  },
);
