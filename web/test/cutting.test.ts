// Cutting: the whole, step by step, the tool, the costs; likely cuts on a card; the register of
// the sheets against the light.

import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { decoded, settled } from './chromium.ts';
import { program, type Desk } from './desk.ts';
import { eventually, file_of, flow, off_disk, on_disk, same_on_disk } from './flow.ts';

/** What `quoin check` says of the cuts, in its words: "48 cuts in 4 stacks, 2 settings …". */
function as_checked(desk: Desk): { cuts: number; stacks: number; settings: number } {
  assert.ok(desk.real, 'a real desk');
  const { stdout } = spawnSync(program, ['check', desk.real.folder], { encoding: 'utf8' });
  const found = /(\d+) cuts? in (\d+) stacks?, (\d+) (?:settings? of|distances? to)/.exec(stdout);
  assert.ok(found, `quoin check says nothing of cuts:\n${stdout}`);
  const [cuts = 0, stacks = 0, settings = 0] = found.slice(1).map(Number);
  return { cuts, stacks, settings };
}

const step = (page: Page) => page.getByRole('region', { name: 'The step' });
const where = (page: Page) => step(page).locator('.where').innerText();
const next = (page: Page) => step(page).getByRole('button', { name: /^Next/ });
const steps = (page: Page) =>
  page.getByRole('navigation', { name: 'All steps' }).getByRole('button');

/** Goes through all stops in one way and gives the last cut of each and what was set. */
async function walk(page: Page, onwards: () => Promise<unknown>) {
  const cuts: number[] = [];
  const settings = new Set<string>();
  let pictures = 0;
  await step(page).waitFor();
  for (let stop = 0; stop < 500; stop++) {
    const [words, pile] = [await where(page), await stack(page)];
    const said = /Cuts? (\d+)(?: to (\d+))? of (\d+)/.exec(words);
    if (said) {
      const first = Number(said[1]);
      assert.equal(first, (cuts.at(-1) ?? 0) + 1, 'no cut is left out or told twice');
      cuts.push(Number(said[2] ?? first));
      const set = step(page).locator('.setting');
      settings.add(await set.innerText());
    }
    const image = step(page).getByRole('img');
    if ((await image.count()) > 0) {
      await decoded(image);
      pictures += 1;
    }
    if (await next(page).isDisabled()) return { cuts, settings, pictures, stops: stop + 1 };
    await onwards();
    const is_further = async () => (await where(page)) !== words || (await stack(page)) !== pile;
    await eventually(is_further, true);
  }
  throw new Error('there is no end to it');
}
const stack = async (page: Page) => {
  const said = step(page).locator('.stack');
  return (await said.count()) > 0 ? said.innerText() : '';
};

flow(
  'every cut is gone through by button, as many as quoin check says',
  { at: 'cutting', only: 'real' },
  async (page, { desk }) => {
    const checked = as_checked(desk);
    await page.getByRole('link', { name: 'Begin with step 1' }).click();
    const walked = await walk(page, () => next(page).click());
    assert.equal(walked.cuts.at(-1), checked.cuts);
    // The marks, and as many different settings as there are.
    assert.equal(walked.settings.size - 1, checked.settings);
    assert.equal(walked.pictures, walked.stops, 'each stop has its picture');
    const box = await next(page).boundingBox();
    assert.ok((box?.height ?? 0) >= 44 && (box?.width ?? 0) >= 44);
    await step(page).getByText('Glue the box').waitFor();
  },
);

flow(
  'every cut is gone through by keys, there and back, and any step is gone to',
  { at: 'cutting/steps', only: 'real' },
  async (page, { desk }) => {
    const checked = as_checked(desk);
    const walked = await walk(page, () => page.keyboard.press('ArrowRight'));
    assert.equal(walked.cuts.at(-1), checked.cuts);
    assert.equal(walked.cuts.length % checked.stacks, 0, 'each step with every stack');
    for (let back = 1; back < walked.stops; back++) await page.keyboard.press('ArrowLeft');
    assert.match(await where(page), /^Step 1 of/);
    assert.match(await stack(page), /1 of/);
    await steps(page).nth(3).focus();
    await page.keyboard.press('Enter');
    assert.match(await where(page), /^Step 4 of/);
    assert.equal(await steps(page).nth(3).getAttribute('aria-current'), 'step');
  },
);

flow(
  'a page that is opened again is at the same stack of the same step',
  { at: 'cutting/steps', only: 'real' },
  async (page) => {
    await steps(page).nth(3).click();
    await next(page).click();
    assert.match(await where(page), /^Step 4 of/);
    assert.match(await stack(page), /2 of 4/);
    const before = [await where(page), await stack(page)];
    await page.reload();
    await step(page).waitFor();
    assert.deepEqual([await where(page), await stack(page)], before);
    await page.getByRole('button', { name: 'The whole' }).click();
    await page.getByRole('link', { name: /^Go on at step 4 of/ }).waitFor();
  },
);

