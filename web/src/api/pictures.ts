// Questions about the game's pictures: what they are, and what can be made of them.

import { get, post } from './desk';
import type {
  Accepted,
  FoundCards,
  MadePictures,
  PicturePoint,
  PicturesInfo,
  PicturesPalette,
  Redrawing,
  RedrawRequest,
} from './types';

/** A picture as it was when it was looked at: the desk refuses (409) when it is another by now. */
export interface Pictured {
  file: string;
  stamp: string;
}

export const fetch_pictures = () => get<PicturesInfo>('/api/pictures');
export const redraw = (asked: RedrawRequest, signal: AbortSignal) =>
  post<Redrawing>('/api/pictures/redraw', asked, signal);
export const find_corners = (of: Pictured, signal: AbortSignal) =>
  post<FoundCards>('/api/pictures/corners', of, signal);
export const straighten = (
  of: Pictured,
  corners: PicturePoint[][],
  shape: string,
  signal: AbortSignal,
) => {
  const cards = corners.map((four) => ({ corners: four }));
  return post<MadePictures>('/api/pictures/straighten', { ...of, cards, shape }, signal);
};
export const cut_out = (of: Pictured, reach: number, signal: AbortSignal) =>
  post<MadePictures>('/api/pictures/cut-out', { ...of, reach }, signal);
export const pull_colours = (of: Pictured, reach: number, signal: AbortSignal) =>
  post<MadePictures>('/api/pictures/pull', { ...of, reach }, signal);
export const find_palette = (files: string[], most: number, signal: AbortSignal) =>
  post<PicturesPalette>('/api/pictures/palette', { files, most }, signal);
/** Writes what was made, all of it when `n` is empty; `instead`: pieces show it from now on. */
export const accept_made = (id: string, n: number[], instead: boolean) =>
  post<Accepted>('/api/pictures/accept', { id, n, instead });
