// What the desk makes of the newest wish. A wish that is overtaken by another is neither waited for
// nor shown; what was made before stays in view meanwhile.

import { Refused, Unreached } from '../../api/desk';
import { desk } from '../../state/desk.svelte';
import { art } from './work.svelte';

const REST = 250; // ms without another wish before one is sent

export interface Trouble {
  message: string;
  /** what more is known, and what to do */
  lines: string[];
}

export class Latest<T> {
  answer = $state.raw<T | null>(null);
  busy = $state(false);
  trouble = $state.raw<Trouble | null>(null);
  #question: ((signal: AbortSignal) => Promise<T>) | null = null;
  #asked: AbortController | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** Asks after a short rest. */
  ask(question: (signal: AbortSignal) => Promise<T>, rest = REST): void {
    this.#question = question;
    this.busy = true;
    clearTimeout(this.#timer);
    this.#asked?.abort(); // its answer is of an older wish
    this.#timer = setTimeout(() => void this.again(), rest);
  }

  /** Asks the newest question once more. */
  async again(): Promise<void> {
    const question = this.#question;
    if (!question) return;
    clearTimeout(this.#timer);
    this.#asked?.abort();
    const asked = new AbortController();
    this.#asked = asked;
    this.busy = true;
    try {
      const answer = await question(asked.signal);
      if (asked.signal.aborted) return;
      this.answer = answer;
      this.trouble = null;
    } catch (problem) {
      if (asked.signal.aborted) return;
      this.#fail(problem);
    }
    this.busy = false;
  }

  #fail(problem: unknown): void {
    if (problem instanceof Unreached) desk.lost();
    if (problem instanceof Refused) {
      const found = problem.findings.flatMap((one) => [one.message, ...one.hints]);
      const lines = new Set([...found, problem.hint].filter((one) => one !== ''));
      lines.delete(problem.message);
      this.trouble = { message: problem.message, lines: [...lines] };
      if (problem.status === 409) void art.refresh();
      return;
    }
    this.trouble = { message: 'this could not be done', lines: ['try again in a moment'] };
  }

  #missed: T | null = null;
  /** The desk keeps what it made for a while only: what is gone is made once more, once. */
  lost = (): void => {
    if (this.busy || this.answer === null || this.answer === this.#missed) return;
    this.#missed = this.answer;
    void this.again();
  };

  /** Forgets all, for another picture. */
  drop(): void {
    clearTimeout(this.#timer);
    this.#asked?.abort();
    this.#question = null;
    this.answer = null;
    this.trouble = null;
    this.busy = false;
  }
}
