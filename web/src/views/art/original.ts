// How much of a picture is fetched to be looked at.

const ENOUGH = 2048; // pixels across; photographs are larger, and slow to send as a whole

/** What original.png is asked for: all of it (0) when the picture is small or looked at closely. */
export function asked_width(picture: { width: number }, scale: number): number {
  const seen = picture.width * scale * Math.min(globalThis.devicePixelRatio || 1, 3);
  return picture.width <= ENOUGH || seen > 1.5 * ENOUGH ? 0 : ENOUGH;
}
