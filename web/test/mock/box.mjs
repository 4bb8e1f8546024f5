// A tuck box as the desk describes it, reckoned plainly: thickness is drawn, not allowed for.

const BOARD = 0.4;

function sizes(pieces) {
  const depth = pieces * 0.31;
  return { width: 65, height: 90.4, depth: depth + 1.6 };
}

export function box_info(pieces) {
  const clear = sizes(pieces);
  const pile = { low: pieces * 0.285, high: pieces * 0.33 };
  const net = net_size(clear);
  return {
    kind: 'tuck',
    title: 'Tuck box',
    board: BOARD,
    pile,
    clear,
    words: 'A carton in one piece; the top is tucked in behind the front.',
    outside: {
      width: clear.width + 0.8,
      height: clear.height + 1.6,
      depth: clear.depth + 0.8,
    },
    deck: { width: 63.5, height: 88.9, depth: pile },
    room: {
      width: { low: 1.3, high: 1.7 },
      height: { low: 1.2, high: 1.8 },
      depth: { low: clear.depth - pile.high, high: clear.depth - pile.low },
    },
    steps: [
      'fold the sides up',
      'bring the front over',
      'glue the side flap',
      'close the bottom',
      'put the deck in',
      'tuck the top in',
    ],
    nets: [{ name: 'box', ...net }],
    stamp: `box-${pieces}`,
  };
}

function net_size({ width, height, depth }) {
  return { width: 2 * width + 2 * depth + 12 + 20, height: height + 2 * depth + 30 + 20 };
}

/** Panels as rectangles on the net with the hinge to their parent; the back panel lies still. */
function panels({ width: w, height: h, depth: d }) {
  const [x, y] = [10 + d, 10 + d + 15];
  const rect = (name, left, top, wide, high, hinge) => ({ name, left, top, wide, high, hinge });
  return [
    rect('back', x, y, w, h, null),
    rect('left side', x - d, y, d, h, { of: 0, axis: 'y', at: x, sign: 1, from: 0, to: 1 }),
    rect('right side', x + w, y, d, h, { of: 0, axis: 'y', at: x + w, sign: -1, from: 0, to: 1 }),
    rect('front', x + w + d, y, w, h, {
      of: 2,
      axis: 'y',
      at: x + w + d,
      sign: -1,
      from: 1,
      to: 2,
    }),
    rect('glue flap', x + w + d + w, y + 2, 12, h - 4, {
      of: 3,
      axis: 'y',
      at: x + 2 * w + d,
      sign: -1,
      from: 1,
      to: 2,
    }),
    rect('bottom', x, y + h, w, d, { of: 0, axis: 'x', at: y + h, sign: -1, from: 3, to: 4 }),
    rect('bottom tuck', x + 1, y + h + d, w - 2, 14, {
      of: 5,
      axis: 'x',
      at: y + h + d,
      sign: -1,
      from: 3,
      to: 4,
    }),
    rect('top', x, y - d, w, d, { of: 0, axis: 'x', at: y, sign: 1, from: 5, to: 6 }),
    rect('top tuck', x + 1, y - d - 14, w - 2, 14, {
      of: 7,
      axis: 'x',
      at: y - d,
      sign: 1,
      from: 5,
      to: 6,
    }),
  ];
}

const multiply = (a, b) =>
  [0, 1, 2].flatMap((row) =>
    [0, 1, 2, 3].map((column) => {
      const sum = [0, 1, 2].reduce((s, k) => s + a[row * 4 + k] * b[k * 4 + column], 0);
      return sum + (column === 3 ? a[row * 4 + 3] : 0);
    }),
  );

/** Turns about a line of the net, by at most a right angle, towards +z (away from the eye). */
function turn(hinge, progress) {
  if (!hinge) return [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0];
  const part = Math.min(1, Math.max(0, (progress - hinge.from) / (hinge.to - hinge.from)));
  const angle = (hinge.sign * part * Math.PI) / 2;
  const [c, s, at] = [Math.cos(angle), Math.sin(angle), hinge.at];
  if (hinge.axis === 'y') return [c, 0, s, at - c * at, 0, 1, 0, 0, -s, 0, c, s * at];
  return [1, 0, 0, 0, 0, c, s, at - c * at, 0, -s, c, s * at];
}

function mesh(panel, net) {
  const corners = [
    [0, 0],
    [1, 0],
    [1, 1],
    [0, 1],
  ].map(([u, v]) => [panel.left + u * panel.wide, panel.top + v * panel.high]);
  const positions = [
    ...corners.flatMap(([x, y]) => [x, y, 0]),
    ...corners.flatMap(([x, y]) => [x, y, BOARD]),
  ];
  const edge = [0, 1, 2, 3].flatMap((a) => {
    const b = (a + 1) % 4;
    return [a, b, b + 4, a, b + 4, a + 4];
  });
  const uvs = [...corners, ...corners].flatMap(([x, y]) => [x / net.width, y / net.height]);
  return {
    name: panel.name,
    seen: true,
    upright: 0,
    outline: corners,
    positions,
    normals: [...Array(4).fill([0, 0, -1]).flat(), ...Array(4).fill([0, 0, 1]).flat()],
    uvs,
    printed: [0, 2, 1, 0, 3, 2],
    inside: [4, 5, 6, 4, 6, 7],
    edge,
  };
}

export function box_model(pieces) {
  const clear = sizes(pieces);
  const net = net_size(clear);
  const all = panels(clear);
  const frames = [];
  for (let at = 0; at <= 6 * 24; at++) {
    const progress = at / 24;
    const poses = [];
    for (const panel of all) {
      const own = turn(panel.hinge, progress);
      poses.push(panel.hinge ? multiply(poses[panel.hinge.of], own) : own);
    }
    frames.push({ progress, poses: [poses] });
  }
  const deck = pieces * 0.31;
  const back = all[0];
  return {
    stamp: `box-${pieces}`,
    thickness: BOARD,
    frames,
    deckGoesIn: 4.5,
    parts: [
      {
        name: 'box',
        panels: all.map((panel) => mesh(panel, net)),
        texture: '/api/box/texture/0.png',
        inside: null,
      },
    ],
    bounds: { low: [0, 0, -10], high: [net.width, net.height, 40] },
    deck: { at: [back.left + 0.75, back.top + 0.75, 0.8], size: [63.5, 88.9, deck] },
    steps: box_info(pieces).steps,
  };
}

/** The net as rectangles for a plain picture of it. */
export function net_rectangles(pieces) {
  const clear = sizes(pieces);
  return { net: net_size(clear), panels: panels(clear) };
}
