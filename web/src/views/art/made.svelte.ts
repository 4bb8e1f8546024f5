// A picture of pixels made of another by how far something reaches: cut out, or pulled to the
// game's colours.

import type { Pictured } from '../../api/pictures';
import type { MadePictures, PictureInfo } from '../../api/types';
import { Latest } from './latest.svelte';

type Make = (of: Pictured, reach: number, signal: AbortSignal) => Promise<MadePictures>;

export class MadeWork {
  readonly latest = new Latest<MadePictures>();
  reach = $state(0);
  readonly #make: Make;
  #picture: PictureInfo | null = null;
  #depends = '';

  constructor(reach: number, make: Make) {
    this.reach = reach;
    this.#make = make;
  }

  /** Begins with a picture, or anew when what it `depends` on besides has changed. */
  follow(picture: PictureInfo, depends = ''): void {
    const before = this.#picture;
    const same = before?.file === picture.file && before.stamp === picture.stamp;
    if (same && depends === this.#depends) return;
    this.#picture = picture;
    this.#depends = depends;
    if (!same) this.latest.drop();
    this.ask(0);
  }
  ask(rest?: number): void {
    if (!this.#picture) return;
    const { file, stamp } = this.#picture;
    const { reach } = this;
    this.latest.ask((signal) => this.#make({ file, stamp }, reach, signal), rest);
  }
}
