// Where things lie on the table, in millimetres: beside each other on a wide table, above each
// other on a narrow one. All at one scale, so a sheet is as much larger than a card as it is.

import type { State } from '../../api/types';

export interface Spot {
  x: number;
  y: number;
}
export interface Arrangement {
  width: number;
  height: number;
  fan: Spot;
  pile: Spot;
  closed: Spot;
  open: Spot;
  sheets: Spot;
}

const EDGE = 16;
/** How wide the fan is, in widths of a card: six cards, each turned by 5 degrees more. */
export const FAN = 3.5;
const CAPTION = 24; // below each thing

export function arrange(state: State, wide: 'wide' | 'narrow'): Arrangement {
  const { card } = state;
  const fan = { width: card.width * FAN, height: card.height * 1.22 };
  const pile_height = state.deckHeight?.high ?? 0;
  const pile = { width: card.width, height: card.height + pile_height };
  const box = box_room(state);
  const sheet = { width: state.sheets?.width ?? 0, height: state.sheets?.height ?? 0 };
  const second = EDGE + fan.height + CAPTION;
  const row = Math.max(pile.height, box.height);
  if (wide === 'wide') {
    const things = pile.width + 2 * EDGE + 2 * box.width;
    const sheets_at = EDGE + Math.max(fan.width, things) + EDGE * 1.5;
    return {
      width: sheets_at + sheet.width + EDGE * 1.5,
      height: Math.max(second + row + CAPTION, EDGE + sheet.height + CAPTION),
      fan: { x: EDGE, y: EDGE },
      pile: { x: EDGE, y: second + row - pile.height },
      closed: { x: EDGE * 3 + pile.width, y: second + row - box.height },
      open: { x: EDGE * 3 + pile.width + box.width, y: second + row - box.height },
      sheets: { x: sheets_at, y: EDGE },
    };
  }
  const right = EDGE + sheet.width + EDGE * 2;
  const right_width = Math.max(2 * box.width, pile.width);
  return {
    width: right + right_width + EDGE,
    height:
      EDGE +
      Math.max(fan.height + pile.height - card.height, 0) +
      CAPTION +
      Math.max(sheet.height, row * 2) +
      CAPTION,
    fan: { x: EDGE, y: EDGE },
    pile: { x: right + EDGE, y: EDGE },
    closed: { x: right, y: second + EDGE * 1.5 },
    open: { x: right + box.width, y: second + EDGE * 1.5 },
    sheets: { x: EDGE, y: second },
  };
}

/** The room that a box needs on the table, seen from above the front, open or closed. */
export function box_room(state: State): { width: number; height: number } {
  const outside = state.box?.outside;
  if (!outside) return { width: 0, height: 0 };
  return { width: outside.width + outside.depth + 12, height: outside.height + outside.depth + 22 };
}
