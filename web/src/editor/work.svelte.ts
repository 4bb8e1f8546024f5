// What the maker is working on in the layout view: a layout, a sample card, an element; and the
// changes of its box on their way.

import { fetch_layout, fetch_schema } from '../api/desk';
import type {
  Box,
  Change,
  Json,
  KeyFacts,
  LayoutElement,
  LayoutView,
  Schema,
  TomlPath,
} from '../api/types';
import { desk } from '../state/desk.svelte';
import { edits } from '../state/edits.svelte';

/** Apart from the groups of an earlier time this page was open. */
const OPENED = Date.now().toString(36);
const SAME_STEP = 1200; // ms within which arrow presses are one step to undo

export interface Placed {
  element: LayoutElement;
  parent: Box;
  depth: number;
}

export class LayoutWork {
  file = $state('');
  card = $state('');
  chosen = $state('');
  view = $state.raw<LayoutView | null>(null);
  schema = $state.raw<Schema | null>(null);
  /** The box of the chosen element while it is being moved, before the desk has drawn it. */
  moving = $state.raw<{ id: string; box: Box } | null>(null);

  /** All elements, those of groups after their group, in drawing order. */
  readonly placed = $derived.by(() => {
    const all: Placed[] = [];
    const walk = (elements: LayoutElement[], parent: Box, depth: number) => {
      for (const element of elements) {
        all.push({ element, parent, depth });
        walk(element.children, element.box, depth + 1);
      }
    };
    walk(this.view?.elements ?? [], { x: 0, y: 0, width: 0, height: 0 }, 0);
    return all;
  });
  readonly current = $derived(this.placed.find((one) => one.element.id === this.chosen) ?? null);
  readonly box = $derived(
    this.moving?.id === this.chosen ? this.moving.box : (this.current?.element.box ?? null),
  );

