// Which part of a picture is in view, and how large: from all of it to single pixels.

const MOST = 16; // times the whole picture in view, or screen pixels for one of the picture
const MARGIN = 24; // screen pixels round the whole picture

/** Where the picture lies on its stage, in screen pixels; `scale` of them to one of the picture. */
export interface Frame {
  left: number;
  top: number;
  scale: number;
}

const within = (value: number, least: number, most: number) =>
  Math.min(Math.max(value, least), most);

export class Zoom {
  /** Of the picture, in its pixels. */
  width = $state(1);
  height = $state(1);
  /** Of the stage, in screen pixels. */
  wide = $state(400);
  high = $state(400);
  factor = $state(1);
  /** What lies in the middle of the stage, as shares of the picture. */
  #x = $state(0.5);
  #y = $state(0.5);

  readonly whole = $derived(
    Math.max(
      0.01,
      Math.min((this.wide - 2 * MARGIN) / this.width, (this.high - 2 * MARGIN) / this.height),
    ),
  );
  readonly most = $derived(Math.max(MOST, MOST / this.whole));
  readonly frame = $derived.by((): Frame => {
    const scale = this.whole * this.factor;
    return {
      left: this.wide / 2 - this.#x * this.width * scale,
      top: this.high / 2 - this.#y * this.height * scale,
      scale,
    };
  });

  /** Begins with the whole of a picture. */
  show(width: number, height: number): void {
    if (width === this.width && height === this.height) return;
    this.width = Math.max(1, width);
    this.height = Math.max(1, height);
    this.fit();
  }
  fit(): void {
    this.factor = 1;
    this.#x = this.#y = 0.5;
  }

  /** What lies at this place of the stage stays there. */
  to(factor: number, x = this.wide / 2, y = this.high / 2): void {
    const { left, top, scale } = this.frame;
    const [u, v] = [(x - left) / (this.width * scale), (y - top) / (this.height * scale)];
    this.factor = within(factor, 1, this.most);
    const now = this.whole * this.factor;
    this.#x = u + (this.wide / 2 - x) / (this.width * now);
    this.#y = v + (this.high / 2 - y) / (this.height * now);
    this.#hold();
  }
  by(times: number, x?: number, y?: number): void {
    this.to(this.factor * times, x, y);
  }
  /** Moves the picture on the stage, in screen pixels. */
  pan(dx: number, dy: number): void {
    const { scale } = this.frame;
    this.#x -= dx / (this.width * scale);
    this.#y -= dy / (this.height * scale);
    this.#hold();
  }
  /** Brings a place of the picture into view when it is not. */
  reveal(x: number, y: number): void {
    const { left, top, scale } = this.frame;
    const [at_x, at_y] = [left + x * scale, top + y * scale];
    const dx = within(at_x, MARGIN, this.wide - MARGIN) - at_x;
    const dy = within(at_y, MARGIN, this.high - MARGIN) - at_y;
    if (dx !== 0 || dy !== 0) this.pan(dx, dy);
  }

  /** The picture's edge does not come further in than its margin. */
  #hold(): void {
    const scale = this.whole * this.factor;
    const room = (stage: number, picture: number) =>
      Math.min(0.5, (stage / 2 - MARGIN) / (picture * scale));
    const [x, y] = [room(this.wide, this.width), room(this.high, this.height)];
    this.#x = within(this.#x, x, 1 - x);
    this.#y = within(this.#y, y, 1 - y);
  }
}
