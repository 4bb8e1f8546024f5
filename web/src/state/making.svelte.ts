// How the game is cut and what it takes, as the desk last told it. Asked for only while a view
// shows it, and anew when the game was checked again.

import { fetch_making } from '../api/desk';
import type { MakingInfo } from '../api/types';
import { desk } from './desk.svelte';

class Making {
  info = $state.raw<MakingInfo | null>(null);
  #asked = -1;

  /** To be called in an effect: follows the game for as long as that lives. */
  follow(): void {
    const { state } = desk;
    if (!state?.checked || state.revision === this.#asked) return;
    void this.#fetch(state.revision);
  }
  async #fetch(revision: number): Promise<void> {
    this.#asked = revision;
    try {
      const info = await fetch_making();
      if (this.#asked === revision) this.info = info;
    } catch (problem) {
      this.#asked = -1;
      desk.tell(problem);
    }
  }
}

export const making = new Making();
