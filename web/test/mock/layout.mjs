// The layouts of the stand-in's game as the desk hands them out: resolved for one card.

import { readFileSync } from 'node:fs';

const CARD = { width: 63.5, height: 88.9 };

/** Elements in drawing order; each with the file and place it is written at. */
function gather(game, file) {
  const written = game.content.files[file];
  let elements = [];
  if (written.use) elements = gather(game, `layouts/${written.use}`).elements;
  for (const [index, own] of (written.element ?? []).entries()) {
    const at = elements.findIndex((element) => element.table.id === own.id);
    const table = at < 0 ? own : { ...elements[at].table, ...own };
    const made = { table, own, path: ['element', index], file };
    if (at < 0) elements.push(made);
    else elements[at] = made;
  }
  return { elements };
}

export function layout_view(game, file, card) {
  const { elements } = gather(game, file);
  return {
    file,
    elements: elements.map((e) => ({
      ...view(e.table, e.own, e.path, { x: 0, y: 0 }, card, game),
      file: e.file,
    })),
  };
}

function view(table, own, path, origin, card, game) {
  const inset = table.inset ?? 0;
  const at = table.at ?? [inset, inset];
  const size = table.size ?? [CARD.width - 2 * inset, CARD.height - 2 * inset];
  const box = { x: origin.x + at[0], y: origin.y + at[1], width: size[0], height: size[1] };
  return {
    id: table.id,
    kind: table.kind,
    file: '',
    path,
    place: null,
    box,
    turn: table.rotation ?? 0,
    visible: is_visible(table, card, game),
    properties: Object.entries(table)
      .filter(([key]) => key !== 'elements')
      .map(([key, value]) => ({
        key,
        value,
        text: JSON.stringify(value),
        place: null,
        given: key in own,
      })),
    children: (table.elements ?? []).map((child, index) =>
      view(child, child, [...path, 'elements', index], box, card, game),
    ),
  };
}

function is_visible(table, card, game) {
  return Object.entries(table.when ?? {}).every(([column, wanted]) =>
    [wanted].flat().includes(game.column(card.cells, column)),
  );
}

/** The table of keys, taken from the JSON schema of layout files. */
export function schema(root) {
  const json = JSON.parse(readFileSync(`${root}/docs/schemas/layout.schema.json`, 'utf8'));
  const elements = {};
  for (const kind of ['picture', 'text', 'shape', 'repeat', 'group']) {
    elements[kind] = KEYS.filter((facts) => !facts.only || facts.only.includes(kind)).map(
      ({ only, ...facts }) => ({ ...USUAL, section: 'element', ...facts }),
    );
  }
  return { elements, game: {}, of: json.title ?? '' };
}

const USUAL = { unit: '', low: null, high: null, words: [], fallback: '', meaning: '' };
const text = ['text'];
const filled = ['shape'];
const pictured = ['picture', 'repeat'];
const KEYS = [
  { key: 'id', type: 'text', meaning: 'A name of your own; each element has another.' },
  {
    key: 'kind',
    type: 'word',
    words: ['picture', 'text', 'shape', 'repeat', 'group'],
    meaning: 'What it is.',
  },
  { key: 'at', type: 'numbers', unit: 'mm', meaning: 'Its top left corner.' },
  { key: 'size', type: 'numbers', unit: 'mm', meaning: 'Its width and height.' },
  { key: 'inset', type: 'edges', unit: 'mm', meaning: 'How far it keeps from the card’s edges.' },
  {
    key: 'rotation',
    type: 'number',
    unit: 'degrees',
    low: -360,
    high: 360,
    fallback: '0',
    meaning: 'How far it is turned, clockwise.',
  },
  { key: 'opacity', type: 'number', low: 0, high: 1, fallback: '1', meaning: 'How dense it is.' },
  { key: 'when', type: 'conditions', meaning: 'The cards on which it is drawn; else on all.' },
  { key: 'unless', type: 'conditions', meaning: 'The cards on which it is not drawn.' },
  {
    key: 'role',
    type: 'word',
    words: ['art', 'decoration', 'text', 'symbol'],
    meaning: 'What it is for, as far as the checks are concerned.',
  },
  { key: 'text', type: 'text', only: text, meaning: 'The words; {name} puts a column in place.' },
  { key: 'style', type: 'style', only: text, meaning: 'A style of game.toml.' },
  { key: 'font', type: 'text', only: text, fallback: '"Noto Sans"', meaning: 'The family.' },
  {
    key: 'weight',
    type: 'word',
    words: ['regular', 'medium', 'bold'],
    only: text,
    fallback: '"regular"',
    meaning: 'How heavy the letters are.',
  },
  { key: 'italic', type: 'flag', only: text, fallback: 'false', meaning: 'Slanted letters.' },
  {
    key: 'type',
    type: 'number',
    unit: 'pt',
    low: 1,
    high: 400,
    fallback: '9',
    only: text,
    meaning: 'Size of the type.',
  },
  {
    key: 'minimum',
    type: 'number',
    unit: 'pt',
    low: 1,
    high: 400,
    only: text,
    meaning: 'How small the type may become so that the words fit.',
  },
  {
    key: 'leading',
    type: 'number',
    low: 0.5,
    high: 5,
    fallback: '1.2',
    only: text,
    meaning: 'From line to line, as a multiple of the size.',
  },
  {
    key: 'align',
    type: 'word',
    words: ['left', 'centre', 'right'],
    fallback: '"left"',
    only: ['text', 'repeat'],
    meaning: 'Where lines stand.',
  },
  {
    key: 'valign',
    type: 'word',
    words: ['top', 'middle', 'bottom'],
    fallback: '"top"',
    only: ['text', 'repeat'],
    meaning: 'Where the words stand in their place.',
  },
  { key: 'colour', type: 'colour', fallback: '"black"', only: text, meaning: 'Of the letters.' },
  { key: 'picture', type: 'file', only: pictured, meaning: 'The picture’s file.' },
  {
    key: 'fit',
    type: 'word',
    words: ['contain', 'cover', 'stretch'],
    fallback: '"contain"',
    only: ['picture'],
    meaning: 'How the picture fills its place.',
  },
  {
    key: 'shape',
    type: 'word',
    words: ['rectangle', 'ellipse', 'line', 'path'],
    only: filled,
    meaning: 'Which shape.',
  },
  { key: 'fill', type: 'paint', fallback: '"black"', only: filled, meaning: 'What fills it.' },
  { key: 'stroke', type: 'table', only: filled, meaning: 'Its outline.' },
  {
    key: 'radius',
    type: 'number',
    unit: 'mm',
    low: 0,
    high: 100,
    fallback: '0',
    only: filled,
    meaning: 'Of its corners.',
  },
  { key: 'path', type: 'text', only: filled, meaning: 'Path data as in SVG, in millimetres.' },
  { key: 'count', type: 'text', only: ['repeat'], meaning: 'How many.' },
  {
    key: 'gap',
    type: 'number',
    unit: 'mm',
    low: 0,
    high: 100,
    fallback: '0',
    only: ['repeat'],
    meaning: 'Between one and the next.',
  },
];
