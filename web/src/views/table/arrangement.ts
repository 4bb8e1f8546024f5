// Where things lie on the table, in millimetres: beside each other on a wide table, above each
// other on a narrow one. All at one scale, so a sheet is as much larger than a card as it is. With
// a mat the cards lie on its places, and the rest stands round it.

import type { State } from '../../api/types';

export interface Spot {
  x: number;
  y: number;
}
export interface Size {
  width: number;
  height: number;
}
/** What lies there besides what the state tells of. */
export interface More {
  mat: Size | null;
  rules: Size | null; // folded
}
export interface Arrangement extends Size {
  fan: Spot | null; // null: the cards lie on the mat
  pile: Spot | null;
  mat: Spot;
  rules: Spot;
  closed: Spot;
  open: Spot;
  sheets: Spot;
}

const EDGE = 16;
/** How wide the fan is, in widths of a card: six cards, each turned by 5 degrees more. */
export const FAN = 3.5;
const CAPTION = 24; // below each thing
const NOWHERE: Spot = { x: 0, y: 0 };
const NOTHING: Size = { width: 0, height: 0 };

export function arrange(state: State, more: More, wide: 'wide' | 'narrow'): Arrangement {
  if (more.mat) return round_mat(state, more, more.mat, wide);
  const { card } = state;
  const fan = { width: card.width * FAN, height: card.height * 1.22 };
  const pile_height = state.deckHeight?.high ?? 0;
  const pile = { width: card.width, height: card.height + pile_height };
  const box = box_room(state);
  const sheet = sheet_size(state);
  const rules = more.rules ?? NOTHING;
  const beside = more.rules ? rules.width + EDGE * 1.5 : 0;
  const second = EDGE + fan.height + CAPTION;
  const row = Math.max(pile.height, box.height, rules.height);
  if (wide === 'wide') {
    const things = pile.width + beside + 2 * EDGE + 2 * box.width;
    const sheets_at = EDGE + Math.max(fan.width, things) + EDGE * 1.5;
    const boxes_at = EDGE * 3 + pile.width + beside;
    return {
      width: sheets_at + sheet.width + EDGE * 1.5,
      height: Math.max(second + row + CAPTION, EDGE + sheet.height + CAPTION),
      fan: { x: EDGE, y: EDGE },
      pile: { x: EDGE, y: second + row - pile.height },
      mat: NOWHERE,
      rules: { x: EDGE * 2.5 + pile.width, y: second + row - rules.height },
      closed: { x: boxes_at, y: second + row - box.height },
      open: { x: boxes_at + box.width, y: second + row - box.height },
      sheets: { x: sheets_at, y: EDGE },
    };
  }
  const right = EDGE + sheet.width + EDGE * 2;
  const right_width = Math.max(2 * box.width, pile.width + beside);
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
    mat: NOWHERE,
    rules: { x: right + EDGE * 2.5 + pile.width, y: EDGE },
    closed: { x: right, y: second + EDGE * 1.5 },
    open: { x: right + box.width, y: second + EDGE * 1.5 },
    sheets: { x: EDGE, y: second },
  };
}

/** The mat with the cards on it; sheets and rules beside it or below, and under them the boxes. */
function round_mat(state: State, more: More, mat: Size, wide: 'wide' | 'narrow'): Arrangement {
  const box = box_room(state);
  const sheet = sheet_size(state);
  const rules = more.rules ?? NOTHING;
  const boxes = { width: box.width * 2, height: box.height };
  const paper_width = sheet.width + (more.rules ? EDGE * 1.5 + rules.width : 0);
  const at_mat = { x: EDGE, y: EDGE };
  if (wide === 'wide') {
    const right = EDGE + mat.width + EDGE * 2;
    const below = EDGE + Math.max(sheet.height, rules.height) + CAPTION * 1.5;
    return {
      width: right + Math.max(paper_width, boxes.width) + EDGE * 1.5,
      height: Math.max(EDGE + mat.height, below + boxes.height) + CAPTION,
      fan: null,
      pile: null,
      mat: at_mat,
      sheets: { x: right, y: EDGE },
      rules: { x: right + sheet.width + EDGE * 1.5, y: EDGE },
      closed: { x: right, y: below },
      open: { x: right + box.width, y: below },
    };
  }
  const below = EDGE + mat.height + CAPTION * 2.2;
  const boxes_at = EDGE + paper_width + EDGE * 4;
  const row = Math.max(sheet.height, rules.height, boxes.height);
  const whole = Math.max(mat.width + EDGE * 2, boxes_at + boxes.width + EDGE * 5);
  return {
    width: whole,
    height: below + row + CAPTION * 2.2,
    fan: null,
    pile: null,
    mat: at_mat,
    sheets: { x: EDGE, y: below },
    rules: { x: EDGE + sheet.width + EDGE * 1.5, y: below },
    closed: { x: boxes_at, y: below },
    open: { x: whole - EDGE - box.width, y: below },
  };
}

function sheet_size(state: State): Size {
  return { width: state.sheets?.width ?? 0, height: state.sheets?.height ?? 0 };
}

/** The room that a box needs on the table, seen from above the front, open or closed. */
export function box_room(state: State): Size {
  const outside = state.box?.outside;
  if (!outside) return { width: 0, height: 0 };
  return { width: outside.width + outside.depth + 12, height: outside.height + outside.depth + 22 };
}
