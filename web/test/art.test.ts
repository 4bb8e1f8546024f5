// Pictures: listed, dropped in, redrawn, made straight and cut out.

import assert from 'node:assert/strict';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import {
  apart,
  bench,
  few_cards,
  FLOAT,
  with_float,
  float_drawing,
  INKS,
  ON_TABLE,
  photograph,
  pixel,
  screenshot,
  size_of,
} from './art.ts';
import { eventually, file_of, flow, on_disk, same_on_disk, type Scene } from './flow.ts';

const only = 'real' as const;
function with_photograph(folder: string): void {
  few_cards(folder);
  writeFileSync(join(folder, 'art/table.png'), photograph());
}
function with_screenshot(folder: string): void {
  few_cards(folder);
  writeFileSync(join(folder, 'art/spread.png'), screenshot());
}

const slider = (page: Page) => page.getByRole('slider', { name: /to the right$/ });
const stage = (page: Page) => page.locator('.stage');
const shown_at = (page: Page) => async () =>
  Number.parseInt(
    await page.getByRole('group', { name: 'Zoom' }).locator('.scale').innerText(),
    10,
  );
const bytes_of = ({ desk }: Scene, file: string) =>
  readFileSync(join(desk.real?.folder ?? '', file));
const drawn_svg = (page: Page) => page.locator('img[alt="Drawing"]');
/** The SVG that is shown. */
async function svg_text(page: Page): Promise<string> {
  const src = await drawn_svg(page).evaluate((image) => (image as HTMLImageElement).src);
  return page.evaluate(async (address) => (await fetch(address)).text(), src);
}
/** Waits until what is shown is that of the newest wish. */
async function redrawn(page: Page): Promise<void> {
  await drawn_svg(page).waitFor();
  await page
    .getByRole('button', { name: /^(Use|Save) the drawing/ })
    .and(page.locator(':enabled'))
    .waitFor();
}
const colour_ticks = (page: Page) =>
  page.getByRole('checkbox', { name: /to be made one with another$/ });

flow(
  'pictures are listed with how they print, the coarse ones first, and looked for',
  { at: 'art', only, prepare: with_float },
  async (page) => {
    const tiles = page.getByRole('list', { name: 'Pictures of the game' }).getByRole('listitem');
    await tiles.first().waitFor();
    const first = await tiles.first().innerText();
    assert.match(first, /buoy\.png/);
    assert.match(first, /too coarse/);
    assert.match(first, /150 × 150 pixels/);
    // 150 pixels at 300 to 25.4 mm are 12.7 mm.
    assert.match(first, /300 ppi up to\s+12\.7 × 12\.7 mm/);
    await page.getByText(/^1 of \d+ pictures prints too coarse/).waitFor();
    assert.equal(await tiles.first().getByRole('link', { name: 'glass-6' }).count(), 1);

    await page.getByRole('combobox', { name: 'How they print' }).selectOption('coarse');
    await eventually(() => tiles.count(), 1);
    await page.getByRole('combobox', { name: 'How they print' }).selectOption('all');
    await page.getByRole('searchbox').fill('shell-1');
    await eventually(async () => (await tiles.count()) < 10, true);
    await page.getByRole('searchbox').fill('no such picture');
    await page.getByRole('button', { name: /^Show all/ }).click();
    await tiles.first().getByRole('link', { name: 'glass-6' }).click();
    await page.getByRole('region', { name: 'One card' }).waitFor();
  },
);

