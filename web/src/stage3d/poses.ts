// Where the panels are between two frames of the folding.

import type { BoxFrame } from '../api/types';

/** The two frames about `progress`, and how far it is from the first to the second, 0 to 1. */
export function frames_about(frames: BoxFrame[], progress: number) {
  let low = 0;
  let high = frames.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((frames[middle]?.progress ?? 0) <= progress) low = middle;
    else high = middle;
  }
  const [before, after] = [frames[low], frames[high]];
  if (!before || !after) return null;
  const span = after.progress - before.progress;
  const share = span > 0 ? Math.min(1, Math.max(0, (progress - before.progress) / span)) : 0;
  return { before, after, share };
}

/** A 3 by 4 matrix, row after row, between two; frames lie close enough for straight lines. */
export function between(before: number[], after: number[], share: number): number[] {
  return before.map((value, at) => value + ((after[at] ?? value) - value) * share);
}
