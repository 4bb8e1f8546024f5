// A picture redrawn as the maker wishes it: how closely, in which colours, and which of them take
// another.

import { redraw } from '../../api/pictures';
import type {
  ColourInstead,
  DrawingColour,
  PictureInfo,
  Redrawing,
  RedrawRequest,
} from '../../api/types';
import { Latest } from './latest.svelte';
import { art } from './work.svelte';

export type ColoursBy = 'need' | 'number' | 'game';

export class RedrawWork {
  readonly latest = new Latest<Redrawing>();
  closeness = $state<RedrawRequest['closeness']>('closest');
  by = $state<ColoursBy>('need');
  most = $state(6);
  /** Colours of the drawing as it was traced, and what the maker put instead. */
  instead = $state.raw<ColourInstead[]>([]);
  #own: DrawingColour[] = [];
  #own_for = '';
  #shown: ColourInstead[] = [];
  #picture: PictureInfo | null = null;

  /** Begins with a picture, or goes on with what it has become. */
  follow(picture: PictureInfo): void {
    const before = this.#picture;
    if (before?.file === picture.file && before.stamp === picture.stamp) return;
    this.#picture = picture;
    this.latest.drop();
    this.instead = this.#shown = [];
    this.#own_for = '';
    this.ask(0);
  }

  ask(rest?: number): void {
    const picture = this.#picture;
    if (!picture || picture.kind !== 'pixels') return;
    const { file, stamp } = picture;
    const asked: Omit<RedrawRequest, 'instead'> = {
      file,
      stamp,
      closeness: this.closeness,
      colours: this.by === 'number' ? this.most : 0,
      palette: this.by === 'game' ? (art.info?.colours.map((one) => one.colour) ?? []) : [],
    };
    this.latest.ask((signal) => this.#redraw(asked, signal), rest);
  }

  /** With other wishes the colours are others: what was put instead of those that are gone is over. */
  async #redraw(asked: Omit<RedrawRequest, 'instead'>, signal: AbortSignal): Promise<Redrawing> {
    const key = JSON.stringify(asked);
    if (key !== this.#own_for) {
      const plain = await redraw({ ...asked, instead: [] }, signal);
      if (signal.aborted) return plain;
      this.#own = plain.colours;
      this.#own_for = key;
      const left = new Set(plain.colours.map((one) => one.colour));
      this.instead = this.instead.filter((one) => left.has(one.from));
      if (this.instead.length === 0) {
        this.#shown = [];
        return plain;
      }
    }
    const { instead } = this;
    const answer = await redraw({ ...asked, instead }, signal);
    if (!signal.aborted) this.#shown = instead;
    return answer;
  }

  /** All areas of a colour that is shown take another, which may be one of the drawing already. */
  change(from: string, to: string): void {
    const now = (one: DrawingColour) =>
      this.#shown.find((other) => other.from === one.colour)?.to ?? one.colour;
    const sources = this.#own.filter((one) => now(one) === from).map((one) => one.colour);
    const others = this.instead.filter((one) => !sources.includes(one.from));
    const changed = sources.filter((one) => one !== to).map((one) => ({ from: one, to }));
    this.instead = [...others, ...changed];
    this.ask();
  }
  as_traced(): void {
    this.instead = [];
    this.ask();
  }
}

/** Kept while the maker looks at other views and comes back. */
export const redrawing = new RedrawWork();
