// What the desk answers about pictures.

import type { Finding } from './types';

export interface PrintSize {
  ppi: number;
  width: number;
  height: number;
}
export interface PaletteColour {
  name: string;
  colour: string;
  share: number;
}
export interface PrintedSize {
  width: number;
  height: number;
}
export interface PictureInfo {
  file: string;
  stamp: string;
  kind: 'pixels' | 'vectors' | 'unreadable';
  width: number;
  height: number;
  bytes: number;
  alpha: boolean;
  profile: string;
  ppi: number | null;
  printed: PrintedSize | null;
  pieces: string[];
  state: 'coarse' | 'soft' | 'sharp' | 'vectors' | 'unreadable' | 'unused';
  words: string;
  sizes: PrintSize[];
  made: string[];
}
export interface PicturesInfo {
  revision: number;
  goodPpi: number;
  leastPpi: number;
  pictures: PictureInfo[];
  colours: PaletteColour[];
  brief: string[];
}
export interface ColourInstead {
  from: string;
  to: string;
}
export interface RedrawRequest {
  file: string;
  stamp: string;
  closeness: 'closest' | 'fewest';
  colours: number;
  palette: string[];
  instead: ColourInstead[];
}
export interface DrawingColour {
  colour: string;
  name: string;
  share: number;
}
export interface PicturePart {
  x: number;
  y: number;
  width: number;
  height: number;
}
export interface Redrawing {
  id: string;
  width: number;
  height: number;
  verdict: 'good' | 'look' | 'keep' | 'hopeless';
  reasons: string[];
  mean: number;
  worst: number;
  ssim: number;
  nodes: number;
  bytes: number;
  colours: DrawingColour[];
  smallText: PicturePart[];
  findings: Finding[];
}
export interface PicturePoint {
  x: number;
  y: number;
}
export interface FoundCard {
  corners: PicturePoint[];
  doubts: string[];
}
export interface FoundCards {
  width: number;
  height: number;
  cards: FoundCard[];
  grid: boolean;
}
export interface MadePicture {
  width: number;
  height: number;
  doubts: string[];
}
export interface MadePictures {
  id: string;
  pictures: MadePicture[];
  words: string[];
}
export interface Accepted {
  files: string[];
  changes: number;
  findings: Finding[];
  revision: number;
}
export interface PicturesPalette {
  colours: PaletteColour[];
}
