// How the stand-in's game is cut: a plan of nine cards to a sheet, as the desk tells one.

const cut = (words, setting, cuts, turn) => ({ words, setting, cuts, turn });
const STEPS = [
  cut('Lay the stack under the blade and cut off the left margin by the marks.', null, 1, 0),
  cut('Turn the stack a quarter clockwise and cut off the next margin by the marks.', null, 1, 1),
  cut('Turn the stack a quarter clockwise and cut off the third margin by the marks.', null, 1, 1),
  cut('Turn the stack a quarter anticlockwise. Set 88.9 mm. Cut 3 times.', '88.9', 3, 3),
  cut('Turn the strips a quarter clockwise. Set 63.5 mm. Cut 6 times.', '63.5', 6, 1),
];
const hand = (kind, title, count, net) => ({ kind, title, words: `${title} by hand`, count, net });

export function making(game) {
  const state = game.state();
  const sheets = state.sheets?.sheets.map((sheet) => sheet.index) ?? [];
  const stacks = Math.ceil(sheets.length / 2);
  const trims = state.sheets?.trims ?? [];
  const rows = [{ what: 'Sheets of cards', values: [1, 5, 20].map((n) => `${n * sheets.length}`) }];
  return {
    revision: state.revision,
    wishes: {
      tool: 'rotary trimmer',
      stack: null,
      'stack-sheets': null,
      repeatability: null,
      fence: null,
      order: 'fewest-settings',
      'corner-punch': 3.5,
      target: 0.05,
      evenness: 0.6,
    },
    cutting: {
      stamp: `stand-in ${sheets.length}`,
      tool: 'rotary trimmer',
      fence: true,
      cuts: 12 * stacks,
      stacks,
      settings: 2,
      time: '46 min: print 4 min, cut 9 min, round the corners 14 min, box 19 min',
      spares: 'cuts within 0.8 mm; no spare sheets needed',
      kinds: [
        {
          words: `${sheets.length} sheets of 9 cards, 2 at a time: ${stacks} stacks of 12 cuts`,
          sheets,
          pieces: 9,
          atOnce: 2,
          stacks,
          steps: STEPS,
        },
      ],
      hand: [
        hand('punch', 'Round the corners', 4 * state.totals.cards, null),
        hand('crease', 'Crease the box', 10, 0),
        hand('cut', 'Cut out the box', 60, 0),
        hand('glue', 'Glue the box', 1, 0),
      ],
      cautions: ['The guard stays on. What the maker of your tool says comes first.'],
    },
    costs: {
      decks: [1, 5, 20],
      groups: [{ title: 'Paper', rows: rows.map((row) => ({ ...row, sum: false })) }],
      quotations: ['copy-shop: 240.00 EUR for 20 decks, 12.00 EUR a deck'],
      notes: ['the prices are an example, of no shop'],
    },
    register: {
      known: 'assumed',
      printer: '',
      corrected: false,
      words: ['how far backs stray is assumed, as is usual for such a printer'],
      bands: trims.map((trim) => ({ trim, reachX: 1.7, reachY: 1.6 })),
    },
  };
}

/** Forty cuts that stray by up to half a millimetre, or twice that on backs. */
export function likely_cuts(game, key) {
  const { width, height, bleed } = game.state().card;
  const most = key.startsWith('backs/') ? 1 : 0.5;
  const cuts = Array.from({ length: 40 }, (_, card) => {
    const by = (edge) => most * Math.sin(card * 7 + edge * 3);
    const [left, top, right, bottom] = [by(0), by(1), width + by(2), height + by(3)];
    return [left, top, right, top, right, bottom, left, bottom];
  });
  return {
    key,
    cuts,
    bleed,
    chances: ['none shows a white edge', 'none is clipped'],
    rare: '1 in 20',
    remedies: [{ what: 'bleed', has: '3.0 mm', needs: '0.6 mm', enough: true }],
  };
}

export function work_picture(query) {
  const ink = query('ink') === 'dark' ? '#eee6d6' : '#1f2a33';
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${query('w')} ${query('h')}">` +
    `<path d="M40 40H200V200H40z" fill="none" stroke="${ink}" stroke-width="4"/></svg>`
  );
}
