// What the view says of places: their kinds, and what sizing one comes to.

import type { Box, Json, LayoutElement, MatPlace } from '../../api/types';
import { property, type Placed } from '../../editor/work.svelte';

export const ARRANGES = [
  { word: 'single', label: 'a single card' },
  { word: 'pile', label: 'a pile' },
  { word: 'row', label: 'a row' },
  { word: 'column', label: 'a column' },
  { word: 'grid', label: 'a grid' },
  { word: 'fan', label: 'a fan' },
];

export function suits_of(element: LayoutElement): string[] {
  const suits = property(element, 'suits');
  if (typeof suits === 'string' && suits !== '') return [suits];
  return Array.isArray(suits) ? suits.filter((one): one is string => typeof one === 'string') : [];
}

/** As the game reads it: one for each suit, else three. */
export function count_of(element: LayoutElement): number {
  const given = element.properties.find((one) => one.key === 'count' && one.given)?.value;
  return typeof given === 'number' ? given : suits_of(element).length || 3;
}

const arrange_of = (element: LayoutElement) => String(property(element, 'arrange') ?? 'single');

/** The handles that mean something: those that add places and take them away. */
export function handles_of({ element }: Placed): string[] {
  const all = ['nw', 'n', 'ne', 'e', 'se', 's', 'sw', 'w'];
  if (element.kind !== 'place') return all;
  const some: Record<string, string[]> = {
    row: ['e'],
    fan: ['e'],
    column: ['s'],
    grid: ['e', 's'],
  };
  return some[arrange_of(element)] ?? [];
}

/** The counts with which the places of an element fill the box best; null when it stays as it is. */
export function counts_in(
  element: LayoutElement,
  box: Box,
  places: MatPlace[],
): { [key: string]: Json } | null {
  const one = places.find((place) => place.element === element.id);
  if (!one) return null;
  const gap = Number(property(element, 'gap') ?? 4);
  const within = (number: number) => Math.min(60, Math.max(1, Math.round(number)));
  const across = within((box.width + gap) / (one.width + gap));
  const down = within((box.height + gap) / (one.height + gap));
  const count = count_of(element);
  const columns = Math.min(Number(property(element, 'columns') ?? 3), count);
  switch (arrange_of(element)) {
    case 'row':
      return across === count ? null : { count: across };
    case 'column':
      return down === count ? null : { count: down };
    case 'fan': {
      const next = within((count * box.width) / element.box.width);
      return next === count ? null : { count: next };
    }
    case 'grid': {
      const next = Math.min(60, across * down);
      const same = across === columns && Math.ceil(count / columns) === down;
      return same ? null : { columns: across, count: next };
    }
    default:
      return null;
  }
}

/** A new place of that kind in the middle of the mat. */
export function new_place(
  word: string,
  mat: { width: number; height: number },
  card: { width: number; height: number },
): { [key: string]: Json } {
  const [wide, high] = [card.width + 3, card.height + 3];
  const times: Record<string, [number, number]> = {
    row: [3, 1],
    column: [1, 3],
    grid: [3, 2],
    fan: [2, 1.2],
  };
  const [across, down] = times[word] ?? [1, 1];
  const at = (room: number, size: number) => Math.max(8, Math.round((room - size) / 2));
  return {
    ...(word === 'single' ? {} : { arrange: word }),
    ...(word === 'grid' ? { count: 6, columns: 3 } : {}),
    at: [at(mat.width, wide * across + 4 * (across - 1)), at(mat.height, high * down)],
  };
}

/** Whether the pointer takes hold of it: a drawing that covers half of the mat is taken from the
    list, or it would lie in the way of everything. */
export function pickable({ element }: Placed, mat: { width: number; height: number }): boolean {
  return element.box.width * element.box.height < mat.width * mat.height * 0.4;
}
