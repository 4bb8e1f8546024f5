// The stand-in's pictures: those of the demo game, and three of pixels that print too coarse or lie
// in a photograph.

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { PNG } from 'pngjs';

const STAMP = '0123456789abcdef';
const COLOURS = [
  { colour: '#a9c8c6', name: 'pale aqua', share: 0.55 },
  { colour: '#dd7057', name: 'coral', share: 0.26 },
  { colour: '#1f2f3a', name: 'dark blue', share: 0.11 },
  { colour: '#c8604a', name: 'red', share: 0.08 },
];
/** A float: a disc with two bands, in the colours above. */
function colour_at(u, v) {
  const far = Math.hypot(u - 0.5, v - 0.5);
  if (far > 0.42) return 0;
  if (far > 0.38) return 2;
  if (Math.abs(v - 0.5) < 0.06) return 3;
  return Math.abs(v - 0.5) < 0.09 ? 2 : 1;
}
const rgb = (hex) => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));

function draw(width, height, paint) {
  const png = new PNG({ width, height });
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) png.data.set(paint(x, y), (y * width + x) * 4);
  }
  return PNG.sync.write(png);
}
function float(size, cut = false) {
  return draw(size, size, (x, y) => {
    const parts = [0, 0, 0];
    let ground = 0;
    for (const [i, j] of [0.25, 0.75].flatMap((a) => [0.25, 0.75].map((b) => [a, b]))) {
      const at = colour_at((x + i) / size, (y + j) / size);
      if (at === 0) ground += 1 / 4;
      for (const [k, part] of rgb(COLOURS[at].colour).entries()) parts[k] += part / 4;
    }
    return [...parts, cut ? 255 * (1 - ground) : 255];
  });
}
function photograph() {
  return draw(640, 480, (x, y) => {
    const [u, v] = [x - 320 + 0.18 * (y - 240), y - 240 - 0.12 * (x - 320)];
    const inside = Math.abs(u) < 120 && Math.abs(v) < 165;
    const frame = inside && (Math.abs(u) > 106 || Math.abs(v) > 151);
    const wood = 150 + 18 * Math.sin(y / 7 + Math.sin(x / 40));
    if (!inside) return [wood, wood * 0.78, wood * 0.55, 255];
    return frame ? [245, 237, 220, 255] : [...rgb(COLOURS[v < 20 ? 0 : 1].colour), 255];
  });
}
const svg = (instead) => {
  const ink = COLOURS.map(({ colour }) => instead.find((one) => one.from === colour)?.to ?? colour);
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100"><path fill="${ink[0]}" d="M0 0h100v100H0z"/><circle cx="50" cy="50" r="42" fill="${ink[2]}"/><clipPath id="a"><circle cx="50" cy="50" r="38"/></clipPath><g clip-path="url(#a)"><path fill="${ink[1]}" d="M0 0h100v100H0z"/><path fill="${ink[2]}" d="M0 41h100v18H0z"/><path fill="${ink[3]}" d="M0 44h100v12H0z"/></g></svg>`;
};

const PIXELS = {
  'art/float.png': { width: 150, height: 150, draw: () => float(150) },
  'art/float-small.png': { width: 260, height: 260, draw: () => float(260) },
  'art/table.png': { width: 640, height: 480, draw: photograph },
};
const sizes = (width, height) =>
  [300, 220, 150].map((ppi) => ({
    ppi,
    width: (width / ppi) * 25.4,
    height: (height / ppi) * 25.4,
  }));

function pixels(file, state, pieces, printed) {
  const { width, height } = PIXELS[file];
  const ppi = printed ? width / (printed / 25.4) : null;
  const words = ppi
    ? `Prints at ${Math.round(ppi)} ppi, 300 are wanted: redraw it, or print it no wider than ${((width / 300) * 25.4).toFixed(1)} mm.`
    : 'It is on no piece yet.';
  return {
    file,
    stamp: STAMP,
    kind: 'pixels',
    width,
    height,
    bytes: 24000,
    alpha: false,
    profile: '',
    ppi,
    printed: printed ? { width: printed, height: (printed * height) / width } : null,
    pieces,
    state,
    words,
    sizes: sizes(width, height),
    made: [],
  };
}
function drawings(root) {
  const folder = `${root}/examples/tidewrack/art`;
  return readdirSync(folder, { recursive: true })
    .filter((name) => name.endsWith('.svg'))
    .sort()
    .map((name) => ({
      file: `art/${name}`,
      stamp: STAMP,
      kind: 'vectors',
      width: 695,
      height: 949,
      bytes: 21000,
      alpha: true,
      profile: '',
      ppi: null,
      printed: { width: 63, height: 88 },
      pieces: name === 'back.svg' ? ['back of main'] : ['shell-1', 'shell-2'],
      state: 'vectors',
      words: 'Vectors: sharp at any size.',
      sizes: [],
      made: [],
    }));
}

export function pictures_get(desk, path, query) {
  if (path === 'pictures') {
    const rest = drawings(desk.root);
    return {
      json: {
        revision: desk.game.revision,
        goodPpi: 300,
        leastPpi: 150,
        pictures: [
          pixels('art/float.png', 'coarse', ['glass-6', 'glass-7'], 62),
          pixels('art/float-small.png', 'soft', ['glass-2'], 30),
          ...rest,
          pixels('art/table.png', 'unused', [], 0),
        ],
        colours: ['deep', 'foam', 'coral', 'straw'].map((name, at) => ({
          name,
          colour: ['#24475a', '#a9c8c6', '#dd7057', '#e6b650'][at],
          share: 0,
        })),
        brief: [`1 of ${rest.length + 3} pictures prints too coarse`],
      },
    };
  }
  if (path === 'pictures/original.png') {
    const file = query('file');
    if (PIXELS[file]) return { type: 'image/png', body: PIXELS[file].draw() };
    const place = `${desk.root}/examples/tidewrack/${file}`;
    if (file.includes('..') || !existsSync(place)) return null;
    return { type: 'image/svg+xml', body: readFileSync(place) };
  }
  if (path === 'pictures/redrawn.svg') {
    return { type: 'image/svg+xml', body: svg(JSON.parse(query('id') || '[]')) };
  }
  if (path === 'pictures/difference.png') return { type: 'image/png', body: float(150) };
  if (path === 'pictures/made.png') {
    const cut = query('id') === 'cut-out';
    return { type: 'image/png', body: float(150, cut) };
  }
  return null;
}

/** Two areas of one colour are one. */
function merged(instead) {
  const areas = new Map();
  for (const { colour, name, share } of COLOURS) {
    const now = instead.find((one) => one.from === colour)?.to ?? colour;
    const before = areas.get(now);
    const named = COLOURS.find((one) => one.colour === now)?.name ?? name;
    areas.set(now, { colour: now, name: named, share: share + (before?.share ?? 0) });
  }
  return [...areas.values()];
}

export function pictures_post(desk, path, asked) {
  if (path === 'pictures/redraw') {
    return {
      id: JSON.stringify(asked.instead),
      width: 150,
      height: 150,
      verdict: 'look',
      reasons: ['some outlines run elsewhere'],
      mean: 0.42,
      worst: 2.8,
      ssim: 0.981,
      nodes: asked.closeness === 'closest' ? 61 : 30,
      bytes: 2400,
      colours: merged(asked.instead),
      smallText: [{ x: 50, y: 68, width: 50, height: 14 }],
      findings: [],
    };
  }
  if (path === 'pictures/corners') {
    const [width, height] = [640, 480];
    const corners = [
      { x: 229, y: 62 },
      { x: 465, y: 92 },
      { x: 411, y: 418 },
      { x: 175, y: 388 },
    ];
    return {
      width,
      height,
      grid: false,
      cards: [{ corners, doubts: ['its lower edge is hardly lighter than the table'] }],
    };
  }
  const id = path.slice('pictures/'.length);
  if (['straighten', 'cut-out', 'pull'].includes(id)) {
    const one = { width: 150, height: 150, doubts: [] };
    return { id, pictures: (asked.cards ?? [0]).map(() => one), words: [] };
  }
  if (path === 'pictures/palette') return { colours: COLOURS };
  if (path === 'pictures/accept') {
    desk.game.changed();
    return {
      files: ['art/float.svg'],
      changes: asked.instead ? 2 : 0,
      findings: [],
      revision: desk.game.revision,
    };
  }
  return null;
}
