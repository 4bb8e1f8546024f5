// Findings as the desk words them. Those about copies and too long names follow the list, so that
// a test can bring them about and mend them.

const base = { details: [], hints: [], place: null, piece: '', element: '', source: '' };

export function mock_findings(game, cards) {
  const found = [];
  for (const card of cards) {
    const copies = game.column(card.cells, 'copies');
    if (copies !== '' && !/^\d+$/.test(copies)) found.push(bad_copies(game, card, copies));
    if (game.column(card.cells, 'name').length > 24) found.push(long_name(card));
  }
  found.push(soft_picture, low_contrast, touching);
  return found;
}

function place_of(game, card, column) {
  let line = 2;
  for (const row of game.content.rows.slice(0, card.row)) {
    line += 1 + row.join('').split('\n').length - 1;
  }
  const index = game.content.columns.indexOf(column);
  const width = (cell) => cell.length + (/[",\n]/.test(cell) ? 2 : 0) + 1;
  const at = card.cells.slice(0, index).reduce((sum, cell) => sum + width(cell), 1);
  return { file: 'cards.csv', line, column: at, length: card.cells[index].length };
}

const bad_copies = (game, card, text) => ({
  ...base,
  id: 'game.copies',
  severity: 'error',
  message: `"${text}" copies of ${card.id}: a whole number from 0 to 999 is expected`,
  hints: ['write 1, or leave the cell empty for one copy'],
  piece: '',
  place: place_of(game, card, 'copies'),
  title: 'How many copies of a card is not clear',
  onTheTable: 'The card is not in the deck, or the deck is not printed at all.',
  remedy: 'Write a whole number; 0 leaves the card out.',
});

const long_name = (card) => ({
  ...base,
  id: 'card.text-too-long',
  severity: 'warning',
  piece: `cards/${card.id}`,
  element: 'name',
  message: 'the words of name need 8.4 mm and have 6 mm, even at 10.5 pt',
  hints: ['shorten the text, or give the element 2.4 mm more height'],
  place: { file: 'layouts/face.toml', line: 35, column: 1, length: 4 },
  title: 'Words do not fit their place',
  onTheTable: 'The last words are cut off.',
  remedy: 'Shorten the text, or make its place larger.',
});

const soft_picture = {
  ...base,
  id: 'art.low-resolution',
  severity: 'warning',
  piece: 'cards/last-light',
  element: 'art',
  message: 'art/sea/last-light.png prints at 171 ppi; edges will look soft',
  details: ['the picture is 468 px wide and covers 69.5 mm with its bleed; 300 ppi needs 821 px'],
  hints: ['redraw it as vectors with quoin trace, or use a picture of 821 px or more'],
  place: { file: 'layouts/special.toml', line: 13, column: 1, length: 7 },
  source: 'picture = "art/sea/{art}"',
  title: 'A picture has too few pixels for its size',
  onTheTable: 'Edges look soft and fine lines break into steps.',
  remedy: 'Use a larger picture, or draw it as vectors.',
};

const low_contrast = {
  ...base,
  id: 'card.low-contrast',
  severity: 'warning',
  piece: 'cards/rope-1',
  element: 'suit-name',
  message: 'the words of suit-name have a contrast of 4.2 to 1, under 4.5',
  hints: ['darken the colour to #6f4c0c'],
  place: { file: 'layouts/face.toml', line: 78, column: 1, length: 6 },
  title: 'Words stand out too little from what lies behind them',
  onTheTable: 'By lamplight, or with tired eyes, the words cannot be read across a table.',
  remedy: 'Make the words darker or what lies behind them lighter.',
};

const touching = {
  ...base,
  id: 'sheet.neighbours-touch',
  severity: 'note',
  message: 'cards touch with 0 mm between them although their edges differ',
  details: ['a cut 0.5 mm off shows 0.5 mm of the neighbouring card'],
  hints: ['spacing = "gutters" puts 6 mm between them, for fewer to a sheet'],
  place: { file: 'game.toml', line: 138, column: 1, length: 8 },
  source: '[sheets]',
  title: 'Neighbouring cards share a cut and look different',
  onTheTable: 'A sliver of the neighbouring card shows along an edge when the cut wanders.',
  remedy: 'Give each card its own bleed with spacing = "gutters".',
};
