// The maker's changes on their way to the server. They go one after the other; what was typed
// while the server is away waits here and in this tab's storage, and goes when it is back.

import { Refused, redo, send_edit, undo, Unreached } from '../api/desk';
import type { Change, EditRequest } from '../api/types';
import { desk } from './desk.svelte';

const KEY = 'quoin.waiting';
const TRANSIENT_EVERY = 60; // ms between two drawings of a drag
const REMEMBERED = 200; // moments before this one; the desk remembers a few more

/** `base` is what the maker saw when beginning to type; left out, it is what is shown when the edit
    is sent, which has the maker's own edits before it. */
type Waiting = Omit<EditRequest, 'base'> & { base?: number };

class Edits {
  waiting = $state.raw<Waiting[]>(read_waiting());
  #began: number | undefined;
  #own = 0; // the revision that the last edit of this page made
  #followed: Waiting | null = null; // the latest step of a drag, not yet sent
  #drag_timer: ReturnType<typeof setTimeout> | undefined;

  /** Changes the game: sent at once, or kept until the server answers. `base` is the moment that the
      maker saw, where that is not what `begin` remembered. */
  make(label: string, changes: Change[], group?: string, base?: number): void {
    if (group !== undefined) this.#drop_drag();
    const edit: Waiting = { label, changes };
    if (group !== undefined) edit.group = group;
    const seen = base ?? this.#began;
    if (seen !== undefined) edit.base = seen;
    this.#began = undefined;
    this.#keep([...this.waiting, edit]);
    void this.send_waiting();
  }

  /** The maker begins to type over a value: what another program makes of it meanwhile is no longer
      what the maker saw, and has to be asked about. */
  begin(): void {
    this.#began = this.waiting.length === 0 ? desk.state?.revision : undefined;
  }

  /** One step of a drag: drawn and not written. Only the latest step matters. */
  follow(label: string, changes: Change[], group: string): void {
    this.#followed = { label, changes, group, transient: true };
    this.#drag_timer ??= setTimeout(() => void this.#send_drag(), TRANSIENT_EVERY);
  }

  async #send_drag(): Promise<void> {
    const step = this.#followed;
    this.#followed = null;
    if (step && this.waiting.length === 0) {
      await send_edit({ ...step, base: this.#newest() }).then(
        ({ revision }) => (this.#own = revision),
        (problem) => {
          if (problem instanceof Unreached) desk.lost();
        },
      );
    }
    this.#drag_timer = undefined;
    if (this.#followed) this.#drag_timer = setTimeout(() => void this.#send_drag(), 0);
  }

  #drop_drag(): void {
    clearTimeout(this.#drag_timer);
    this.#drag_timer = undefined;
    this.#followed = null;
  }

  #sending: Promise<void> | null = null;
  /** Ends when all is sent, or the desk is away. */
  send_waiting(): Promise<void> {
    this.#sending ??= this.#send_all().finally(() => (this.#sending = null));
    return this.#sending;
  }
  async #send_all(): Promise<void> {
    try {
      while (this.waiting[0] && desk.reach === 'here') {
        await this.#send(this.waiting[0]);
        this.#keep(this.waiting.slice(1));
      }
    } catch (problem) {
      this.#own = 0; // whoever answers next may be another run, which counts anew
      if (problem instanceof Unreached) desk.lost();
      else desk.tell(problem);
    }
  }

  /** Sends one edit and waits for the state that shows it. A refusal is told, and is the end. */
  async #send(edit: Waiting): Promise<void> {
    try {
      const { revision } = await send_edit({ ...edit, base: edit.base ?? this.#newest() });
      this.#own = revision;
    } catch (problem) {
      if (!(problem instanceof Refused)) throw problem;
      if (problem.status === 401 || problem.status === 403) {
        throw new Unreached('another run of the desk', { cause: problem });
      }
      if (problem.status === 422 && edit.base !== undefined && !this.#is_known(edit.base)) {
        delete edit.base;
        return this.#send(edit);
      }
      if (problem.status !== 409) desk.tell(problem);
    }
    await desk.refresh();
  }
  /** The newest moment that the maker knows of: what is shown, or what an own edit has just made. */
  #newest(): number {
    return Math.max(desk.state?.revision ?? 0, this.#own);
  }
  /** The desk remembers the latest moments only, and none of an earlier run. */
  #is_known(base: number): boolean {
    const now = this.#newest();
    return base <= now && base > now - REMEMBERED;
  }

  #keep(waiting: Waiting[]): void {
    this.waiting = waiting;
    sessionStorage.setItem(KEY, JSON.stringify(waiting));
  }

  async undo(): Promise<void> {
    await this.#step(undo);
  }
  async redo(): Promise<void> {
    await this.#step(redo);
  }
  async #step(step: () => Promise<{ revision: number }>): Promise<void> {
    try {
      await this.send_waiting(); // what was done last is what is taken back
      this.#own = (await step()).revision;
      await desk.refresh();
    } catch (problem) {
      desk.tell(problem);
    }
  }

  /** The text of a cell as the maker last typed it, when the server has not yet taken it. */
  typed(id: string, column: string): string | undefined {
    for (const edit of [...this.waiting].reverse()) {
      for (const change of edit.changes) {
        if (change.kind === 'cell' && change.id === id && change.column === column) {
          return change.text;
        }
      }
    }
    return undefined;
  }
}

function read_waiting(): Waiting[] {
  try {
    const kept = JSON.parse(sessionStorage.getItem(KEY) ?? '[]');
    if (!Array.isArray(kept)) return [];
    for (const edit of kept) delete edit.base; // a number of a run that may be over
    return kept;
  } catch {
    return [];
  }
}

export const edits = new Edits();
