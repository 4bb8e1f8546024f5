// Where a moved or sized box wants to stand: on the trim, the safe area, the bleed, the middle of
// the card, and the edges and middles of its neighbours.

import type { Box, CardFormat } from '../api/types';

type Format = Pick<CardFormat, 'width' | 'height' | 'bleed' | 'safe'>;

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

export function guide_lines(card: Format, neighbours: Box[]): Lines {
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

/** The upright box round a box that is turned about its middle; `turn` in degrees. */
export function bounds(box: Box, turn: number): Box {
  const radians = (turn * Math.PI) / 180;
  const [cosine, sine] = [Math.abs(Math.cos(radians)), Math.abs(Math.sin(radians))];
  const width = box.width * cosine + box.height * sine;
  const height = box.width * sine + box.height * cosine;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  return { x: x - width / 2, y: y - height / 2, width, height };
}

/** As `snap`, for a box that is turned: moved, it holds on by what it covers of the card; sized, it
    holds on to nothing, since its edges lie along no line. */
export function snap_turned(
  box: Box,
  turn: number,
  edges: Edges,
  lines: Lines,
  reach: number,
): Snapped {
  if (turn % 360 === 0) return snap(box, edges, lines, reach);
  if (is_sizing(edges)) return { box, guides: [] };
  const around = bounds(box, turn);
  const held = snap(around, edges, lines, reach);
  const [dx, dy] = [held.box.x - around.x, held.box.y - around.y];
  return { box: { ...box, x: box.x + dx, y: box.y + dy }, guides: held.guides };
}
const is_sizing = (edges: Edges) => edges.left || edges.right || edges.top || edges.bottom;

/** A step on the card as the element sees it that is turned by `turn` degrees. */
export function unturned(dx: number, dy: number, turn: number): [number, number] {
  const radians = (-turn * Math.PI) / 180;
  const [cosine, sine] = [Math.cos(radians), Math.sin(radians)];
  return [dx * cosine - dy * sine, dx * sine + dy * cosine];
}

/** As `moved`, for a box that is turned about its middle. The step is one on the card: moved, the
    box goes with it; sized, its edges go along its own axes, and the edge or corner across from the
    one that is pulled stays where it is on the card. */
export function moved_turned(box: Box, turn: number, edges: Edges, dx: number, dy: number): Box {
  if (!is_sizing(edges) || turn % 360 === 0) return moved(box, edges, dx, dy);
  const sized = moved(box, edges, ...unturned(dx, dy, turn));
  const across = sized.x + sized.width / 2 - (box.x + box.width / 2);
  const along = sized.y + sized.height / 2 - (box.y + box.height / 2);
  const [x, y] = unturned(across, along, -turn);
  return { ...sized, x: sized.x + x - across, y: sized.y + y - along };
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
