// Runs the tests one file after the other and counts what passed. TypeScript is stripped by
// esbuild, which Vite brings along.
//
//   node test/run.mjs [--real PROGRAM] [--looks FOLDER] [--flow TEXT] [WORD...]
//
// With --real each flow has `PROGRAM desk` on a fresh copy of the demo game; without, the stand-in.
// A word picks the files whose names hold it, --flow TEXT the flows. The last line counts.

import { spawn } from 'node:child_process';
import { mkdirSync, readdirSync, rmSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const here = fileURLToPath(new URL('.', import.meta.url));
const made = `${here}made-${process.pid}`;

function read_words(words) {
  const asked = { real: '', looks: '', flow: '', words: [] };
  for (let at = 0; at < words.length; at++) {
    if (words[at] === '--real') asked.real = resolve(words[++at] ?? '');
    else if (words[at] === '--looks') asked.looks = resolve(words[++at] ?? '');
    else if (words[at] === '--flow') asked.flow = words[++at] ?? '';
    else asked.words.push(words[at]);
  }
  return asked;
}

async function bundle(tests) {
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
  return tests.map((name) => `${made}/${name.replace(/\.ts$/, '.mjs')}`);
}

// Shows each test's line, what was measured, and all of a failure; the rest of TAP is left out.
function shown(line, state) {
  const result = /^\s*(not ok|ok) \d+ - (.*?)(?: # (SKIP|TODO) ?(.*))?$/.exec(line);
  if (result) {
    const [, ok, name, skipped, why] = result;
    state.failing = ok === 'not ok';
    if (/\.mjs$/.test(name)) return null;
    return skipped ? `skipped: ${name}: ${why}` : `${state.failing ? 'FAILED' : 'passed'}: ${name}`;
  }
  const told = /^\s*# (.*)$/.exec(line);
  if (
    told &&
    !/^(Subtest:|tests|suites|pass|fail|cancelled|skipped|todo|duration_ms)/.test(told[1])
  ) {
    return `  ${told[1]}`;
  }
  const counted = /^# (pass|fail|cancelled|skipped) (\d+)$/.exec(line);
  if (counted) state[counted[1]] = Number(counted[2]);
  return state.failing && !/^\s*(---|\.\.\.)$/.test(line) && !/^# |^\d+\.\./.test(line)
    ? line
    : null;
}

async function run(files, env, flow) {
  const words = ['--test', '--test-reporter=tap', '--test-concurrency=1'];
  if (flow !== '') words.push(`--test-name-pattern=${flow}`);
  words.push(...files);
  const child = spawn(process.execPath, words, {
    cwd: dirname(here.replace(/\/$/, '')),
    env,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) {
    process.once(signal, () => {
      child.kill(signal);
      rmSync(made, { recursive: true, force: true });
      process.exit(1);
    });
  }
  const state = { failing: false, pass: 0, fail: 0, cancelled: 0, skipped: 0 };
  for await (const line of createInterface({ input: child.stdout })) {
    const words = shown(line, state);
    if (words !== null) console.log(words);
  }
  if (child.exitCode === null) await new Promise((done) => child.on('exit', done));
  return { ...state, code: child.exitCode };
}

const asked = read_words(process.argv.slice(2));
const tests = readdirSync(here).filter(
  (name) =>
    name.endsWith('.test.ts') &&
    (asked.words.length === 0 || asked.words.some((word) => name.includes(word))),
);
const env = { ...process.env };
if (asked.real) env.QUOIN_PROGRAM = asked.real;
if (asked.looks) {
  env.QUOIN_LOOKS = asked.looks;
  mkdirSync(asked.looks, { recursive: true });
}
// What the desk keeps between runs is shared by the flows, and gone afterwards.
env.QUOIN_TEST_CACHE = `${made}/cache`;
mkdirSync(made);
const started = Date.now();
let ended = { pass: 0, fail: 1, cancelled: 0, skipped: 0, code: 1 };
try {
  ended = await run(await bundle(tests), env, asked.flow);
} finally {
  rmSync(made, { recursive: true, force: true });
}
const failed = ended.fail + ended.cancelled;
const seconds = Math.round((Date.now() - started) / 1000);
const on = asked.real ? 'on the real desk' : 'on the stand-in';
console.log(
  `${ended.pass} flows and looks passed ${on}, ${failed} failed, ${ended.skipped} skipped, ${seconds} s`,
);
process.exit(ended.code === 0 && failed === 0 && ended.pass > 0 ? 0 : 1);
