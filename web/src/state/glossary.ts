// The words of the trade that the page uses, each explained once.

export const glossary = {
  trim: 'The finished edge of a card, where the blade cuts.',
  bleed:
    'The drawing goes on past the trim by this much, so that a cut that wanders a little leaves ' +
    'no white edge.',
  'safe area': 'What a wandering cut cannot reach. Words and symbols belong inside it.',
  caliper: 'The thickness of one card or of the board. Measure a pile of twenty and divide.',
  stock: 'What the cards are printed on.',
  grammage: 'The weight of a paper, in grams per square metre, as it stands on the packet.',
  register: 'How well the back of a sheet meets its front through the paper.',
  crease: 'A line that is pressed into the board so that it folds there, and folds straight.',
  net: 'The box before it is folded: one flat piece with cuts and creases.',
  gutter: 'The room between two neighbouring cards on a sheet.',
  fence: 'The stop of a trimmer or guillotine: an edge laid against it is so far from the blade.',
  setting: 'A distance between fence and blade. Setting it anew is what takes time and goes wrong.',
  stack: 'Sheets that lie under the blade together.',
  'likely cuts':
    'Where the cuts of forty cards will fall on this one, if the blade, the fence and the printer ' +
    'stray as they usually do. Drawn at random, always the same.',
  'crop marks': 'Short lines outside the card that show where to lay the blade.',
  slug: 'The line of facts on the edge of a sheet, outside everything that is kept.',
  imposition: 'How the cards are placed on the sheets.',
  clearance: 'The room that is left between the deck and the inside of the box.',
  'dust flap': 'A small flap at the end of a box, below the one that is tucked in.',
  'against the light':
    'Both sides seen through the paper, as when the sheet is held to a window: fronts and backs ' +
    'should lie on each other.',
  suit: 'A group of cards that belong together.',
  corner: 'The radius of the rounded corner, as a corner punch makes it.',
  leading: 'The distance from one line of type to the next, as a multiple of the type size.',
  contrast:
    'How much lighter or darker a colour is than what lies behind it, from 1 to 21. Small type ' +
    'wants 4.5 or more (WCAG 2.2, 1.4.3).',
  ppi:
    'Pixels per inch: how many pixels of a picture come to lie on 25.4 mm of the print. The more, ' +
    'the sharper; what the game asks for stands under [checks] in game.toml.',
  vectors: 'Outlines and colours instead of pixels: sharp at any size.',
  'mean difference':
    'How far the colours of the drawing lie from those of the picture, on average over all pixels ' +
    '(CIEDE2000). Below 1 the eye hardly tells them apart.',
  'worst difference':
    'How far off colours are where the drawing differs most: 95 pixels in 100 are nearer than this ' +
    '(CIEDE2000).',
  likeness:
    'How like each other both are in light and dark, from place to place (SSIM). 1 is the same.',
  nodes: 'The points through which the outlines run. Fewer are easier to edit, more lie closer.',
  'colour profile':
    'Says which colours the numbers in a picture file mean. Without one they are taken as sRGB, the ' +
    'colours of an ordinary screen.',
  'near colours':
    'How near a colour must lie to one of the game to become it, in CIEDE2000: 2 takes what the eye ' +
    'takes for the same, 10 what is plainly another shade of it.',
} as const;

export type TradeWord = keyof typeof glossary;
