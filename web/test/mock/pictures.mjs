// Pictures of the stand-in: the pack's where there is one, else flat ones that only have the
// right size.

import { existsSync, readFileSync } from 'node:fs';
import { PNG } from 'pngjs';
import { net_rectangles } from './box.mjs';

function flat(width, height, paint) {
  const png = new PNG({ width, height });
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const [r, g, b] = paint(x, y);
      png.data.set([r, g, b, 255], (y * width + x) * 4);
    }
  }
  return PNG.sync.write(png);
}

export class Pictures {
  constructor(pack) {
    this.pack = pack;
    this.kept = new Map();
  }

  /** The pack's picture of a face, else a card of one colour with a band. */
  face(key) {
    const file = this.pack && `${this.pack}/pictures/${key}.png`;
    if (file && existsSync(file)) return readFileSync(file);
    return this.keep('face', () =>
      flat(250, 350, (_x, y) => (y < 200 ? [98, 174, 166] : [245, 237, 220])),
    );
  }

  /** A face with its edge drawn out over the bleed, as far as a picture without one allows. */
  face_with_bleed(key) {
    return this.keep(`bleed ${key}`, () => {
      const { width, height } = this.decoded(key);
      const over = Math.round((width * 3) / 63.5);
      const within = (at, length) => Math.min(0.97, Math.max(0.03, (at - over) / length));
      return flat(width + 2 * over, height + 2 * over, (x, y) => {
        const inside = x >= over && x < width + over && y >= over && y < height + over;
        if (inside) {
          return this.sample(key, (x - over + 0.5) / width, (y - over + 0.5) / height);
        }
        return this.sample(key, within(x, width), within(y, height));
      });
    });
  }

  decoded(key) {
    return this.keep(`decoded ${key}`, () => PNG.sync.read(this.face(key)));
  }

  keep(key, make) {
    if (!this.kept.has(key)) this.kept.set(key, make());
    return this.kept.get(key);
  }

  /** A sheet put together from the faces; `light` multiplies both sides, the back mirrored. */
  sheet(info, sheet, side, width) {
    const scale = Math.min(width, 640) / info.width;
    const size = [Math.round(info.width * scale), Math.round(info.height * scale)];
    const key = `sheet ${sheet.cards.join()} ${side} ${size[0]}`;
    return this.keep(key, () => {
      const at = (x, y) => {
        const mm = [x / scale, y / scale];
        const place = info.trims.findIndex(
          (t) => mm[0] >= t.x && mm[0] < t.x + t.width && mm[1] >= t.y && mm[1] < t.y + t.height,
        );
        if (place < 0 || !sheet.cards[place]) return [255, 255, 255];
        const trim = info.trims[place];
        const front = `cards/${sheet.cards[place]}`;
        const u = (mm[0] - trim.x) / trim.width;
        const v = (mm[1] - trim.y) / trim.height;
        if (side === 'front') return this.sample(front, u, v);
        const back = this.sample('backs/main', side === 'back' ? u : 1 - u, v);
        if (side === 'back') return back;
        return this.sample(front, u, v).map((part, i) => (part * back[i]) / 255);
      };
      return flat(size[0], size[1], at);
    });
  }

  sample(key, u, v) {
    const png = this.decoded(key);
    const x = Math.min(png.width - 1, Math.floor(u * png.width));
    const y = Math.min(png.height - 1, Math.floor(v * png.height));
    const at = (y * png.width + x) * 4;
    const alpha = png.data[at + 3] / 255;
    return [0, 1, 2].map((i) => png.data[at + i] * alpha + 255 * (1 - alpha));
  }

  /** The box's net: panels of paper, the front with the deck's back on it. */
  net(pieces) {
    return this.keep(`net ${pieces}`, () => {
      const { net, panels } = net_rectangles(pieces);
      const scale = 4;
      return flat(Math.round(net.width * scale), Math.round(net.height * scale), (px, py) => {
        const [x, y] = [px / scale, py / scale];
        const on = panels.find(
          (p) => x >= p.left && x < p.left + p.wide && y >= p.top && y < p.top + p.high,
        );
        if (!on) return [255, 255, 255];
        const near = Math.min(x - on.left, on.left + on.wide - x, y - on.top, on.top + on.high - y);
        if (near < 0.15) return [120, 110, 90];
        if (on.name === 'front' || on.name === 'back') {
          return this.sample('backs/main', (x - on.left) / on.wide, (y - on.top) / on.high);
        }
        return [36, 71, 90];
      });
    });
  }
}
