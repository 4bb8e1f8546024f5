// A desk to try the page on: the real program on a copy of the demo game when QUOIN_PROGRAM names
// one, the desk at QUOIN_DESK's address, or else the stand-in.

import assert from 'node:assert/strict';
import { spawn, type ChildProcess } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const STARTS_WITHIN = 60_000; // ms, on a machine shared by many
const ENDS_WITHIN = 60_000;
/** The sources: the run is started in web/. */
export const sources = process.env.QUOIN_SOURCES ?? join(process.cwd(), '..');
export const program = process.env.QUOIN_PROGRAM ?? '';

export interface Desk {
  address: string;
  stop: () => Promise<void>;
  mock: any;
  /** The game folder and the program, when it is the real one. */
  real: RealDesk | null;
}
export interface DeskWishes {
  /** no game in the folder */
  empty?: boolean;
  /** changes the copy of the demo game before it is opened */
  prepare?: ((folder: string, machine: string) => void) | undefined;
  /** where the folder is made, instead of among temporary files */
  within?: string | undefined;
}

const running = new Set<ChildProcess>();
process.on('exit', () => {
  for (const child of running) child.kill('SIGKILL');
});
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
  process.once(signal, () => process.exit(1));
}

/** `quoin desk` on a folder of its own. */
export class RealDesk {
  readonly folder: string;
  /** where this run keeps what is for all games of the machine */
  readonly machine: string;
  readonly #room: string;
  #child: ChildProcess | null = null;
  #said = '';
  address = '';

  constructor(wishes: DeskWishes) {
    this.#room = mkdtempSync(join(wishes.within ?? tmpdir(), 'quoin-desk-'));
    this.folder = join(this.#room, 'tidewrack');
    this.machine = join(this.#room, 'machine');
    if (wishes.empty) mkdirSync(this.folder);
    else cpSync(join(sources, 'examples/tidewrack'), this.folder, { recursive: true });
    wishes.prepare?.(this.folder, this.machine);
  }

  /** Starts the program; `port` 0 is any free one. */
  async start(port = 0): Promise<void> {
    this.#said = '';
    const words = ['desk', this.folder, '--no-open', '--port', String(port)];
    const cache = process.env.QUOIN_TEST_CACHE ?? join(this.#room, 'cache');
    const child = spawn(program, words, {
      env: { ...process.env, XDG_CACHE_HOME: cache, XDG_CONFIG_HOME: this.machine },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    this.#child = child;
    running.add(child);
    child.on('exit', () => running.delete(child));
    const address = new Promise<string>((found, failed) => {
      const take = (bytes: Buffer) => {
        this.#said += bytes.toString();
        const seen = /http:\/\/127\.0\.0\.1:\d+\/#[0-9a-f]+/.exec(this.#said);
        if (seen) found(seen[0]);
      };
      child.stdout?.on('data', take);
      child.stderr?.on('data', take);
      child.on('error', failed);
      child.on('exit', (code) => failed(new Error(`the desk ended with ${code}: ${this.#said}`)));
      setTimeout(
        () => failed(new Error(`no address after a minute: ${this.#said}`)),
        STARTS_WITHIN,
      ).unref();
    });
    this.address = await address;
  }
  get port(): number {
    return Number(new URL(this.address).port);
  }

  #ended(): Promise<{ code: number | null; signal: string | null }> {
    const child = this.#child;
    if (!child || child.exitCode !== null || child.signalCode !== null) {
      return Promise.resolve({ code: child?.exitCode ?? 0, signal: child?.signalCode ?? null });
    }
    return new Promise((done) => child.on('exit', (code, signal) => done({ code, signal })));
  }
  /** As when the power goes. */
  async kill(): Promise<void> {
    const ended = this.#ended();
    this.#child?.kill('SIGKILL');
    await ended;
    this.#child = null;
  }
  /** As Ctrl-C does; the program must end by itself and say that all is well. */
  async stop(): Promise<void> {
    if (this.#child) {
      const ended = this.#ended();
      this.#child.kill('SIGINT');
      const child = this.#child;
      const late = setTimeout(() => child.kill('SIGKILL'), ENDS_WITHIN);
      const { code, signal } = await ended;
      clearTimeout(late);
      assert.deepEqual({ code, signal }, { code: 0, signal: null }, `it said: ${this.#said}`);
      this.#child = null;
    }
    rmSync(this.#room, { recursive: true, force: true });
  }

  read(name: string): string {
    return readFileSync(join(this.folder, name), 'utf8');
  }
  /** As another program of the maker's would. */
  write(name: string, text: string): void {
    writeFileSync(join(this.folder, name), text);
  }
}

export async function open_desk(wishes: DeskWishes = {}): Promise<Desk> {
  if (program !== '') {
    const real = new RealDesk(wishes);
    try {
      await real.start();
    } catch (problem) {
      await real.kill();
      throw problem;
    }
    return { address: real.address, stop: () => real.stop(), mock: null, real };
  }
  const given = process.env.QUOIN_DESK;
  if (given && !wishes.empty) {
    return { address: given, stop: () => Promise.resolve(), mock: null, real: null };
  }
  const { start_mock } = await import('./mock/serve.mjs' as string);
  const { address, stop, desk } = await start_mock({ empty: wishes.empty ?? false });
  return { address, stop: () => Promise.resolve(stop()), mock: desk, real: null };
}
