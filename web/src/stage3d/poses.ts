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

export const SLIDE = 0.4; // of a step: how long the deck takes to go in

/** How far the deck still is from its place, in mm: above the mouth of a tuck carton, in front of
    a base or tray, which lie with their mouths to the reader. `share` runs from 0 to 1. */
export function deck_away(kind: string, size: number[], share: number): number[] {
  const [, height = 0, depth = 0] = size;
  if (kind === 'tuck') return [0, -(1 - share) * height * 1.1, 0];
  return [0, 0, -(1 - share) * (depth * 1.3 + 12)];
}

/** How far a part is from where it lies in the closed box: the deck in a tray rides with it. */
export function carried(frames: BoxFrame[], part: number, progress: number): number[] {
  const about = frames_about(frames, progress);
  const end = frames.at(-1)?.poses[part]?.[0];
  const [before, after] = [about?.before.poses[part]?.[0], about?.after.poses[part]?.[0]];
  if (!about || !end || !before || !after) return [0, 0, 0];
  const now = between(before, after, about.share);
  return [3, 7, 11].map((at) => (now[at] ?? 0) - (end[at] ?? 0));
}
