// The stand-in's answers, one for each question of the page.

import { pictures_get, pictures_post } from './art.mjs';
import { box_model } from './box.mjs';
import { MockGame } from './game.mjs';
import { layout_view, schema } from './layout.mjs';
import { likely_cuts, making, work_picture } from './making.mjs';
import { rules_info } from './rules.mjs';
import { printer_get, printer_post } from './printer.mjs';

const PACK = [
  { name: 'home/cards.pdf', bytes: 1204000, what: 'both sides, page after page' },
  { name: 'home/box.pdf', bytes: 88000, what: 'the box, to cut and fold' },
  { name: 'shop/cards.pdf', bytes: 1048000, what: 'one face a page, for a print shop' },
  { name: 'pictures/contact-sheet.png', bytes: 2210000, what: 'all cards at a glance' },
  { name: 'report.json', bytes: 6100, what: 'what was found, in numbers' },
];

function send(response, status, body, type = 'application/json') {
  response.writeHead(status, { 'Content-Type': type });
  response.end(type === 'application/json' ? JSON.stringify(body) : body);
}
const picture = (response, bytes) => send(response, 200, bytes, 'image/png');

async function body_of(request) {
  const parts = [];
  for await (const part of request) parts.push(part);
  return Buffer.concat(parts);
}

export function tell(desk, event, data) {
  for (const listener of desk.listeners) {
    listener.write(`event: ${event}\ndata: ${JSON.stringify(data)}\n\n`);
  }
}
export const tell_state = (desk) => tell(desk, 'state', { revision: desk.game.revision });

export async function answer(desk, request, response, url) {
  const token = request.headers['x-quoin-token'] ?? url.searchParams.get('token');
  if (token !== desk.token) {
    return send(response, 401, { message: 'this address has no key to the desk', hint: '' });
  }
  const path = url.pathname.slice('/api/'.length);
  if (request.method === 'POST') {
    const body = await body_of(request);
    return post(desk, path, body, response, url);
  }
  return get(desk, path, response, url);
}

function get(desk, path, response, url) {
  const { game, pictures } = desk;
  const query = (name) => url.searchParams.get(name) ?? '';
  const pieces = () => game.state().totals.pieces;
  if (path === 'state') return send(response, 200, game.state());
  if (path === 'events') return listen(desk, response);
  if (path.startsWith('picture/')) {
    const key = path.slice('picture/'.length, -'.png'.length);
    return picture(response, query('bleed') ? pictures.face_with_bleed(key) : pictures.face(key));
  }
  if (path.startsWith('sheet/')) {
    const [, index, side] = path.match(/^sheet\/(\d+)\/(front|back|light|uncorrected)\.png$/);
    const { sheets } = game.state();
    const bytes = pictures.sheet(sheets, sheets.sheets[index], side, Number(query('w')));
    return picture(response, bytes);
  }
  if (path.startsWith('box/net') || path.startsWith('box/texture')) {
    return picture(response, pictures.net(pieces()));
  }
  if (path === 'mat') return send(response, 200, { mat: null });
  if (path === 'rules') return send(response, 200, rules_info(game));
  if (path.startsWith('rules/')) return picture(response, pictures.face(''));
  if (path === 'making') return send(response, 200, making(game));
  if (path === 'likely-cuts') return send(response, 200, likely_cuts(game, query('key')));
  if (path.startsWith('cutting/')) {
    return send(response, 200, work_picture(query), 'image/svg+xml');
  }
  if (path === 'box/model.json') return send(response, 200, box_model(pieces()));
  if (path === 'layout') {
    const cards = game.cards();
    const card = cards.find((c) => c.id === query('card')) ?? cards[0];
    return send(response, 200, layout_view(game, query('file'), card));
  }
  if (path === 'schema') return send(response, 200, schema(desk.root));
  if (path === 'fonts') {
    return send(
      response,
      200,
      ['Cabin', 'Noto Sans', 'Vollkorn'].map((family) => ({
        family,
        weights: [400, 700],
        italic: family !== 'Cabin',
      })),
    );
  }
  if (path.startsWith('font-sample/')) return picture(response, pictures.face(''));
  if (path === 'art') {
    return send(response, 200, [
      { file: 'art/back.svg', width: 695, height: 949, bytes: 21000 },
      { file: 'art/icons/shell.svg', width: 100, height: 100, bytes: 900 },
    ]);
  }
  if (path.startsWith('pictures')) {
    const found = pictures_get(desk, path, query);
    if (found) return send(response, 200, found.json ?? found.body, found.type);
  }
  if (path === 'element-strip') return send(response, 200, strip(game, query));
  if (path === 'pack') {
    return send(response, 200, {
      files: desk.written ? PACK : [],
      written: desk.written,
      report: {},
    });
  }
  if (path === 'printer/sheet.pdf') return send(response, 200, '%PDF-', 'application/pdf');
  const of_printers = printer_get(path);
  if (of_printers) return send(response, 200, of_printers);
  if (path === 'pack/file') return send(response, 200, 'file', 'application/octet-stream');
  return send(response, 404, { message: `the desk has no ${path}`, hint: '' });
}

