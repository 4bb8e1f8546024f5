// The stand-in's answers about printers: one that is known, a measuring sheet with its marks about
// where the real one has them, and one measurement, whatever was read, unless a reading is no number.

const A4 = { width: 210, height: 297 };

function sheet({ width, height }) {
  const dots = (columns, rows, inset) =>
    Array.from({ length: columns * rows }, (_, at) => [
      39 + ((width - 78) * (at % columns)) / (columns - 1),
      inset + ((height - 2 * inset) * Math.floor(at / columns)) / (rows - 1),
    ]);
  const corners = (x, y) => [
    [x, y],
    [width - x, y],
    [width - x, height - y],
    [x, height - y],
  ];
  const letters = (first, y) =>
    corners(25, y).map(([x, at], index) => ({
      letter: String.fromCharCode(first.charCodeAt(0) + index),
      x,
      y: at,
    }));
  const codes = (inset) => corners(55, inset);
  return {
    width,
    height,
    dotSize: 4,
    codeSize: 10.5,
    pinRing: 10,
    scaleReach: 12,
    dots: dots(5, 7, 45),
    codes: codes(45),
    backDots: dots(5, 6, 62),
    backCodes: codes(62),
    pins: [...corners(14, 14), [14, height / 2 - 25], [width - 14, height / 2 - 25]],
    scales: corners(45, 14).flatMap(([x, y], at) => [
      { number: 2 * at + 1, x, y, across: true },
      {
        number: 2 * at + 2,
        x: x < width / 2 ? 14 : width - 14,
        y: y < height / 2 ? 45 : height - 45,
        across: false,
      },
    ]),
    letters: letters('A', 11),
    behind: letters('E', 18),
    bars: [
      { length: 150, x: 30, y: 31, upright: false },
      { length: 200, x: 27, y: 48, upright: true },
    ],
    words: { x: 49, y: 120, width: 112, height: 56 },
  };
}

const behind = [-1, 0, 0, 1, A4.width, 0];
const moved = (x, y) => [-1, 0, 0, 1, A4.width + x, y];
const as_it_is = [1, 0, 0, 1, 0, 0];
function drawing(sheets) {
  const off = [0.62, -0.35];
  const places = Array.from({ length: 20 }, (_, at) => ({
    x: 20 + 56.7 * (at % 4),
    y: 20 + 64.25 * Math.floor(at / 4),
    off,
    sheets: Array.from({ length: sheets }, (_one, sheet) => [off[0] + 0.1 * (sheet - 1), off[1]]),
    reach: 0.35,
  }));
  const meetings = Array.from({ length: sheets + 1 }, (_, sheet) => ({
    sheet,
    frontBefore: as_it_is,
    backBefore: moved(...off),
    frontAfter: as_it_is,
    backAfter: sheet === 0 ? behind : moved(0.1 * (sheet - 2), 0),
  }));
  return { ...A4, magnified: 15, farthest: 0.71, places, within: 0.09, strays: true, meetings };
}
const words = [
  'backs lie 0.62 mm to the right and 0.35 mm up of their fronts, turned 0.000° clockwise',
  'known to ±0.09 mm at the corners',
];
const KNOWN = {
  printer: 'study',
  where: 'game',
  hidden: false,
  name: 'Laser in the study',
  tray: 'bypass',
  stock: '',
  measured: '2026-03-01',
  how: 'eye',
  paper: 'A4',
  backs: 'printer',
  flip: 'long-edge',
  sheets: 3,
  words,
  drawing: drawing(0),
  differs: [],
  broken: [],
};

export function printer_get(path) {
  if (path === 'printers') {
    return {
      uses: '',
      kind: 'laser',
      papers: ['A4', 'Letter'],
      paper: 'A4',
      held: 'upright',
      backs: 'printer',
      flip: 'long-edge',
      today: '2026-11-28',
      machine: true,
      printers: [KNOWN],
    };
  }
  return path === 'printer/sheet' ? sheet(A4) : null;
}

const fault = (element, message, hint) => ({
  id: 'press.reading-not-understood',
  severity: 'error',
  message,
  details: [],
  hints: [hint],
  place: null,
  piece: 'sheet 1',
  element,
  title: 'A reading is not understood',
  onTheTable: 'Nothing was measured.',
  remedy: 'Write it as the line on the sheet shows.',
  source: '',
});

/** The answer's status and body, or nothing for a question that is not about printers. */
export function printer_post(path, asked) {
  if (path === 'printer/scan') return [200, { scan: 'scan' }];
  if (path === 'printer/keep') {
    return [200, { printer: 'study', file: 'printers/study.toml', revision: 1 }];
  }
  if (path !== 'printer/read' && path !== 'printer/scans') return null;
  const odd = asked.sheets.flatMap((one) =>
    (one.scales ?? []).flatMap((text, at) => (/\d/.test(text) ? [] : [`scale ${at + 1}`])),
  );
  if (odd.length > 0) {
    const findings = odd.map((element) =>
      fault(element, `${element} is no line of it`, 'write the number of the line'),
    );
    return [422, { message: findings[0].message, hint: findings[0].hints[0], findings }];
  }
  const sheets = asked.sheets.map(() => 'by eye, known to ±0.15 mm');
  return [
    200,
    {
      id: 'measured',
      printer: 'study',
      words,
      sheets,
      notes: [],
      drawing: drawing(sheets.length),
      differs: [],
    },
  ];
}
