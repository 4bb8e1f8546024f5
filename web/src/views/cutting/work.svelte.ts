// Where the maker is on the way through the cuts. Kept in this browser, so that a page that is
// opened again, or a tablet that fell asleep, is at the same stack of the same step.

import type { CutKind, CuttingInfo, CutStep, HandStep } from '../../api/types';

/** One stack of one step, or one thing to do by hand. */
export interface Stop {
  /** counted from 0, through all kinds of sheets */
  step: number;
  cut: { kind: CutKind; in_kind: number; at: number; step: CutStep } | null;
  hand: HandStep | null;
  stack: number;
  stacks: number;
  /** cuts made before this stop */
  before: number;
}

/** All stops in the order of work: a step is gone through with every stack, then comes the next,
    so that the fence is set once for each. */
export function stops_of(info: CuttingInfo): Stop[] {
  const stops: Stop[] = [];
  let step = 0;
  let before = 0;
  for (const [in_kind, kind] of info.kinds.entries()) {
    for (const [at, one] of kind.steps.entries()) {
      for (let stack = 0; stack < kind.stacks; stack++) {
        const cut = { kind, in_kind, at, step: one };
        stops.push({ step, cut, hand: null, stack, stacks: kind.stacks, before });
        before += one.cuts;
      }
      step += 1;
    }
  }
  for (const hand of info.hand) {
    stops.push({ step, cut: null, hand, stack: 0, stacks: 1, before });
    step += 1;
  }
  return stops;
}

const KEY = 'quoin.cutting';
const REMEMBERED = 20; // games

interface Kept {
  game: string;
  stamp: string;
  at: number;
}
function read_kept(): Kept[] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? '[]');
    return Array.isArray(kept) ? (kept as Kept[]) : [];
  } catch {
    return [];
  }
}

class Progress {
  #kept = $state.raw<Kept[]>(read_kept());

  #of(game: string): Kept | undefined {
    return this.#kept.find((one) => one.game === game);
  }
  /** The stop that the maker was at; 0 when the plan is another now. */
  at(game: string, stamp: string): number {
    const kept = this.#of(game);
    return kept?.stamp === stamp && Number.isInteger(kept.at) ? Math.max(0, kept.at) : 0;
  }
  /** Whether the maker had begun and the plan became another since. */
  is_outdated(game: string, stamp: string): boolean {
    const kept = this.#of(game);
    return kept !== undefined && kept.at > 0 && kept.stamp !== stamp;
  }
  keep(game: string, stamp: string, at: number): void {
    const others = this.#kept.filter((one) => one.game !== game);
    this.#kept = [{ game, stamp, at }, ...others].slice(0, REMEMBERED);
    localStorage.setItem(KEY, JSON.stringify(this.#kept));
  }
}

export const progress = new Progress();
