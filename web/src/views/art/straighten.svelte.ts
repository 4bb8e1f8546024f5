// The cards that lie in a photograph: where the desk found their corners, where the maker put them,
// and what comes out.

import { find_corners, straighten } from '../../api/pictures';
import type { FoundCards, MadePictures, PictureInfo, PicturePoint } from '../../api/types';
import { Latest } from './latest.svelte';

const AFTER_MOVING = 350; // ms of rest before the result is made anew

export interface Laid {
  corners: PicturePoint[];
  /** what is uncertain; nothing once the maker has moved a corner */
  doubts: string[];
  moved: boolean;
  wanted: boolean;
}

export class StraightenWork {
  readonly found = new Latest<FoundCards>();
  readonly latest = new Latest<MadePictures>();
  cards = $state.raw<Laid[]>([]);
  /** "": the game's card; else "63x88" */
  shape = $state('');
  #picture: PictureInfo | null = null;

  /** Which of the results are written; what was sent is what is ticked. */
  readonly wanted = $derived(this.cards.filter((one) => one.wanted));
  readonly moved = $derived(this.cards.some((one) => one.moved));

  follow(picture: PictureInfo): void {
    const before = this.#picture;
    if (before?.file === picture.file && before.stamp === picture.stamp) return;
    this.#picture = picture;
    this.latest.drop();
    this.found.drop();
    this.cards = [];
    const { file, stamp } = picture;
    this.found.ask(async (signal) => {
      const found = await find_corners({ file, stamp }, signal);
      if (!signal.aborted) this.#take(found);
      return found;
    }, 0);
  }
  #take(found: FoundCards): void {
    this.cards = found.cards.map(({ corners, doubts }) => ({
      corners,
      doubts,
      moved: false,
      wanted: true,
    }));
    this.make(0);
  }
  as_found(): void {
    if (this.found.answer) this.#take(this.found.answer);
  }

  make(rest = AFTER_MOVING): void {
    const picture = this.#picture;
    const corners = this.wanted.map((one) => one.corners);
    if (!picture || corners.length === 0) return this.latest.drop();
    const { file, stamp } = picture;
    const { shape } = this;
    this.latest.ask((signal) => straighten({ file, stamp }, corners, shape, signal), rest);
  }

  move(card: number, corner: number, to: PicturePoint): void {
    const picture = this.#picture;
    if (!picture) return;
    // A corner may lie a little outside of what was photographed.
    const within = (at: number, most: number) =>
      Math.round(10 * Math.min(Math.max(at, -most / 10), 1.1 * most)) / 10;
    const place = { x: within(to.x, picture.width), y: within(to.y, picture.height) };
    this.cards = this.cards.map((one, at) =>
      at === card
        ? {
            ...one,
            corners: one.corners.map((old, which) => (which === corner ? place : old)),
            doubts: [],
            moved: true,
          }
        : one,
    );
    this.make();
  }
  /** By a quarter, clockwise: which way up a card lies cannot be seen from its edges. */
  turn(card: number): void {
    this.cards = this.cards.map((one, at) => {
      const [a, b, c, d] = one.corners;
      if (at !== card || !a || !b || !c || !d) return one;
      return { ...one, corners: [d, a, b, c], moved: true };
    });
    this.make(0);
  }
  want(card: number, wanted: boolean): void {
    this.cards = this.cards.map((one, at) => (at === card ? { ...one, wanted } : one));
    this.make();
  }
  /** One that was not found: laid in the middle, to be pulled where it belongs. */
  add(): void {
    const { width, height } = this.#picture ?? { width: 1, height: 1 };
    const aside = 0.04 * (this.cards.length % 6);
    const at = (x: number, y: number) => ({
      x: Math.round((x + aside) * width),
      y: Math.round((y + aside) * height),
    });
    const corners = [at(0.35, 0.3), at(0.65, 0.3), at(0.65, 0.7), at(0.35, 0.7)];
    this.cards = [...this.cards, { corners, doubts: [], moved: true, wanted: true }];
    this.make();
  }
}

export const straightening = new StraightenWork();
