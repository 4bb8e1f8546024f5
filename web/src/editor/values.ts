// Values of the maker's files as words, and colours as numbers.

import type { Json, KeyFacts } from '../api/types';

/** What a key is for, with its unit and bounds, as one line. */
export function explained(facts: KeyFacts): string {
  const plain = facts.meaning.replaceAll(/[`*]/g, '');
  const bounds =
    facts.low !== null && facts.high !== null
      ? ` From ${facts.low} to ${facts.high}${facts.unit ? ` ${facts.unit}` : ''}.`
      : '';
  return `${plain}${bounds}`;
}

/** The numbers of a list of numbers, also when it stands as TOML; null when it is none. */
export function numbers_in(value: Json): number[] | null {
  let list = value;
  if (typeof value === 'string' && value.startsWith('[')) {
    try {
      list = JSON.parse(value) as Json;
    } catch {
      return null;
    }
  }
  if (!Array.isArray(list) || list.length === 0) return null;
  const numbers = list.filter((one) => typeof one === 'number');
  return numbers.length === list.length ? numbers : null;
}

export type Table = { [key: string]: Json };
export function table_in(value: Json | undefined): Table | null {
  const is_table = typeof value === 'object' && value !== null && !Array.isArray(value);
  return is_table ? value : null;
}

/** What a table begins with when the maker puts one on: the same as when its keys are left out. */
export const beginnings: Record<string, Table> = {
  stroke: { colour: 'black', width: 0.25 },
  strokes: { colour: 'black', width: 0.25 },
  shadow: { offset: [0.4, 0.6], blur: 0.8 },
  outline: { colour: 'white', width: 0.4 },
};

/** Relative luminance of an sRGB colour, each part 0 to 255 (WCAG 2.2, "relative luminance"). */
export function luminance(red: number, green: number, blue: number): number {
  const linear = (part: number) => {
    const share = part / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue);
}

/** From 1 to 21 (WCAG 2.2, "contrast ratio"). */
export function contrast(one: number, other: number): number {
  const [dark, light] = one < other ? [one, other] : [other, one];
  return (light + 0.05) / (dark + 0.05);
}

/** The contrast of what is drawn on what lies behind it: of the commonest colour among the pixels
    and the colour furthest from it that at least one pixel in a hundred has. */
export function drawn_contrast(pixels: Uint8ClampedArray): number | null {
  const counts = new Map<number, number>();
  let all = 0;
  for (let at = 0; at + 3 < pixels.length; at += 4) {
    if ((pixels[at + 3] ?? 0) < 250) continue;
    const shade = (step: number) => (pixels[at + step] ?? 0) >> 3;
    const colour = (shade(0) << 10) | (shade(1) << 5) | shade(2);
    counts.set(colour, (counts.get(colour) ?? 0) + 1);
    all += 1;
  }
  const often = [...counts].filter(([, number]) => number >= all / 100);
  if (often.length < 2) return null;
  const light = ([colour]: [number, number]) =>
    luminance(
      ((colour >> 10) & 31) * (255 / 31),
      ((colour >> 5) & 31) * (255 / 31),
      (colour & 31) * (255 / 31),
    );
  const ground = light(often.reduce((most, one) => (one[1] > most[1] ? one : most)));
  return Math.max(...often.map((one) => contrast(light(one), ground)));
}
