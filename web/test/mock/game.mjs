// A game in memory that answers as the desk does: the demo game's real list and layouts, edited
// by value, with undo. What it does not do is draw: a card looks the same after an edit.

import { readFileSync } from 'node:fs';
import { parse } from 'smol-toml';
import { read_csv } from './csv.mjs';
import { box_info } from './box.mjs';
import { mock_findings } from './findings.mjs';

const CARD = {
  width: 63.5,
  height: 88.9,
  corner: 3.5,
  bleed: 3,
  safe: 3,
  sizeName: 'poker',
};

export class MockGame {
  constructor(folder) {
    this.folder = folder;
    this.revision = 1;
    this.past = [];
    this.future = [];
    this.conflicts = [];
    this.empty = folder === '';
    if (!this.empty) this.read();
    this.group = '';
    this.stamp = 1;
  }

  read() {
    const text = (name) => readFileSync(`${this.folder}/${name}`, 'utf8');
    const [columns, ...rows] = read_csv(text('cards.csv'));
    const game = parse(text('game.toml'));
    const files = {};
    for (const name of ['face', 'special', 'rule', 'frame', 'back']) {
      files[`layouts/${name}.toml`] = parse(text(`layouts/${name}.toml`));
    }
    this.content = { columns, rows, game, files };
  }

  column(row, name) {
    return row[this.content.columns.indexOf(name)] ?? '';
  }

  cards() {
    const kinds = { rule: 'rule', find: 'face' };
    return this.content.rows.map((row, index) => ({
      id: this.column(row, 'id'),
      row: index,
      copies: this.column(row, 'copies') === '' ? 1 : Number(this.column(row, 'copies')) || 0,
      suit: this.column(row, 'suit'),
      deck: 'main',
      cells: row,
      front: `cards/${this.column(row, 'id')}`,
      back: 'backs/main',
      layout: `layouts/${kinds[this.column(row, 'kind')] ?? 'special'}.toml`,
    }));
  }

  state() {
    if (this.empty) return empty_state(this.revision);
    const cards = this.cards();
    const pieces = cards.reduce((sum, card) => sum + card.copies, 0);
    const findings = mock_findings(this, cards);
    const many = (severity) => findings.filter((f) => f.severity === severity).length;
    const back = { key: 'backs/main', stamp: '1' };
    const fronts = cards.map((card) => ({ key: card.front, stamp: String(this.stamp) }));
    const layouts = ['face', 'special', 'rule', 'back'].map((name) => ({
      file: `layouts/${name}.toml`,
      cards: cards.filter((card) => card.layout === `layouts/${name}.toml`).length,
      isBack: name === 'back',
    }));
    return {
      revision: this.revision,
      stateOf: 'game',
      folder: 'tidewrack',
      title: this.content.game.game.title,
      subtitle: this.content.game.game.subtitle,
      card: CARD,
      stock: 'uncoated card, 250 g/m²',
      columns: this.content.columns,
      suits: Object.entries(this.content.game.suits).map(([id, suit]) => ({
        id,
        name: suit.name,
        colour: suit.colour,
      })),
      decks: [{ id: 'main', name: 'Tidewrack', cards: pieces, back: 'backs/main' }],
      cards,
      drawings: [...fronts, back],
      layouts,
      totals: {
        rows: cards.length,
        cards: pieces,
        pieces,
        backs: 1,
        sheets: Math.ceil(pieces / 9),
      },
      deckHeight: { low: pieces * 0.285, high: pieces * 0.33 },
      sheets: sheets_info(cards),
      box: box_info(pieces),
      findings,
      errors: many('error'),
      warnings: many('warning'),
      notes: many('note'),
      undo: this.past.at(-1)?.label ?? null,
      redo: this.future.at(-1)?.label ?? null,
      conflicts: this.conflicts,
      list: 'cards.csv',
      checked: true,
    };
  }

  edit({ label, changes, group, transient }) {
    const before = structuredClone(this.content);
    for (const change of changes) apply(this.content, change, this);
    const joined = group !== undefined && group === this.group;
    if (!joined && !transient) this.past.push({ label, content: this.before ?? before });
    if (transient) this.before ??= before;
    else this.before = undefined;
    if (!transient) this.group = group ?? '';
    this.future = [];
    this.changed();
  }

