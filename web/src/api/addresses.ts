// Addresses of pictures. Each carries the stamp of its looks, so that a browser may keep it for
// ever, and the token, because an <img> sends no header.

import { token } from './token';
import type { PrinterAbout } from './types';

function address(path: string, query: Record<string, string | number>): string {
  const words = new URLSearchParams();
  for (const [key, value] of Object.entries(query)) words.set(key, String(value));
  words.set('token', token);
  return `${path}?${words.toString()}`;
}

const safe = (key: string) => key.split('/').map(encodeURIComponent).join('/');

/** Widths are rounded up to a few steps, so that sliding a size does not draw each face anew. */
export function step_width(pixels: number): number {
  const steps = [64, 128, 192, 256, 384, 512, 768, 1024, 1536, 2048, 3000];
  const wanted = pixels * Math.min(globalThis.devicePixelRatio || 1, 3);
  return steps.find((step) => step >= wanted) ?? 3000;
}

/** A face up to its trim, or with its bleed; `pixels` is its width on the page. */
export function face_address(key: string, stamp: string, pixels: number): string {
  return address(`/api/picture/${safe(key)}.png`, { w: step_width(pixels), stamp });
}
export function bleed_address(key: string, stamp: string, pixels: number): string {
  return address(`/api/picture/${safe(key)}.png`, { w: step_width(pixels), stamp, bleed: 1 });
}
export function vector_address(key: string): string {
  return address(`/api/drawing/${safe(key)}.svg`, { bleed: 1 });
}
export type SheetSide = 'front' | 'back' | 'light' | 'uncorrected';
export function sheet_address(
  index: number,
  side: SheetSide,
  pixels: number,
  revision: number,
): string {
  return address(`/api/sheet/${index}/${side}.png`, { w: step_width(pixels), stamp: revision });
}
/** A picture of handwork: `which` is "0/3", the step of a kind of sheets, or "corner". */
export function work_address(
  which: string,
  size: { width: number; height: number },
  ink: 'paper' | 'dark',
  stamp: string,
): string {
  const within = (pixels: number) => Math.min(Math.max(Math.round(pixels / 20) * 20, 120), 2400);
  const [w, h] = [within(size.width), within(size.height)];
  return address(`/api/cutting/${which}.svg`, { w, h, ink, stamp });
}
/** A picture of the rules: `which` is "page/0", "step/2" or "sheet/front". */
export function rules_address(which: string, pixels: number, revision: number): string {
  return address(`/api/rules/${which}.png`, { w: step_width(pixels), r: revision });
}
export function net_address(index: number, pixels: number, stamp: string): string {
  return address(`/api/box/net/${index}.png`, { w: step_width(pixels), stamp });
}
/** The mat with its bleed. */
export function mat_address(pixels: number, stamp: string): string {
  return address('/api/mat/picture.png', { w: step_width(pixels), stamp });
}
/** The picture's own pixels, at most `wide` of them across; all when it is 0. */
export function original_address(file: string, stamp: string, wide: number): string {
  return address('/api/pictures/original.png', {
    file,
    stamp,
    w: wide === 0 ? 0 : step_width(wide),
  });
}
export function redrawn_address(id: string): string {
  return address('/api/pictures/redrawn.svg', { id });
}
export function difference_address(id: string): string {
  return address('/api/pictures/difference.png', { id });
}
/** The `n`th of the pictures that were made, from 0. */
export function made_address(id: string, n: number, wide: number): string {
  return address('/api/pictures/made.png', { id, n, w: wide === 0 ? 0 : step_width(wide) });
}
export function texture_address(path: string, stamp: string): string {
  return address(path, { stamp });
}
export function font_sample_address(family: string): string {
  return address(`/api/font-sample/${encodeURIComponent(family)}.png`, {});
}
export function pack_file_address(name: string): string {
  return address('/api/pack/file', { name });
}
/** The page of the last share, with its pictures in it. */
export function share_page_address(stamp: string): string {
  return address('/api/share/page.html', { stamp });
}
/** The measuring sheet as a PDF, to be shown or, with `save`, to be saved. */
export function measuring_sheet_address(
  about: PrinterAbout,
  sheets: number,
  save: boolean,
): string {
  const { paper, held, flip, backs } = about;
  const query = { paper, held, flip, backs, sheets };
  return address('/api/printer/sheet.pdf', save ? { ...query, save: 1 } : query);
}
export function events_address(): string {
  return address('/api/events', {});
}
