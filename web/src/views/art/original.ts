// How much of a picture is fetched to be looked at.

const ENOUGH = 2048; // pixels across; photographs are larger, and slow to send as a whole

/** What original.png is asked for: all pixels (0) when there are few or they are looked at closely;
    a drawing in vectors as large as it is shown. */
export function asked_width(
  picture: { width: number; kind: 'pixels' | 'vectors' | 'unreadable' },
  scale: number,
): number {
  const seen = picture.width * scale;
  if (picture.kind === 'vectors') return Math.max(64, seen);
  const close = seen * Math.min(globalThis.devicePixelRatio || 1, 3) > 1.5 * ENOUGH;
  return picture.width <= ENOUGH || close ? 0 : ENOUGH;
}
