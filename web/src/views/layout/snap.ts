// Where a moved or sized box wants to stand: on the trim, the safe area, the bleed, the middle of
// the card, and the edges and middles of its neighbours.

import type { Box, CardFormat } from '../../api/types';

export interface Guide {
  axis: 'x' | 'y';
  at: number;
}
export interface Snapped {
  box: Box;
  guides: Guide[];
}
/** Which edges follow the pointer; a move is none of them. */
export interface Edges {
  left: boolean;
  right: boolean;
  top: boolean;
  bottom: boolean;
}
export const MOVE: Edges = { left: false, right: false, top: false, bottom: false };

interface Lines {
  x: number[];
  y: number[];
}

export function guide_lines(card: CardFormat, neighbours: Box[]): Lines {
  const of_card = (length: number) => [
    -card.bleed,
    0,
    card.safe,
    length / 2,
    length - card.safe,
    length,
    length + card.bleed,
  ];
  return {
    x: [
      ...of_card(card.width),
      ...neighbours.flatMap((b) => [b.x, b.x + b.width / 2, b.x + b.width]),
    ],
    y: [
      ...of_card(card.height),
      ...neighbours.flatMap((b) => [b.y, b.y + b.height / 2, b.y + b.height]),
    ],
  };
}

/** The nearest line to any of `edges`, as the step that brings the edge onto it. */
function nearest(edges: number[], lines: number[], reach: number) {
  let best: { step: number; at: number } | null = null;
  for (const edge of edges) {
    for (const at of lines) {
      const step = at - edge;
      if (Math.abs(step) <= reach && (!best || Math.abs(step) < Math.abs(best.step))) {
        best = { step, at };
      }
    }
  }
  return best;
}

/** `reach` is how near a line must be, in mm. */
export function snap(box: Box, edges: Edges, lines: Lines, reach: number): Snapped {
  const guides: Guide[] = [];
  const result = { ...box };
  const moves = !edges.left && !edges.right && !edges.top && !edges.bottom;
  if (moves || edges.left || edges.right) {
    const far = box.x + box.width;
    const own = moves ? [box.x, box.x + box.width / 2, far] : [edges.left ? box.x : far];
    const found = nearest(own, lines.x, reach);
    if (found) {
      guides.push({ axis: 'x', at: found.at });
      if (moves || edges.left) result.x += found.step;
      if (!moves) result.width += edges.left ? -found.step : found.step;
    }
  }
  if (moves || edges.top || edges.bottom) {
    const far = box.y + box.height;
    const own = moves ? [box.y, box.y + box.height / 2, far] : [edges.top ? box.y : far];
    const found = nearest(own, lines.y, reach);
    if (found) {
      guides.push({ axis: 'y', at: found.at });
      if (moves || edges.top) result.y += found.step;
      if (!moves) result.height += edges.top ? -found.step : found.step;
    }
  }
  return { box: result, guides };
}

const LEAST = 0.2; // mm; a smaller box could not be taken hold of again

/** The box after its edges, or all of it, went `dx`, `dy` mm. */
export function moved(box: Box, edges: Edges, dx: number, dy: number): Box {
  if (!edges.left && !edges.right && !edges.top && !edges.bottom) {
    return { ...box, x: box.x + dx, y: box.y + dy };
  }
  const left = edges.left ? Math.min(dx, box.width - LEAST) : 0;
  const top = edges.top ? Math.min(dy, box.height - LEAST) : 0;
  return {
    x: box.x + left,
    y: box.y + top,
    width: Math.max(LEAST, box.width - left + (edges.right ? dx : 0)),
    height: Math.max(LEAST, box.height - top + (edges.bottom ? dy : 0)),
  };
}
