// Colours found in pictures, named by the maker and taken into the game's own.

import { find_palette } from '../../api/pictures';
import type { Change, PaletteColour, PictureInfo, PicturesPalette } from '../../api/types';
import { edits } from '../../state/edits.svelte';
import { Latest } from './latest.svelte';
import { art } from './work.svelte';
import { last_part } from './words';

export interface FoundColour extends PaletteColour {
  /** as the maker calls it */
  called: string;
  wanted: boolean;
}

/** A name as it can be written in game.toml without quotes: letters, digits, - and _. */
export const as_name = (text: string) =>
  text
    .trim()
    .replaceAll(/\s+/g, '-')
    .replaceAll(/[^A-Za-z0-9_-]/g, '');

export class PaletteWork {
  readonly latest = new Latest<PicturesPalette>();
  files = $state.raw<string[]>([]);
  most = $state(8);
  rows = $state.raw<FoundColour[]>([]);
  #picture = '';

  follow(picture: PictureInfo): void {
    const now = `${picture.file} ${picture.stamp}`;
    if (now === this.#picture) return;
    this.#picture = now;
    this.latest.drop();
    this.rows = [];
    this.files = [picture.file];
    this.ask(0);
  }
  ask(rest?: number): void {
    const { files, most } = this;
    if (files.length === 0) {
      this.latest.drop();
      this.rows = [];
      return;
    }
    this.latest.ask(async (signal) => {
      const found = await find_palette(files, most, signal);
      if (!signal.aborted) this.#take(found.colours);
      return found;
    }, rest);
  }
  /** Names and choices that were made are kept for colours that are found again. */
  #take(colours: PaletteColour[]): void {
    const before = new Map(this.rows.map((one) => [one.colour, one]));
    this.rows = colours.map((one) => {
      const known = before.get(one.colour);
      return { ...one, called: known?.called ?? one.name, wanted: known?.wanted ?? true };
    });
  }
  from(file: string, wanted: boolean): void {
    const others = this.files.filter((one) => one !== file);
    this.files = wanted ? [...others, file] : others;
    this.ask();
  }
  call(colour: string, called: string): void {
    this.rows = this.rows.map((one) => (one.colour === colour ? { ...one, called } : one));
  }
  want(colour: string, wanted: boolean): void {
    this.rows = this.rows.map((one) => (one.colour === colour ? { ...one, wanted } : one));
  }

  /** What the game calls this colour already. */
  in_game(colour: string): string {
    const same = (one: PaletteColour) => one.colour.toLowerCase() === colour.toLowerCase();
    return art.info?.colours.find(same)?.name ?? '';
  }
  readonly taken = $derived(
    this.rows.filter((one) => one.wanted && this.in_game(one.colour) === ''),
  );
  /** What stands against a name. */
  fault(row: FoundColour): string {
    if (!row.wanted || this.in_game(row.colour) !== '') return '';
    const name = as_name(row.called);
    if (name === '') return 'Give it a name of letters, digits and dashes.';
    if (art.info?.colours.some((one) => one.name === name)) {
      return `The game has another colour called ${name}.`;
    }
    const twice = this.taken.some((one) => one !== row && as_name(one.called) === name);
    return twice ? `Two of these are called ${name}.` : '';
  }

  /** One step to undo. */
  take(): void {
    const changes = this.taken.map((one): Change => ({
      kind: 'value',
      file: 'game.toml',
      path: ['colours', as_name(one.called)],
      value: one.colour,
    }));
    const of = this.files.length === 1 ? last_part(this.files[0] ?? '') : 'pictures';
    if (changes.length > 0) edits.make(`colours of ${of}`, changes);
  }
}

export const palette = new PaletteWork();
