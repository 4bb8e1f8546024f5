// A stand-in for the desk's server: the same answers, from the demo game held in memory.
// `npm run mock` starts it and prints its address. QUOIN_MOCK_PACK names a pack of the demo game,
// for real pictures of its cards.

import { createServer } from 'node:http';
import { existsSync, readFileSync } from 'node:fs';
import { extname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { answer } from './routes.mjs';
import { MockGame } from './game.mjs';
import { Pictures } from './pictures.mjs';

const dist = fileURLToPath(new URL('../../dist', import.meta.url));
const root = fileURLToPath(new URL('../../..', import.meta.url));
const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
  '.png': 'image/png',
};
const RULES =
  "default-src 'self'; img-src 'self' blob: data:; style-src 'self'; " +
  "connect-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'";

export function start_mock({ port = 0, empty = false } = {}) {
  const token = 'mock-token';
  const game = new MockGame(empty ? '' : `${root}/examples/tidewrack`);
  const desk = {
    token,
    root,
    game,
    pictures: new Pictures(process.env.QUOIN_MOCK_PACK ?? ''),
    listeners: new Set(),
    away: false,
    work: null,
    written: false,
  };
  const server = createServer((request, response) => {
    if (desk.away) return void request.socket.destroy();
    const url = new URL(request.url, 'http://desk');
    const api = url.pathname.startsWith('/api/');
    Promise.resolve(api ? answer(desk, request, response, url) : file(url, response)).catch(
      (problem) => {
        response.writeHead(500, { 'Content-Type': 'application/json' });
        response.end(JSON.stringify({ message: String(problem), hint: '' }));
      },
    );
  });
  return new Promise((ready) => {
    server.listen(port, '127.0.0.1', () => {
      const address = `http://127.0.0.1:${server.address().port}`;
      ready({
        desk,
        address: `${address}/#${token}`,
        stop: () => {
          for (const listener of desk.listeners) listener.end();
          server.closeAllConnections();
          server.close();
        },
      });
    });
  });
}

function file(url, response) {
  const path = url.pathname === '/' ? '/index.html' : url.pathname;
  if (path.includes('..') || !existsSync(dist + path)) {
    response.writeHead(404);
    return response.end();
  }
  response.writeHead(200, {
    'Content-Type': TYPES[extname(path)] ?? 'application/octet-stream',
    'Content-Security-Policy': RULES,
    'X-Content-Type-Options': 'nosniff',
    'Referrer-Policy': 'no-referrer',
  });
  return response.end(readFileSync(dist + path));
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const empty = process.argv.includes('--empty');
  const { address } = await start_mock({ port: 8077, empty });
  console.log(address);
}
