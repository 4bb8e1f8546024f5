// The text of the rules while the maker writes it. What is typed is sent after a moment, in view of
// the text that the maker saw, and is kept in this tab until the desk has taken it: nothing that
// was typed is lost, whoever else changes the file.

import { begin_rules, fetch_rules } from '../../api/desk';
import type { RulesInfo } from '../../api/types';
import { desk } from '../../state/desk.svelte';
import { edits } from '../../state/edits.svelte';
import { moved_over } from './passage';

const SENT_AFTER = 350; // ms without a key
const NEW_STEP_AFTER = 4000; // ms without a key: what follows is another step to undo
const LONGEST_STEP = 30_000; // ms
const KEY = 'quoin.rules';

class RulesWork {
  info = $state.raw<RulesInfo | null>(null);
  /** What stands in the editor. */
  text = $state('');
  /** Typed text that could not be put into what the file holds now. */
  kept = $state<string | null>(read_kept());
  saving = $state(false);
  #saved = $state(''); // what the desk has, as the editor knows it
  #base = 0; // the revision at which it had that
  #asked = -1;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #step = { number: 0, began: 0, last: 0 };

  readonly is_typed = $derived(this.text !== this.#saved);
  readonly in_conflict = $derived(
    (desk.state?.conflicts ?? []).some((one) => one.place?.file === this.info?.file),
  );

  /** To be called in an effect: follows the game for as long as that lives. */
  follow(): void {
    const { state } = desk;
    if (!state || this.saving || state.revision === this.#asked) return;
    void this.#fetch(state.revision);
  }
  async #fetch(revision: number): Promise<void> {
    this.#asked = revision;
    try {
      const info = await fetch_rules();
      this.info = info;
      if (!this.is_typed) this.#take(info);
    } catch (problem) {
      this.#asked = -1;
      desk.tell(problem);
    }
  }
  #take(info: RulesInfo): void {
    this.text = this.#saved = info.text ?? '';
    this.#base = info.revision;
  }

  type(text: string): void {
    this.text = text;
    this.#key();
    keep(text);
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.save(), SENT_AFTER);
  }

  /** One step to undo goes on while the maker types without a longer rest. */
  #key(): void {
    const now = Date.now();
    const step = this.#step;
    if (now - step.last > NEW_STEP_AFTER || now - step.began > LONGEST_STEP) {
      this.#step = { number: step.number + 1, began: now, last: now };
    } else {
      step.last = now;
    }
  }

  async save(): Promise<void> {
    const { info } = this;
    if (!info || this.saving || !this.is_typed || this.in_conflict || info.text === null) return;
    this.saving = true;
    const sent = this.text;
    try {
      const change = { kind: 'text' as const, file: info.file, text: sent };
      const { number, began } = this.#step;
      edits.make('writing the rules', [change], `rules ${number} ${began}`, this.#base);
      await edits.send_waiting();
      if (edits.waiting.length > 0) return; // the desk is away; it goes when that is back
      this.#asked = desk.state?.revision ?? -1;
      const now = await fetch_rules();
      this.info = now;
      this.#settle(sent, now);
    } catch (problem) {
      desk.tell(problem);
    } finally {
      this.saving = false;
    }
    if (this.is_typed && edits.waiting.length === 0) void this.save();
  }

  /** The desk has what was sent, perhaps among what others wrote; more may have been typed since. */
  #settle(sent: string, now: RulesInfo): void {
    const theirs = now.text ?? '';
    if (this.in_conflict) {
      this.kept = this.text;
      this.#take(now);
      return;
    }
    const mine = this.text;
    const moved = mine === sent ? theirs : moved_over(sent, mine, theirs);
    this.#saved = theirs;
    this.#base = now.revision;
    this.text = moved ?? theirs;
    if (moved === null) this.kept = mine;
    if (this.text === theirs && this.kept === null) drop();
  }

  async begin(): Promise<void> {
    try {
      await begin_rules();
      await desk.refresh();
    } catch (problem) {
      desk.tell(problem);
    }
  }

  put_back(): void {
    if (this.kept === null) return;
    const text = this.kept;
    this.kept = null;
    this.type(text);
  }
  drop_kept(): void {
    this.kept = null;
    drop();
  }
}

function keep(text: string): void {
  try {
    sessionStorage.setItem(KEY, text);
  } catch {
    // a browser that keeps nothing still sends what is typed
  }
}
function drop(): void {
  sessionStorage.removeItem(KEY);
}
function read_kept(): string | null {
  try {
    return sessionStorage.getItem(KEY);
  } catch {
    return null;
  }
}

export const rules = new RulesWork();