function strip(game, query) {
  return game
    .cards()
    .filter((card) => card.layout === query('file'))
    .flatMap((card) => {
      const found = layout_view(game, card.layout, card).elements.find(
        (element) => element.id === query('element'),
      );
      if (!found) return [];
      const { x, y, width, height } = found.box;
      return [{ card: card.id, x, y, w: width, h: height }];
    });
}

function listen(desk, response) {
  response.writeHead(200, { 'Content-Type': 'text/event-stream', 'Cache-Control': 'no-store' });
  response.write(': here\n\n');
  desk.listeners.add(response);
  response.on('close', () => desk.listeners.delete(response));
}

function post(desk, path, body, response, url) {
  const { game } = desk;
  if (path === 'upload') {
    return send(response, 200, { file: url.searchParams.get('to') });
  }
  if (path === 'new-picture') return send(response, 200, { ok: true });
  if (path === 'printer/scan') return send(response, ...printer_post(path));
  const asked = JSON.parse(body.toString() || '{}');
  const of_pictures = pictures_post(desk, path, asked);
  if (of_pictures) return send(response, 200, of_pictures);
  if (path === 'edit') return edit(desk, asked, response);
  const of_printers = printer_post(path, asked);
  if (of_printers) return send(response, ...of_printers);
  if (path === 'undo' || path === 'redo') {
    const label =
      path === 'undo' ? game.step(game.past, game.future) : game.step(game.future, game.past);
    tell_state(desk);
    return send(response, 200, { ok: label !== null, revision: game.revision, label });
  }
  if (path === 'conflict') {
    game.conflicts = game.conflicts.filter((conflict) => conflict.id !== asked.id);
    game.changed();
    tell_state(desk);
    return send(response, 200, { ok: true, revision: game.revision });
  }
  if (path === 'make') return make(desk, response);
  if (path === 'stop') {
    desk.work.state = 'stopped';
    desk.work.words = 'Stopped. The earlier pack is as it was.';
    tell(desk, 'work', desk.work);
    return send(response, 200, { ok: true });
  }
  if (path === 'open') return send(response, 200, { ok: true });
  if (path === 'new') {
    desk.game = new MockGame(`${desk.root}/examples/tidewrack`);
    desk.game.revision = 2;
    tell_state(desk);
    return send(response, 200, { ok: true });
  }
  return send(response, 404, { message: `the desk has no ${path}`, hint: '' });
}

function edit(desk, asked, response) {
  const wrong = asked.changes.find((change) => change.text === 'refuse this');
  if (wrong) {
    return send(response, 422, {
      message: 'the list cannot hold these words',
      hint: 'write other words',
      findings: [],
    });
  }
  desk.game.edit(asked);
  tell_state(desk);
  return send(response, 200, { ok: true, revision: desk.game.revision });
}

function make(desk, response) {
  const work = {
    id: `make-${Date.now()}`,
    what: 'make',
    done: 0,
    of: 60,
    state: 'running',
    words: 'drawing the cards',
  };
  desk.work = work;
  send(response, 200, { id: work.id });
  const step = () => {
    if (work.state !== 'running') return;
    work.done += 4;
    if (work.done >= work.of) {
      work.state = 'done';
      work.words = 'The pack is written.';
      desk.written = true;
    }
    tell(desk, 'work', work);
    if (work.state === 'running') setTimeout(step, 80);
  };
  setTimeout(step, 50);
}
