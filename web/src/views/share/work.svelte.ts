// Whether and how the game can be given to others, as the desk last told it; and what the maker has
// decided of each file until it is shared.

import { fetch_share } from '../../api/desk';
import type { Change, ShareInfo, SourceFile } from '../../api/types';
import { desk } from '../../state/desk.svelte';
import { edits } from '../../state/edits.svelte';

export type Field = 'author' | 'source' | 'licence' | 'changes';
export const LIST = 'art/sources.csv';
/** The list names files from its own folder where it can. */
const listed_as = (file: string) => (file.startsWith('art/') ? file.slice(4) : file);

class Share {
  info = $state.raw<ShareInfo | null>(null);
  without = $state.raw<string[]>([]);
  asked = $state.raw<string[]>([]);
  #revision = -1;

  /** To be called in an effect: follows the game for as long as that lives. */
  follow(): void {
    const { state } = desk;
    if (!state || state.revision === this.#revision) return;
    this.#revision = state.revision;
    void this.refresh();
  }
  async refresh(): Promise<void> {
    const revision = this.#revision;
    try {
      const info = await fetch_share();
      if (revision === this.#revision) this.info = info;
    } catch (problem) {
      this.#revision = -1;
      desk.tell(problem);
    }
  }

  is_settled(file: SourceFile): boolean {
    return (
      file.problem === '' || this.without.includes(file.file) || this.asked.includes(file.file)
    );
  }

  /** Writes what a file's row says. A row, or a column, that is not there yet is added. */
  write(file: SourceFile, field: Field, text: string): void {
    const { info } = this;
    if (!info || file[field] === text) return;
    const changes: Change[] = [];
    const column = info.columns[field] || field;
    if (!info.columns[field]) changes.push({ kind: 'column', file: LIST, op: 'add', column });
    if (file.row === null) {
      const values = { [info.columns.file || 'file']: listed_as(file.file), [column]: text };
      changes.push({ kind: 'rows', file: LIST, op: 'add', row: 0, id: '', values });
    } else {
      changes.push({ kind: 'cell', file: LIST, row: file.row, id: '', column, text });
    }
    edits.make(`${field} of ${file.listed || listed_as(file.file)}`, changes);
  }

  decide(file: string, what: 'leave out' | 'asked' | 'neither'): void {
    const others = (all: string[]) => all.filter((one) => one !== file);
    this.without = others(this.without);
    this.asked = others(this.asked);
    if (what === 'leave out') this.without = [...this.without, file];
    if (what === 'asked') this.asked = [...this.asked, file];
  }
}

export const share = new Share();
