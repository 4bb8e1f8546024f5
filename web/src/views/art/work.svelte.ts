// The pictures of the game as the desk last told them, what the maker looks for among them, and
// what was kept of what was made.

import { upload_art, Refused } from '../../api/desk';
import { accept_made, fetch_pictures } from '../../api/pictures';
import type { Accepted, PictureInfo, PicturesInfo } from '../../api/types';
import { desk } from '../../state/desk.svelte';
import { edits } from '../../state/edits.svelte';

export type Wanted = 'all' | PictureInfo['state'];

/** What was written of a picture, and whether pieces show it now. */
export interface Kept {
  of: string;
  /** what was made, as the desk calls it */
  id: string;
  files: string[];
  changes: number;
  notes: string[];
  /** what Undo is called that takes it back; none when nothing shows it */
  step: string | null;
}

class Art {
  info = $state.raw<PicturesInfo | null>(null);
  /** Why there is nothing to show. */
  trouble = $state('');
  text = $state('');
  wanted = $state<Wanted>('all');
  kept = $state.raw<Kept | null>(null);
  /** Pictures on their way in: how many of how many, and what was refused. */
  adding = $state.raw<{ sent: number; of: number } | null>(null);
  told = $state('');
  refused = $state.raw<{ name: string; message: string; hint: string }[]>([]);

  readonly by_file = $derived(new Map(this.info?.pictures.map((one) => [one.file, one])));
  readonly counts = $derived.by(() => {
    const counts = new Map<Wanted, number>();
    for (const { state } of this.info?.pictures ?? []) {
      counts.set(state, (counts.get(state) ?? 0) + 1);
    }
    return counts.set('all', this.info?.pictures.length ?? 0);
  });
  readonly shown = $derived.by(() => {
    const words = this.text.trim().toLocaleLowerCase();
    return (this.info?.pictures ?? []).filter(
      (one) =>
        (this.wanted === 'all' || one.state === this.wanted) &&
        (words === '' ||
          [one.file, ...one.pieces].some((name) => name.toLocaleLowerCase().includes(words))),
    );
  });

  #revision = -1;
  /** To be called in an effect: follows the game for as long as that lives. */
  follow(): void {
    const { state } = desk;
    if (!state || state.revision === this.#revision) return;
    this.#revision = state.revision;
    void this.refresh();
  }
  #asking: Promise<void> | null = null;
  #again = false;
  /** Ends when what is known is no older than this wish. */
  refresh(): Promise<void> {
    this.#again = true;
    this.#asking ??= this.#fetch().finally(() => (this.#asking = null));
    return this.#asking;
  }
  async #fetch(): Promise<void> {
    try {
      while (this.#again) {
        this.#again = false;
        this.info = await fetch_pictures();
        this.trouble = '';
      }
    } catch (problem) {
      this.#revision = -1;
      this.trouble = problem instanceof Refused ? problem.message : 'the desk does not answer';
      desk.tell(problem);
    }
  }

  #bringing: Promise<unknown> = Promise.resolve();
  /** Puts pictures into the game's folder, one after the other, after those that are on their way;
      where they lie afterwards. */
  add(files: File[]): Promise<string[]> {
    const added = this.#bringing.then(() => this.#bring(files));
    this.#bringing = added;
    return added;
  }
  async #bring(files: File[]): Promise<string[]> {
    if (files.length === 0) return [];
    this.refused = [];
    this.told = '';
    this.adding = { sent: 0, of: files.length };
    const added: string[] = [];
    try {
      for (const file of files) {
        try {
          added.push((await upload_art(file)).file);
        } catch (problem) {
          if (!(problem instanceof Refused)) throw problem;
          const { message, hint } = problem;
          this.refused = [...this.refused, { name: file.name, message, hint }];
        }
        this.adding = { sent: this.adding.sent + 1, of: files.length };
      }
      await this.refresh();
    } catch (problem) {
      desk.tell(problem);
    } finally {
      this.adding = null;
    }
    return added;
  }

  /** Writes what was made of `of`; throws what the desk refuses. */
  async accept(of: string, id: string, n: number[], instead: boolean): Promise<Accepted> {
    await edits.send_waiting();
    const { files, changes, findings, revision } = await accept_made(id, n, instead);
    const notes = findings.flatMap((one) => [one.message, ...one.hints]);
    await Promise.all([desk.refresh(), this.refresh()]);
    const step = changes > 0 ? (desk.state?.undo ?? null) : null;
    this.kept = { of, id, files, changes, notes, step };
    return { files, changes, findings, revision };
  }
}

export const art = new Art();
