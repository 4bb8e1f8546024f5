// How the maker likes to look at things; kept in this browser.

const CSS_PIXELS_PER_MM = 96 / 25.4; // CSS Values and Units 3, section 5.2: 1in = 96px
/** ID-1 of ISO/IEC 7810, the size of bank and library cards, in mm. */
export const ID1 = { width: 85.6, height: 53.98 };

export type Theme = 'system' | 'light' | 'dark';
export type Sight = 'all' | 'protan' | 'deutan' | 'tritan' | 'grey';

interface Kept {
  theme: Theme;
  scale: number;
  calibrated: boolean;
  trim: boolean;
  corner: boolean;
  bleed: boolean;
  safe: boolean;
  likely: boolean;
  face_width: number;
}
const USUAL: Kept = {
  theme: 'system',
  scale: CSS_PIXELS_PER_MM,
  calibrated: false,
  trim: true,
  corner: true,
  bleed: false,
  safe: false,
  likely: false,
  face_width: 150,
};
const KEY = 'quoin.preferences';

function read(): Kept {
  try {
    return { ...USUAL, ...JSON.parse(localStorage.getItem(KEY) ?? '{}') };
  } catch {
    return { ...USUAL };
  }
}

const dark_outside = matchMedia('(prefers-color-scheme: dark)');

class Preferences {
  kept = $state<Kept>(read());
  /** Not kept: a maker who comes back should see the true colours. */
  sight = $state<Sight>('all');

  #outside = $state(dark_outside.matches);
  /** Whether the page is dark now. */
  get dark(): boolean {
    const { theme } = this.kept;
    return theme === 'system' ? this.#outside : theme === 'dark';
  }

  /** Pixels of the page per millimetre on this screen. */
  get scale(): number {
    return this.kept.scale;
  }
  get calibrated(): boolean {
    return this.kept.calibrated;
  }
  calibrate(scale: number): void {
    this.kept.scale = scale;
    this.kept.calibrated = true;
  }

  constructor() {
    dark_outside.addEventListener('change', () => (this.#outside = dark_outside.matches));
    $effect.root(() => {
      $effect(() => localStorage.setItem(KEY, JSON.stringify(this.kept)));
      $effect(() => {
        const theme = this.kept.theme;
        if (theme === 'system') delete document.documentElement.dataset.theme;
        else document.documentElement.dataset.theme = theme;
      });
    });
  }
}

export const preferences = new Preferences();