flow(
  'a picture is dropped in and lies on the bench; what is no picture is refused',
  { at: 'art', only, complaints: /status of 415/, prepare: few_cards },
  async (page, scene) => {
    await page.getByRole('heading', { name: 'Art' }).waitFor();
    await page.locator('input[type=file]').setInputFiles({
      name: 'notes.png',
      mimeType: 'image/png',
      buffer: Buffer.from('no picture at all'),
    });
    await page.getByRole('alert').filter({ hasText: 'notes.png' }).waitFor();
    const dropped = await page.evaluateHandle(async () => {
      const canvas = document.createElement('canvas');
      canvas.width = canvas.height = 90;
      const pen = canvas.getContext('2d');
      if (pen) {
        pen.fillStyle = '#a9c8c6';
        pen.fillRect(0, 0, 90, 90);
        pen.fillStyle = '#dd7057';
        pen.fillRect(25, 25, 40, 40);
      }
      const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done));
      const transfer = new DataTransfer();
      if (blob) transfer.items.add(new File([blob], 'brick.png', { type: 'image/png' }));
      return transfer;
    });
    const zone = page.locator('.zone');
    await zone.dispatchEvent('dragover', { dataTransfer: dropped });
    await page.getByText("Put it into the game's folder").waitFor();
    await zone.dispatchEvent('drop', { dataTransfer: dropped });
    await page.getByRole('heading', { name: 'brick.png' }).waitFor();
    await page.getByText('on no piece').first().waitFor();
    assert.ok(bytes_of(scene, 'art/brick.png').length > 0);
    await redrawn(page);
  },
);

flow(
  'a picture is redrawn, both laid under one slider, enlarged, and the drawing used',
  { at: bench(FLOAT), only, prepare: with_float },
  async (page, scene) => {
    const { desk } = scene;
    const list = file_of(desk, 'cards.csv');
    await redrawn(page);
    assert.match(
      await page.getByRole('complementary').innerText(),
      /likeness\s+0\.9\d\d|likeness\s+1\.0/,
    );
    assert.equal(await slider(page).getAttribute('aria-valuenow'), '50');
    await slider(page).focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Shift+ArrowRight');
    assert.equal(await slider(page).getAttribute('aria-valuenow'), '62');
    assert.match((await slider(page).getAttribute('aria-valuetext')) ?? '', /62 % picture, 38 %/);
    const box = await stage(page).boundingBox();
    assert.ok(box);
    await page.mouse.move(box.x + box.width * 0.62, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.25, box.y + box.height / 2, { steps: 4 });
    await page.mouse.up();
    await eventually(() => slider(page).getAttribute('aria-valuenow'), '25');

    const fitted = await shown_at(page)();
    await page.mouse.move(box.x + box.width / 2, box.y + 80);
    await page.mouse.wheel(0, -400);
    await eventually(async () => (await shown_at(page)()) > fitted * 1.2, true);
    await stage(page).focus();
    for (let press = 0; press < 12; press++) await page.keyboard.press('+');
    await eventually(async () => (await shown_at(page)()) >= 1600, true);
    const rendering = () =>
      page.locator('img[alt="Picture"]').evaluate((one) => getComputedStyle(one).imageRendering);
    assert.equal(await rendering(), 'pixelated', 'pixels are seen');
    const corner = () =>
      page.locator('img[alt="Picture"]').evaluate((one) => (one as HTMLElement).offsetLeft);
    const other = () => drawn_svg(page).evaluate((one) => (one as HTMLElement).offsetLeft);
    const before = await corner();
    await page.keyboard.press('ArrowRight');
    await eventually(async () => (await corner()) < before, true);
    await eventually(async () => (await corner()) === (await other()), true);
    await page.keyboard.press('0');
    await eventually(shown_at(page), fitted);
    await page.getByRole('button', { name: 'Difference' }).click();
    await page.locator('img[alt="What differs"]').waitFor();
    await page.getByRole('button', { name: 'Both' }).click();

    await page.getByRole('button', { name: 'Use the drawing' }).click();
    await page.getByText('It is shown from now on').waitFor();
    await on_disk(desk, 'cards.csv', ',buoy.svg,');
    assert.match(file_of(desk, 'art/finds/buoy.svg'), /<svg[^>]*viewBox/);
    assert.ok(bytes_of(scene, FLOAT).length > 0, 'the original stays');
    await on_disk(desk, 'art/sources.csv', /finds\/buoy\.svg,Mara Lund/);
    await page.getByRole('link', { name: 'buoy.svg' }).click();
    await page.getByText('sharp at any size').first().waitFor();
    await page.getByRole('button', { name: /^Undo: / }).click();
    await same_on_disk(desk, 'cards.csv', list);
  },
);

