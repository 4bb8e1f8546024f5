// What the desk's server and this page agree on. Lengths are millimetres, colours "#rrggbb" or
// "#rrggbbaa".

export type Severity = 'error' | 'warning' | 'note';
/** A place in a file: `file` "" is none, lines and columns from 1. */
export interface Place { file: string; line: number; column: number; length: number }
export interface Finding {
  id: string; severity: Severity; message: string; details: string[]; hints: string[];
  place: Place | null; piece: string; element: string; title: string; onTheTable: string;
  remedy: string; source: string;
}
export interface CardFormat {
  width: number; height: number; corner: number; bleed: number; safe: number; sizeName: string;
}
export interface Suit { id: string; name: string; colour: string | null }
/** `row` is its place in the list, from 0; `cells` stand as `State.columns` do. */
export interface Card {
  id: string; row: number; copies: number; suit: string; deck: string; cells: string[];
  front: string; back: string; layout: string;
}
/** A drawn face. `stamp` changes when its looks change. */
export interface Drawing { key: string; stamp: string }
export interface Deck { id: string; name: string; cards: number; back: string }
export interface Totals {
  rows: number; cards: number; pieces: number; backs: number; sheets: number;
}
export interface Trim { x: number; y: number; width: number; height: number }
export interface SheetInfo { index: number; hasBack: boolean; cards: string[] }
export interface SheetsInfo {
  width: number; height: number; paper: string; columns: number; rows: number; turned: boolean;
  flip: 'long-edge' | 'short-edge'; backs: string; choices: string[]; trims: Trim[];
  sheets: SheetInfo[];
}
export interface Range { low: number; high: number }
export interface Solid { width: number; height: number; depth: number }
export interface BoxInfo {
  kind: string; title: string; words: string; pile: Range; board: number; clear: Solid;
  outside: Solid; deck: { width: number; height: number; depth: Range };
  room: { width: Range; height: Range; depth: Range }; steps: string[];
  nets: { name: string; width: number; height: number }[]; stamp: string;
}
export interface LayoutInfo { file: string; cards: number; isBack: boolean }
export interface Conflict {
  id: string; label: string; file: string; mine: string; theirs: string; place: Place | null;
}
export interface State {
  revision: number; stateOf: 'game' | 'empty' | 'unreadable'; folder: string; title: string;
  subtitle: string; card: CardFormat; stock: string; columns: string[]; suits: Suit[];
  decks: Deck[]; cards: Card[]; drawings: Drawing[]; layouts: LayoutInfo[]; totals: Totals;
  deckHeight: Range | null; sheets: SheetsInfo | null; box: BoxInfo | null; findings: Finding[];
  errors: number; warnings: number; notes: number; undo: string | null; redo: string | null;
  conflicts: Conflict[]; list: string;
  /** Whether findings, sheets and box are of this very revision. */
  checked: boolean;
}

export interface Work {
  id: string; what: string; done: number; of: number;
  state: 'running' | 'done' | 'stopped' | 'failed'; words: string;
}

export type Json = string | number | boolean | null | Json[] | { [key: string]: Json };
export type TomlPath = (string | number)[];

export interface Box { x: number; y: number; width: number; height: number }
/** A key of an element: its value, its text as the maker wrote it, whether it is written at all. */
export interface Property {
  key: string; value: Json; text: string; place: Place | null; given: boolean;
}
export interface LayoutElement {
  id: string; kind: string; file: string; path: TomlPath; place: Place | null;
  box: Box; turn: number;
  visible: boolean; properties: Property[]; children: LayoutElement[];
}
export interface LayoutView { file: string; elements: LayoutElement[] }

/** A key of the maker's files, as its table describes it. */
export interface KeyFacts {
  key: string; type: string; unit: string; low: number | null; high: number | null;
  words: string[]; fallback: string; meaning: string; section: string;
}
export interface Schema { elements: Record<string, KeyFacts[]>; game: Record<string, KeyFacts[]> }

export interface FontFamily { family: string; weights: number[]; italic: boolean }
export interface ArtFile { file: string; width: number; height: number; bytes: number }

/** A panel of the folded box: a mesh on its net, in millimetres. */
export interface BoxPanel {
  name: string; seen: boolean; upright: number; outline: number[][]; positions: number[];
  normals: number[]; uvs: number[]; printed: number[]; inside: number[]; edge: number[];
}
export interface BoxPart {
  name: string; panels: BoxPanel[]; texture: string | null; inside: string | null;
}
/** `poses[part][panel]` are 12 numbers, a 3 by 4 matrix row after row. */
export interface BoxFrame { progress: number; poses: number[][][] }
export interface BoxModel {
  stamp: string; thickness: number; parts: BoxPart[]; bounds: { low: number[]; high: number[] };
  frames: BoxFrame[]; deckGoesIn: number; deck: { at: number[]; size: number[] } | null;
  steps: string[];
}

export type Change =
  | { kind: 'cell'; row: number; id: string; column: string; text: string }
  | {
      kind: 'rows'; op: 'add' | 'copy' | 'remove' | 'move'; row: number; id: string; to?: number;
      values?: Record<string, string>;
    }
  | { kind: 'value'; file: string; path: TomlPath; value: Json }
  | {
      kind: 'element'; file: string; op: 'add' | 'remove' | 'move'; path: TomlPath; to?: number;
      value?: { [key: string]: Json };
    }
  | { kind: 'column'; op: 'add' | 'remove' | 'rename'; column: string; to?: string };
export interface EditRequest {
  base: number; label: string; changes: Change[]; group?: string; transient?: boolean;
}
export interface EditAnswer { ok: boolean; revision: number }
export interface UndoAnswer { ok: boolean; revision: number; label: string }

export interface PackFile { name: string; bytes: number; what: string }
export interface Pack { files: PackFile[]; written: boolean; report: Json }
export interface ElementCut { card: string; x: number; y: number; w: number; h: number }
export interface Problem { message: string; hint: string }
