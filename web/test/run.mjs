// Runs the tests one file after the other. TypeScript is stripped by Node.js itself where it can,
// and by esbuild, which Vite brings along, where it cannot (Node.js 18 and 20).

import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const here = fileURLToPath(new URL('.', import.meta.url));
const made = `${here}made`;
rmSync(made, { recursive: true, force: true });
mkdirSync(made);
const wanted = process.argv.slice(2);
const tests = readdirSync(here).filter(
  (name) =>
    name.endsWith('.test.ts') &&
    (wanted.length === 0 || wanted.some((word) => name.includes(word))),
);
await build({
  entryPoints: tests.map((name) => here + name),
  outdir: made,
  bundle: true,
  platform: 'node',
  format: 'esm',
  outExtension: { '.js': '.mjs' },
  packages: 'external',
  external: ['./mock/*'],
  logLevel: 'error',
  plugins: [
    {
      name: 'mock',
      setup: (b) =>
        b.onResolve({ filter: /^\.\/mock\// }, (asked) => ({
          path: `.${asked.path}`,
          external: true,
        })),
    },
  ],
});
const files = tests.map((name) => `${made}/${name.replace(/\.ts$/, '.mjs')}`);
const run = spawnSync(process.execPath, ['--test', '--test-concurrency=1', ...files], {
  stdio: 'inherit',
});
rmSync(made, { recursive: true, force: true });
process.exit(run.status ?? 1);