flow(
  'a picture that another program changes meanwhile is redrawn as it is now',
  { at: bench(FLOAT), only, prepare: with_float },
  async (page, { desk }) => {
    await redrawn(page);
    const before = await svg_text(page);
    writeFileSync(join(desk.real?.folder ?? '', FLOAT), float_drawing(150, INKS.straw));
    await eventually(async () => /#e[5-7]b[5-7][45]/i.test(await svg_text(page)), true);
    assert.doesNotMatch(before, /#e[5-7]b[5-7][45]/i);
  },
);

flow(
  'of a picture that is too small, or damaged, it is said what to do',
  {
    at: bench('art/speck.png'),
    only,
    complaints: /status of 422/,
    prepare: (folder) => {
      few_cards(folder);
      writeFileSync(join(folder, 'art/speck.png'), float_drawing(4));
      writeFileSync(join(folder, 'art/torn.png'), float_drawing(90).subarray(0, 200));
    },
  },
  async (page) => {
    const trouble = page.getByRole('alert');
    await trouble.getByText(/nothing to follow in fewer than 8/).waitFor();
    assert.equal(await trouble.getByText('Find a copy of at least 200 px').count(), 1);
    await trouble.getByRole('button', { name: 'Try again' }).click();
    await trouble.waitFor();
    await page.getByRole('link', { name: 'All pictures' }).click();
    const torn = page.getByRole('listitem').filter({ hasText: 'torn.png' });
    await torn.getByText('cannot be read').waitFor();
    await torn.getByText(/ends at byte 200/).waitFor();
  },
);

flow(
  'two colours of a drawing become one, one takes a colour of the game, and it is saved beside',
  { at: bench(FLOAT), only, prepare: with_float },
  async (page, scene) => {
    await redrawn(page);
    const ticks = colour_ticks(page);
    const many = await ticks.count();
    assert.ok(many >= 4, `the drawing has ${many} colours`);
    const fills = async () => new Set((await svg_text(page)).match(/#[0-9a-f]{6}\b/gi)).size;
    const before = await fills();
    const share = page.locator('li .name');
    const names = await share.evaluateAll((all) => all.map((one) => one.textContent ?? ''));
    // The two near halves are neither the ground nor the lines.
    const halves = names.flatMap((name, at) =>
      /red|orange|brown|coral|pink/.test(name) ? [at] : [],
    );
    assert.ok(halves.length >= 2, `halves among ${names.join('; ')}`);
    await ticks.nth(halves[0] ?? 0).check();
    await ticks.nth(halves[1] ?? 1).check();
    await page.locator('.merge').getByRole('button').click();
    await eventually(() => ticks.count(), many - 1);
    await redrawn(page);
    assert.equal(await fills(), before - 1);

    await page.locator('li .name').first().click();
    await page.getByRole('button', { name: /becomes straw$/ }).click();
    await eventually(async () => (await svg_text(page)).toLowerCase().includes('#e6b650'), true);
    // One is pulled onto another.
    const rows = page.locator('aside ul li');
    const last = (await rows.count()) - 1;
    await rows.nth(last).dragTo(rows.nth(0));
    await eventually(() => ticks.count(), many - 2);
    await page.getByRole('button', { name: 'As traced' }).click();
    await eventually(() => ticks.count(), many);
    await page.getByRole('radio', { name: 'with fewest' }).check();
    await redrawn(page);
    await page.getByRole('radio', { name: "the game's" }).check();
    const drawn = async () => (await svg_text(page)).toLowerCase().includes('#1f2f3a');
    await eventually(drawn, true);
    await redrawn(page);
    await page.getByRole('button', { name: 'Only save it beside' }).click();
    await page.getByText(/^Written:/).waitFor();
    await on_disk(scene.desk, 'art/finds/buoy.svg', '#1f2f3a');
    await on_disk(scene.desk, 'cards.csv', ',buoy.png,');
  },
);

flow(
  'a card is taken out of a photograph, after a corner was pulled away and back',
  { at: bench('art/table.png', 'straighten'), only, prepare: with_photograph },
  async (page, scene) => {
    const corners = page.getByRole('button', { name: /corner.*in pixels/ });
    await eventually(() => corners.count(), 4);
    const places = async () =>
      (
        await corners.evaluateAll((all) => all.map((one) => one.getAttribute('aria-label') ?? ''))
      ).map((words) => (words.match(/\d+/g) ?? []).map(Number) as [number, number]);
    for (const [at, [x, y]] of (await places()).entries()) {
      const truth = ON_TABLE[at];
      assert.ok(truth && Math.hypot(truth.x - x, truth.y - y) < 3, `corner ${at} at ${x}, ${y}`);
    }
    const scale = (await shown_at(page)()) / 100;
    const grip = await corners.nth(2).boundingBox();
    assert.ok(grip);
    const [from_x, from_y] = [grip.x + grip.width / 2, grip.y + grip.height / 2];
    const start = (await places())[2] ?? [0, 0];
    await page.mouse.move(from_x, from_y);
    await page.mouse.down();
    await page.mouse.move(from_x + 30 * scale, from_y + 20 * scale, { steps: 3 });
    await page.locator('.lens').waitFor();
    await page.mouse.up();
    const pulled = (await places())[2] ?? [0, 0];
    assert.ok(Math.abs(pulled[0] - start[0] - 30) <= 2, `${pulled} from ${start}`);
    await page.keyboard.press('Shift+ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    const stepped = (await places())[2] ?? [0, 0];
    assert.ok(Math.abs(pulled[0] - stepped[0] - 11) <= 1);
    await page.getByRole('button', { name: 'As found' }).click();
    await eventually(async () => String((await places())[2]), String(start));

    const size = page.getByText(/^\d+ × \d+ pixels$/);
    const is_wide = async () => {
      const [width = 0, height = 0] = ((await size.innerText()).match(/\d+/g) ?? []).map(Number);
      return width > height;
    };
    await eventually(is_wide, false);
    const turn = page.getByRole('button', { name: 'Turn by a quarter' });
    await turn.click();
    await eventually(is_wide, true);
    for (let press = 0; press < 3; press++) await turn.click();
    await eventually(is_wide, false);

    const save = page.getByRole('button', { name: 'Save the card beside it' });
    await save.and(page.locator(':enabled')).waitFor();
    await save.click();
    await page.getByText(/^Written:/).waitFor();
    const made = bytes_of(scene, 'art/table-straight.png');
    const { width, height } = size_of(made);
    assert.ok(Math.abs(width / height - 63.5 / 88.9) < 0.01, `${width} by ${height}`);
    // As photographed: nothing of the table in the corners, each part where it was.
    for (const [u, v] of [
      [0.03, 0.5],
      [0.97, 0.5],
      [0.5, 0.02],
      [0.5, 0.98],
    ] as const) {
      assert.ok(apart(pixel(made, u, v), INKS.paper) < 12, `paper at ${u}, ${v}`);
    }
    assert.ok(apart(pixel(made, 0.5, 0.3), INKS.foam) < 8);
    assert.ok(apart(pixel(made, 0.5, 0.75), INKS.coral) < 8);
  },
);

flow(
  'all cards of a screenshot are taken out but one',
  { at: bench('art/spread.png', 'straighten'), only, prepare: with_screenshot },
  async (page, scene) => {
    const ticks = page.getByRole('checkbox', { name: /^Card \d/ });
    await eventually(() => ticks.count(), 6);
    for (const at of [1, 2, 4, 5]) await ticks.nth(at).uncheck();
    const save = page.getByRole('button', { name: 'Save the 2 cards beside it' });
    await save.and(page.locator(':enabled')).waitFor();
    await save.click();
    await page.getByText(/^Written:/).waitFor();
    const folder = join(scene.desk.real?.folder ?? '', 'art');
    const made = readdirSync(folder).filter((name) => /^spread-\d+\.png$/.test(name));
    assert.equal(made.length, 2, made.join());
    for (const name of made) {
      assert.ok(apart(pixel(bytes_of(scene, `art/${name}`), 0.5, 0.3), INKS.foam) < 8, name);
    }
  },
);

flow(
  'a plain ground is cut out, and how far it reaches is chosen',
  { at: bench(FLOAT, 'cut-out'), only, prepare: with_float },
  async (page, scene) => {
    const cut = page.locator('img[alt="Cut out"]');
    await cut.waitFor();
    await page.getByRole('button', { name: 'Black' }).click();
    const ground = () => cut.evaluate((one) => getComputedStyle(one).backgroundColor);
    await eventually(ground, 'rgb(0, 0, 0)');
    const before = await cut.getAttribute('src');
    await page.getByRole('slider', { name: 'How much belongs to the ground' }).press('ArrowRight');
    await eventually(async () => (await cut.getAttribute('src')) !== before, true);
    const save = page.getByRole('button', { name: 'Only save it beside' });
    await save.and(page.locator(':enabled')).waitFor();
    await save.click();
    await page.getByText(/^Written:/).waitFor();
    const made = bytes_of(scene, 'art/finds/buoy-cut-out.png');
    assert.equal(pixel(made, 0.02, 0.02)[3], 0, 'the corner is gone');
    assert.deepEqual(pixel(made, 0.5, 0.3), [...INKS.coral, 255]);
  },
);

flow(
  'by keys alone a picture is found, redrawn, looked at and used',
  { at: 'art', only, prepare: with_float },
  async (page, scene) => {
    const { keyboard } = page;
    await page.getByRole('link', { name: 'buoy.png' }).waitFor();
    await page.locator('#work').focus();
    const tab_to = async (name: RegExp) => {
      for (let press = 0; press < 60; press++) {
        await keyboard.press('Tab');
        const at = await page.evaluate(() => {
          const one = document.activeElement;
          const labels = one instanceof HTMLInputElement ? [...(one.labels ?? [])] : [];
          const words = labels.map((label) => label.textContent ?? '').join(' ');
          return `${one?.getAttribute('aria-label') ?? ''} ${one?.textContent ?? ''} ${words}`;
        });
        if (name.test(at)) return;
      }
      assert.fail(`Tab does not come to ${name}`);
    };
    await tab_to(/buoy\.png/);
    await keyboard.press('Enter');
    await redrawn(page);
    await page.locator('#work').focus();
    await tab_to(/zoom, 0 shows all/);
    await keyboard.press('+');
    await tab_to(/to the right/);
    await keyboard.press('End');
    await eventually(() => slider(page).getAttribute('aria-valuenow'), '100');
    await tab_to(/^\s*Difference/);
    await keyboard.press('Enter');
    await tab_to(/Use the drawing/);
    await keyboard.press('Enter');
    await on_disk(scene.desk, 'cards.csv', ',buoy.svg,');
  },
);

flow(
  'a game without pictures says what to do',
  {
    at: 'art',
    only,
    prepare: (folder) => {
      for (const name of readdirSync(folder)) rmSync(join(folder, name), { recursive: true });
      writeFileSync(
        join(folder, 'game.toml'),
        '[game]\ntitle = "Bare"\n\n[card]\nsize = "poker"\n',
      );
      writeFileSync(join(folder, 'cards.csv'), 'id,name,layout\none,One,layouts/face.toml\n');
      const face =
        '[[element]]\nid = "name"\nkind = "text"\ntext = "{name}"\nat = [5, 5]\nsize = [50, 10]\ntype = 12\n';
      writeFileSync(join(folder, 'face.toml'), face);
    },
  },
  async (page, { desk }) => {
    await page.getByRole('heading', { name: 'No pictures yet: drop one here' }).waitFor();
    assert.equal(existsSync(join(desk.real?.folder ?? '', 'art')), false);
  },
);