flow(
  'another tool is taken, everything follows, and undo takes it back to the letter',
  { at: 'cutting', only: 'real' },
  async (page, { desk }) => {
    const before = file_of(desk, 'game.toml');
    const stacks = page.locator('.figures div').filter({ hasText: 'stack' }).locator('dd');
    await eventually(() => stacks.innerText(), '4');
    await page.getByLabel('Tool').selectOption('guillotine');
    await on_disk(desk, 'game.toml', 'tool = "guillotine"');
    await eventually(() => stacks.innerText(), '1');
    const after = as_checked(desk);
    assert.equal(after.stacks, 1);
    await page.getByText(`${after.cuts} cuts in 1 stack`).waitFor();
    await page.getByLabel('Sheets at once').fill('3');
    await page.keyboard.press('Enter');
    await on_disk(desk, 'game.toml', 'stack-sheets = 3');
    await eventually(() => stacks.innerText(), '3');
    await page.getByRole('button', { name: 'as usual: Sheets at once' }).click();
    await off_disk(desk, 'game.toml', 'stack-sheets');
    await eventually(() => stacks.innerText(), '1');
    for (let step = 0; step < 3; step++) {
      await page.getByRole('button', { name: /^Undo:/ }).click();
      await settled(page);
    }
    await same_on_disk(desk, 'game.toml', before);
    await eventually(() => stacks.innerText(), '4');
  },
);

flow(
  'a plan that cannot be made says why and what to do, and handwork is still listed',
  {
    at: 'cutting',
    only: 'real',
    prepare: (folder) => {
      const file = join(folder, 'game.toml');
      const text = readFileSync(file, 'utf8')
        .replace('paper = "A4"', 'paper = "190.5x266.7"\ngrid = "3x3"')
        .replace(/^margin = 5$/m, 'margin = 0');
      writeFileSync(file, text);
    },
  },
  async (page) => {
    await page.getByRole('heading', { name: 'There is no plan for cutting' }).waitFor();
    await page.getByText('there is nothing to cut off').first().waitFor();
    await page.getByText('Use a larger paper').first().waitFor();
    await page.getByRole('button', { name: 'Step by step' }).click();
    assert.match(await where(page), /^Step 1 of 4\s+Round the corners/);
  },
);

flow('costs stand in a table, a column for each run', { at: 'cutting/costs' }, async (page) => {
  const table = page.getByRole('table', { name: 'What decks take' });
  for (const name of ['1 deck', '5 decks', '20 decks']) {
    await table.getByRole('columnheader', { name, exact: true }).waitFor();
  }
  const row = table.getByRole('row').filter({ hasText: 'Sheets of cards' });
  assert.deepEqual(await row.getByRole('cell').allInnerTexts(), ['8', '40', '160']);
  await page.getByText('copy-shop: 240.00 EUR for 20 decks').waitFor();
});

flow(
  'likely cuts are laid over a card, with their chances in words',
  { at: 'cards/shell-6' },
  async (page) => {
    const stage = page.getByRole('region', { name: 'One card' });
    await stage.getByRole('checkbox', { name: 'Likely cuts' }).check();
    const said = stage.getByRole('region', { name: 'Likely cuts' });
    await said.getByText(/shows? a white edge/).waitFor();
    const lines = (side: string) => stage.locator(`.side.${side} polygon`);
    assert.equal(await lines('front').count(), 40);
    assert.equal(await lines('back').count(), 0);
    const front = await lines('front').first().getAttribute('points');
    await stage.getByRole('button', { name: 'Front', exact: true }).click();
    await eventually(() => lines('back').count(), 40);
    assert.notEqual(await lines('back').first().getAttribute('points'), front);
    await said.getByRole('rowheader', { name: 'bleed' }).waitFor();
    await said.getByText('this back').waitFor();
    await stage.getByRole('checkbox', { name: 'Likely cuts' }).uncheck();
    await eventually(() => stage.locator('.side polygon').count(), 0);
  },
);

flow(
  'without a profile the register of backs is said to be assumed',
  { at: 'sheets/1/light' },
  async (page) => {
    await page.getByText('is assumed, as is usual for such a printer').waitFor();
    await eventually(() => page.locator('figure svg rect').count(), 18);
    assert.equal(await page.getByRole('checkbox', { name: 'As if nothing' }).count(), 0);
  },
);

flow(
  'with a profile backs lie where the measured printer puts them, with what it cannot help',
  {
    at: 'sheets/1/light',
    only: 'real',
    prepare: (folder) => {
      mkdirSync(join(folder, 'printers'));
      writeFileSync(
        join(folder, 'printers/study.toml'),
        'name = "Study"\npaper = "A4"\nbacks = "printer"\nflip = "long-edge"\n' +
          '[back]\nshift = [4, -3]\nturn = 0.4\n[spread]\nshift = [0.3, 0.2]\nturn = 0.05\n',
      );
      const file = join(folder, 'game.toml');
      const text = readFileSync(file, 'utf8');
      writeFileSync(file, text.replace('[printer]', '[printer]\nprofile = "study"'));
    },
  },
  async (page) => {
    await page.getByText('The back is drawn where study will put it').waitFor();
    const picture = page.getByRole('img', { name: 'Sheet 1, against the light' });
    const address = () => picture.getAttribute('src');
    assert.match((await address()) ?? '', /\/light\.png/);
    const band = page.locator('figure svg rect').first();
    const wide = async () => (await band.boundingBox())?.width ?? 0;
    const true_width = await wide();
    await page.getByRole('checkbox', { name: 'Bands five times as wide' }).check();
    await page.getByText('drawn 5 times as wide as it is').waitFor();
    await eventually(async () => (await wide()) > true_width, true);
    await page.getByRole('checkbox', { name: 'As if nothing were corrected' }).check();
    await eventually(async () => /\/uncorrected\.png/.test((await address()) ?? ''), true);
    await decoded(picture);
    await page.getByText('where study would put it if nothing were corrected').waitFor();
    await eventually(() => page.locator('figure svg rect').count(), 0);
    if (process.env.QUOIN_LOOKS) {
      await page.screenshot({ path: `${process.env.QUOIN_LOOKS}/sheets-uncorrected.png` });
    }
  },
);
