// Pictures for the tests, drawn here: flat drawings and cards in a photograph; and games with them.

import assert from 'node:assert/strict';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';

const { PNG } = createRequire(import.meta.url)('pngjs');

export type Ink = [number, number, number];
export const INKS = {
  foam: [169, 200, 198],
  coral: [221, 112, 87],
  ink: [31, 47, 58],
  straw: [230, 182, 80],
  brick: [188, 84, 64],
  paper: [245, 237, 220],
} satisfies Record<string, Ink>;

/** Each pixel is the mean of sixteen places in it, as any program smooths edges. */
export function draw(width: number, height: number, paint: (x: number, y: number) => Ink): Buffer {
  const png = new PNG({ width, height });
  const parts = [0.125, 0.375, 0.625, 0.875];
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const sum = [0, 0, 0];
      for (const i of parts) {
        for (const j of parts) {
          for (const [k, part] of paint(x + i, y + j).entries()) sum[k] = (sum[k] ?? 0) + part;
        }
      }
      const at = (y * width + x) * 4;
      for (const [k, part] of sum.entries()) png.data[at + k] = Math.round(part / 16);
      png.data[at + 3] = 255;
    }
  }
  return PNG.sync.write(png);
}

/** A net float on a plain ground: a ring, two halves in near colours, a band. */
export function float_drawing(size: number, ground: Ink = INKS.foam): Buffer {
  return draw(size, size, (x, y) => {
    const [u, v] = [x / size - 0.5, y / size - 0.5];
    const far = Math.hypot(u, v);
    if (far > 0.4) return ground;
    if (far > 0.34 || Math.abs(v) < 0.05) return INKS.ink;
    return v < 0 ? INKS.coral : INKS.brick;
  });
}

type Corner = { x: number; y: number };
/** A card in a photograph taken straight from above, turned: its corners, clockwise from the top
    left. */
export const ON_TABLE: Corner[] = turned_card(320, 240, 190, 266, 9);
function turned_card(x: number, y: number, wide: number, high: number, turn: number): Corner[] {
  const [c, s] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
  return [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([i = 0, j = 0]) => {
    const [dx, dy] = [(i * wide) / 2, (j * high) / 2];
    return { x: x + c * dx - s * dy, y: y + s * dx + c * dy };
  });
}
/** On the card, from 0 to 1 each way. */
function card_face(u: number, v: number): Ink {
  if (Math.min(u, 1 - u) < 0.07 || Math.min(v, 1 - v) < 0.05) return INKS.paper;
  return v < 0.55 ? INKS.foam : INKS.coral;
}
export function photograph(): Buffer {
  const [a, b, , d] = ON_TABLE as [Corner, Corner, Corner, Corner];
  const across = { x: b.x - a.x, y: b.y - a.y };
  const down = { x: d.x - a.x, y: d.y - a.y };
  const share = (p: Corner, along: Corner) =>
    ((p.x - a.x) * along.x + (p.y - a.y) * along.y) / (along.x ** 2 + along.y ** 2);
  return draw(640, 480, (x, y) => {
    const [u, v] = [share({ x, y }, across), share({ x, y }, down)];
    if (u >= 0 && u <= 1 && v >= 0 && v <= 1) return card_face(u, v);
    const grain = 8 * Math.sin(y / 5 + 2 * Math.sin(x / 60)) + 5 * Math.sin(x / 90);
    return [92 + grain, 66 + grain, 48 + grain];
  });
}
/** A screenshot: two rows of three cards on a plain ground. */
export function screenshot(): Buffer {
  return draw(540, 500, (x, y) => {
    const [column, row] = [Math.floor((x - 30) / 164), Math.floor((y - 26) / 228)];
    const u = (x - 30 - column * 164) / 150;
    const v = (y - 26 - row * 228) / 210;
    const on_card = column >= 0 && column < 3 && row >= 0 && row < 2;
    if (!on_card || u < 0 || u > 1 || v < 0 || v > 1) return [40, 44, 48];
    return card_face(u, v);
  });
}

/** The pixel at this share of a PNG's width and height. */
export function pixel(bytes: Buffer, u: number, v: number): number[] {
  const png = PNG.sync.read(bytes);
  const x = Math.min(png.width - 1, Math.floor(u * png.width));
  const y = Math.min(png.height - 1, Math.floor(v * png.height));
  return [...png.data.subarray((y * png.width + x) * 4, (y * png.width + x) * 4 + 4)];
}
export function size_of(bytes: Buffer): { width: number; height: number } {
  const { width, height } = PNG.sync.read(bytes);
  return { width, height };
}
/** The largest of the differences in red, green and blue. */
export const apart = (one: number[], other: number[]): number =>
  Math.max(...[0, 1, 2].map((k) => Math.abs((one[k] ?? 0) - (other[k] ?? 0))));

export const FLOAT = 'art/finds/buoy.png';
/** The address of a picture on the bench. */
export const bench = (file: string, part = '') =>
  `art/${encodeURIComponent(file)}${part ? `/${part}` : ''}`;

/** Four cards of the demo game, and nothing but cards: quickly drawn. */
export function few_cards(folder: string): void {
  const toml = join(folder, 'game.toml');
  const tables = readFileSync(toml, 'utf8').split(/^(?=\[)/m);
  const kept = tables.filter((one) => !/^\[(box|mat|rules)\]/.test(one));
  writeFileSync(toml, kept.join(''));
  rmSync(join(folder, 'rules.md'));
  const list = join(folder, 'cards.csv');
  const rows = readFileSync(list, 'utf8').split('\n');
  const wanted = /^(id|shell-1|shell-2|glass-6|last-light),/;
  writeFileSync(list, `${rows.filter((row) => wanted.test(row)).join('\n')}\n`);
}
/** The net float of a card is a picture of too few pixels. */
export function with_float(folder: string): void {
  few_cards(folder);
  writeFileSync(join(folder, FLOAT), float_drawing(150));
  const list = join(folder, 'cards.csv');
  const before = readFileSync(list, 'utf8');
  assert.ok(before.includes(',float.svg,'));
  writeFileSync(list, before.replace(',float.svg,', ',buoy.png,'));
  const sources = join(folder, 'art/sources.csv');
  const listed = readFileSync(sources, 'utf8').trimEnd();
  writeFileSync(sources, `${listed}\nfinds/buoy.png,Mara Lund,CC0-1.0,\n`);
}
