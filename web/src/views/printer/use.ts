// Which printer the game is printed for: a value of game.toml, changed as any other is.

import type { Change } from '../../api/types';
import { edits } from '../../state/edits.svelte';
import type { Kind } from './work.svelte';

const printer_value = (key: string, value: string | null): Change => ({
  kind: 'value',
  file: 'game.toml',
  path: ['printer', key],
  value,
});

/** Names the printer in the game, and its kind where that is another: one step to undo. */
export function use_printer(printer: string, name: string, kind: Kind | null): void {
  const changes = [printer_value('profile', printer)];
  if (kind) changes.push(printer_value('kind', kind));
  edits.make(`print for ${name}`, changes);
}
export function use_none(): void {
  edits.make('print for no printer', [printer_value('profile', null)]);
}
