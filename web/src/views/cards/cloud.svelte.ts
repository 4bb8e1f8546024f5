// The likely cuts of the face that is shown, as the desk tells them.

import { fetch_likely_cuts, Refused } from '../../api/desk';
import type { LikelyCuts } from '../../api/types';
import { desk } from '../../state/desk.svelte';

export class Cloud {
  cuts = $state.raw<LikelyCuts | null>(null);
  /** Why there are none. */
  why = $state('');
  #asked = '';

  /** To be called in an effect: asks anew when the face or the game is another; '' for no face. */
  follow(key: string): void {
    const { state } = desk;
    if (key === '') {
      this.#asked = '';
      this.cuts = null;
      return;
    }
    if (!state?.checked) return;
    const asked = `${state.revision} ${key}`;
    if (asked === this.#asked) return;
    this.#asked = asked;
    void this.#fetch(key, asked);
  }
  async #fetch(key: string, asked: string): Promise<void> {
    try {
      const cuts = await fetch_likely_cuts(key);
      if (this.#asked === asked) [this.cuts, this.why] = [cuts, ''];
    } catch (problem) {
      if (this.#asked !== asked) return;
      this.cuts = null;
      if (problem instanceof Refused && problem.status === 404) this.why = problem.message;
      else desk.tell(problem);
    }
  }
}
