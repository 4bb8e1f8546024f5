// What the states of a picture are called and look like, and where its pieces stand on this page.

import type { PictureInfo, Redrawing, State } from '../../api/types';
import { to } from '../../state/route.svelte';
import { mm } from '../../state/words';
import type { IconName } from '../../widgets/Icon.svelte';

export type PictureState = PictureInfo['state'];
export const STATES: Record<PictureState, { words: string; many: string; icon: IconName }> = {
  coarse: { words: 'too coarse', many: 'Too coarse', icon: 'error' },
  soft: { words: 'a little soft', many: 'A little soft', icon: 'warning' },
  sharp: { words: 'sharp', many: 'Sharp', icon: 'tick' },
  vectors: { words: 'sharp at any size', many: 'Sharp at any size', icon: 'shape' },
  unused: { words: 'on no piece', many: 'On no piece', icon: 'place' },
  unreadable: { words: 'cannot be read', many: 'Cannot be read', icon: 'error' },
};

export const VERDICTS: Record<
  Redrawing['verdict'],
  { words: string; means: string; icon: IconName; looks: 'sharp' | 'soft' | 'coarse' }
> = {
  good: {
    words: 'Good',
    means: 'hardly to be told from the picture',
    icon: 'tick',
    looks: 'sharp',
  },
  look: {
    words: 'Look at it',
    means: 'some places have another colour or outline',
    icon: 'warning',
    looks: 'soft',
  },
  keep: {
    words: 'Better kept as a picture',
    means: 'find it with more pixels, or place it smaller',
    icon: 'error',
    looks: 'coarse',
  },
  hopeless: {
    words: 'Cannot be helped',
    means: 'it has too few pixels to follow',
    icon: 'error',
    looks: 'coarse',
  },
};

export const last_part = (file: string) => file.split('/').at(-1) ?? file;
/** "69 × 94 mm" */
export const millimetres = (size: { width: number; height: number }) =>
  `${mm(size.width)} × ${mm(size.height)} mm`;
export const percent = (share: number) =>
  share < 0.01 ? 'under 1 %' : `${Math.round(100 * share)} %`;

/** Where a piece that shows a picture is looked at; nothing when the page has no place for it. */
export function place_of(piece: string, state: State | null): string | null {
  const id = piece.replace(/^cards\//, '');
  if (state?.cards.some((card) => card.id === id)) return to('cards', id);
  if (/^(box|mat|rules)\b/.test(piece)) return to(/^[a-z]+/.exec(piece)?.[0] ?? '');
  if (/^back\b/.test(piece)) {
    const shown = state?.cards.find((card) => card.back !== '');
    const layout = state?.layouts.find((one) => /back/.test(one.file));
    if (layout) return to('layout', layout.file);
    return shown ? to('cards', shown.id) : null;
  }
  return null;
}
