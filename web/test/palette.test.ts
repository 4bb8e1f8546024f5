// The colours of pictures: named, taken into the game, and pulled to those of the game.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { bench, FLOAT, INKS, pixel, with_float } from './art.ts';
import { eventually, file_of, flow, off_disk, on_disk, same_on_disk, type Scene } from './flow.ts';

const only = 'real' as const;
const bytes_of = ({ desk }: Scene, file: string) =>
  readFileSync(join(desk.real?.folder ?? '', file));

flow(
  'a colour is taken only under a name that the game has not',
  { at: bench('art/float.png', 'colours'), only: 'mock' },
  async (page) => {
    await eventually(() => page.getByText('is in the game already').count(), 2);
    const names = page.getByRole('textbox', { name: /^Name of / });
    assert.equal(await names.count(), 2);
    const take = page.getByRole('button', { name: /into the game$/ });
    for (const [name, fault] of [
      ['coral', 'The game has another colour called coral.'],
      ['  !?', 'Give it a name of letters, digits and dashes.'],
      ['red', 'Two of these are called red.'],
    ] as const) {
      await names.first().fill(name);
      await page.getByText(fault).first().waitFor();
      assert.equal(await take.isDisabled(), true, name);
    }
    await page.getByRole('checkbox', { name: 'Take red' }).last().uncheck();
    await page.getByRole('button', { name: 'Take 1 colour into the game' }).click();
    await page.getByRole('button', { name: 'Undo: colours of float.png' }).waitFor();
  },
);

flow(
  "colours of a picture are named and taken into the game, and the picture takes the game's",
  { at: bench(FLOAT, 'colours'), only, prepare: with_float },
  async (page, scene) => {
    const { desk } = scene;
    const before = file_of(desk, 'game.toml');
    // The ground, the lines and one half have colours of the game; the other half has not.
    await eventually(() => page.getByText('is in the game already').count(), 3);
    const name = page.getByRole('textbox', { name: /^Name of / });
    await eventually(() => name.count(), 1);
    await name.fill('coral');
    await page.getByText('The game has another colour called coral.').waitFor();
    const take = page.getByRole('button', { name: 'Take 1 colour into the game' });
    assert.equal(await take.isDisabled(), true);
    await name.fill('brick red');
    await take.click();
    await on_disk(desk, 'game.toml', /brick-red = "#bc5440"/);
    await eventually(() => page.getByText('is in the game already').count(), 4);
    await page.getByRole('button', { name: 'Undo: colours of buoy.png' }).click();
    await same_on_disk(desk, 'game.toml', before);

    await page.locator(`img[alt="In the game's colours"]`).waitFor();
    const near = page.getByRole('slider', { name: /^How near/ });
    await near.fill('25');
    const use = page.getByRole('button', { name: 'Use this copy' });
    await page.waitForTimeout(400);
    await use.and(page.locator(':enabled')).waitFor();
    await use.click();
    await on_disk(desk, 'cards.csv', ',buoy-colours.png,');
    // What had no colour of the game has the nearest now.
    assert.deepEqual(pixel(bytes_of(scene, 'art/finds/buoy-colours.png'), 0.5, 0.7), [
      ...INKS.coral,
      255,
    ]);
    await page.getByRole('button', { name: /^Undo: / }).click();
    await off_disk(desk, 'cards.csv', 'buoy-colours.png');
  },
);