  #asked: AbortController | null = null;
  async load(file: string, card: string): Promise<void> {
    this.#asked?.abort();
    this.#asked = new AbortController();
    try {
      this.schema ??= await fetch_schema();
      this.view = await fetch_layout(file, card, this.#asked.signal);
      if (!this.#dragging && edits.waiting.length === 0) this.moving = null;
    } catch (problem) {
      if (problem instanceof DOMException && problem.name === 'AbortError') return;
      desk.tell(problem);
    }
  }

  facts(kind: string): KeyFacts[] {
    return this.schema?.elements[kind] ?? [];
  }

  /** The file in which an element is written; a layout may take it over from another. */
  file_of(element: LayoutElement): string {
    return element.file || this.file;
  }
  #value(element: LayoutElement, path: TomlPath, value: Json): Change {
    return { kind: 'value', file: this.file_of(element), path: [...element.path, ...path], value };
  }

  /** Writes one value of the chosen element; null takes its key away. */
  set(path: TomlPath, value: Json): void {
    const element = this.current?.element;
    if (!element) return;
    const name = `${path.filter((one) => typeof one === 'string').join(' ')} of ${element.id}`;
    const label = value === null ? `${name} as usual` : name;
    edits.make(label, [this.#value(element, path, value)]);
  }

  /** The changes that give an element this box: of what is written of it. What is shown while it is
      dragged has the drag in it already. */
  #box_changes(box: Box, current = this.current): Change[] {
    if (!current) return [];
    const { element, parent } = current;
    if (element.kind === 'place') return this.#place_changes(box, element, parent);
    const nudge = numbers(element, 'nudge') ?? [0, 0];
    const at = [box.x - parent.x - (nudge[0] ?? 0), box.y - parent.y - (nudge[1] ?? 0)];
    const changes = [this.#value(element, ['at'], at.map(hundredth))];
    const same_size = near(box.width, element.box.width) && near(box.height, element.box.height);
    const inset = element.properties.some((one) => one.key === 'inset' && one.given);
    if (!same_size || inset) {
      changes.push(this.#value(element, ['size'], [box.width, box.height].map(hundredth)));
    }
    if (inset) changes.push(this.#value(element, ['inset'], null));
    return changes;
  }

  /** Places have the size of their cards: what moves them is the corner, or the box in whose middle
      they lie. */
  #place_changes(box: Box, element: LayoutElement, parent: Box): Change[] {
    const [dx, dy] = [box.x - element.box.x, box.y - element.box.y];
    const given = (key: string) => element.properties.some((one) => one.key === key && one.given);
    const inset = given('inset') ? property(element, 'inset') : undefined;
    if (inset !== undefined && inset !== 'bleed') {
      const [top = 0, right = 0, bottom = 0, left = 0] =
        typeof inset === 'number'
          ? [inset, inset, inset, inset]
          : (numbers(element, 'inset') ?? []);
      const shifted = [top + dy, right - dx, bottom - dy, left + dx];
      return [this.#value(element, ['inset'], shifted.map(hundredth))];
    }
    if (given('size')) {
      const [x = 0, y = 0] = numbers(element, 'at') ?? [];
      return [this.#value(element, ['at'], [x + dx, y + dy].map(hundredth))];
    }
    const nudge = numbers(element, 'nudge') ?? [0, 0];
    const at = [box.x - parent.x - (nudge[0] ?? 0), box.y - parent.y - (nudge[1] ?? 0)];
    return [this.#value(element, ['at'], at.map(hundredth))];
  }

  /** Writes some values of the chosen element in one step; null takes a key away. */
  set_all(label: string, values: { [key: string]: Json }, group?: string): void {
    const element = this.current?.element;
    if (!element) return;
    const changes = Object.entries(values).map(([key, value]) =>
      this.#value(element, [key], value),
    );
    edits.make(label, changes, group);
  }

  #group = 0;
  #pressed = 0;
  #dragging = false;
  #taken: typeof this.current = null; // as it was when the drag began
  begin_drag(): void {
    this.#group += 1;
    this.#dragging = true;
    this.#taken = this.current;
  }
  drag(box: Box): void {
    this.moving = { id: this.chosen, box };
    edits.follow(
      `moving ${this.chosen}`,
      this.#box_changes(box, this.#taken),
      `drag-${OPENED}-${this.#group}`,
    );
  }
  end_drag(): void {
    this.#dragging = false;
    if (this.moving) {
      const label = `place of ${this.chosen}`;
      edits.make(
        label,
        this.#box_changes(this.moving.box, this.#taken),
        `drag-${OPENED}-${this.#group}`,
      );
    }
  }
  nudge(box: Box): void {
    const now = performance.now();
    if (now - this.#pressed > SAME_STEP) this.#group += 1;
    this.#pressed = now;
    this.moving = { id: this.chosen, box };
    edits.make(`place of ${this.chosen}`, this.#box_changes(box), `nudge-${OPENED}-${this.#group}`);
  }
  place(box: Box): void {
    this.moving = { id: this.chosen, box };
    edits.make(`place of ${this.chosen}`, this.#box_changes(box));
  }

  /** Puts the element elsewhere in the order; `step` 1 is nearer to the eye. */
  reorder(element: LayoutElement, step: 1 | -1): void {
    const at = element.path.at(-1);
    if (typeof at !== 'number') return;
    const change: Change = {
      kind: 'element',
      file: this.file_of(element),
      op: 'move',
      path: element.path,
      to: at + step,
    };
    edits.make(`order of ${element.id}`, [change]);
  }
  remove(element: LayoutElement): void {
    const change: Change = {
      kind: 'element',
      file: this.file_of(element),
      op: 'remove',
      path: element.path,
    };
    edits.make(`removing ${element.id}`, [change]);
    this.chosen = '';
  }
  add(kind: string, value: { [key: string]: Json }): void {
    const id = this.free_id(kind);
    const path: TomlPath = ['element', this.#written_here()];
    edits.make(`a new ${kind}`, [
      { kind: 'element', file: this.file, op: 'add', path, value: { id, kind, ...value } },
    ]);
    this.chosen = id;
  }
  /** How many elements the layout's own file lists: a new one stands after them, on top. */
  #written_here(): number {
    const own = this.placed.filter(({ element }) => this.file_of(element) === this.file);
    return Math.max(0, ...own.map(({ element }) => Number(element.path[1] ?? -1) + 1));
  }
  free_id(stem: string): string {
    const taken = new Set(this.placed.map((one) => one.element.id));
    let number = 1;
    while (taken.has(`${stem}-${number}`)) number += 1;
    return `${stem}-${number}`;
  }
}

export function property(element: LayoutElement, key: string): Json | undefined {
  return element.properties.find((one) => one.key === key)?.value;
}
export function numbers(element: LayoutElement, key: string): number[] | null {
  const value = property(element, key);
  if (!Array.isArray(value)) return null;
  const found = value.filter((one): one is number => typeof one === 'number');
  return found.length === value.length ? found : null;
}

const hundredth = (length: number) => Math.round(length * 100) / 100;
const near = (a: number, b: number) => Math.abs(a - b) < 0.005;