  changed() {
    this.revision += 1;
    this.stamp += 1;
  }

  step(from, to) {
    const state = from.pop();
    if (!state) return null;
    to.push({ label: state.label, content: this.content });
    this.content = state.content;
    this.group = '';
    this.changed();
    return state.label;
  }
}

function apply(content, change, game) {
  const row = content.rows.findIndex((cells) => cells[0] === change.id);
  if (change.kind === 'cell') {
    content.rows[row][content.columns.indexOf(change.column)] = change.text;
  } else if (change.kind === 'rows') apply_rows(content, change, row, game);
  else if (change.kind === 'value') set_value(content, change);
  else if (change.kind === 'element') apply_element(content.files[change.file], change);
  else apply_column(content, change);
}

function apply_rows(content, change, row, game) {
  if (change.op === 'remove') content.rows.splice(row, 1);
  else if (change.op === 'move') content.rows.splice(change.to, 0, ...content.rows.splice(row, 1));
  else {
    const made = change.op === 'copy' ? [...content.rows[row]] : content.columns.map(() => '');
    made[0] = free_id(content, change.op === 'copy' ? made[0] : 'card');
    for (const [name, text] of Object.entries(change.values ?? {})) {
      made[content.columns.indexOf(name)] = text;
    }
    content.rows.splice(change.to ?? row + 1, 0, made);
    game.stamp += 1;
  }
}

function free_id(content, near) {
  const stem = near.replace(/-\d+$/, '');
  let number = 1;
  while (content.rows.some((cells) => cells[0] === `${stem}-${number}`)) number += 1;
  return `${stem}-${number}`;
}

function apply_column(content, change) {
  const at = content.columns.indexOf(change.column);
  if (change.op === 'add') {
    content.columns.push(change.column);
    for (const row of content.rows) row.push('');
  } else if (change.op === 'remove') {
    content.columns.splice(at, 1);
    for (const row of content.rows) row.splice(at, 1);
  } else content.columns[at] = change.to;
}

function set_value(content, change) {
  let table = content.files[change.file] ?? content.game;
  for (const key of change.path.slice(0, -1)) table = table[key] ??= {};
  const last = change.path.at(-1);
  if (change.value === null) delete table[last];
  else table[last] = change.value;
}

function apply_element(file, change) {
  const list = (file.element ??= []);
  const at = Number(change.path[1]);
  if (change.op === 'add') list.splice(Number.isFinite(at) ? at : list.length, 0, change.value);
  else if (change.op === 'remove') list.splice(at, 1);
  else list.splice(change.to, 0, ...list.splice(at, 1));
}

function sheets_info(cards) {
  const all = cards.flatMap((card) => Array(card.copies).fill(card.id));
  const sheets = [];
  for (let at = 0; at < all.length; at += 9) {
    const on = all.slice(at, at + 9);
    while (on.length < 9) on.push('');
    sheets.push({ index: sheets.length, hasBack: true, cards: on });
  }
  const trims = [...Array(9).keys()].map((place) => ({
    x: 9.75 + (place % 3) * CARD.width,
    y: 15.15 + Math.floor(place / 3) * CARD.height,
    width: CARD.width,
    height: CARD.height,
  }));
  return {
    width: 210,
    height: 297,
    paper: 'A4',
    columns: 3,
    rows: 3,
    turned: false,
    flip: 'long-edge',
    backs: 'printer',
    trims,
    sheets,
    choices: [
      'grid: 9 to a sheet as 3 x 3, upright on portrait A4, edges touching',
      'order: as in the list, row by row from the top left of each sheet',
      'backs: by the printer, turned about the long edge',
    ],
  };
}

function empty_state(revision) {
  return {
    revision,
    stateOf: 'empty',
    folder: 'new-game',
    title: '',
    subtitle: '',
    card: CARD,
    stock: '',
    columns: [],
    suits: [],
    decks: [],
    cards: [],
    drawings: [],
    layouts: [],
    totals: { rows: 0, cards: 0, pieces: 0, backs: 0, sheets: 0 },
    deckHeight: null,
    sheets: null,
    box: null,
    findings: [],
    errors: 0,
    warnings: 0,
    notes: 0,
    undo: null,
    redo: null,
    conflicts: [],
    list: '',
    checked: true,
  };
}
