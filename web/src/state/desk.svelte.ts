// What the page knows of the game: the server's last state, whether the server answers, and the
// work that it is doing.

import { events_address } from '../api/addresses';
import { fetch_state, Refused, Unreached } from '../api/desk';
import type { Card, Drawing, Finding, State, Suit, Work } from '../api/types';

const RETRY_AFTER = 1500; // ms between two tries to reach a server that is gone

export type Reach = 'starting' | 'here' | 'gone' | 'refused';

class Desk {
  state = $state.raw<State | null>(null);
  reach = $state<Reach>('starting');
  works = $state.raw<Work[]>([]);
  /** What went wrong with the last thing that was asked for, until it is put away. */
  notice = $state.raw<{ message: string; lines: string[] } | null>(null);

  readonly stamps = $derived(new Map(this.state?.drawings.map((d: Drawing) => [d.key, d.stamp])));
  /** The colours that the maker named, as they are written in a layout and as they look. */
  readonly colours = $derived(colours_of(this.state));
  readonly cards_by_id = $derived(new Map(this.state?.cards.map((card: Card) => [card.id, card])));
  readonly suits = $derived(new Map(this.state?.suits.map((suit: Suit) => [suit.id, suit])));
  /** Findings by the card they concern: by its row in the list, or by the piece's name. */
  readonly findings_by_card = $derived.by(() => {
    const found = new Map<string, Finding[]>();
    for (const finding of this.state?.findings ?? []) {
      const id = card_of(finding, this.state);
      if (id) found.set(id, [...(found.get(id) ?? []), finding]);
    }
    return found;
  });

  stamp(key: string): string {
    return this.stamps.get(key) ?? '';
  }

  /** Listens for changes, for as long as the page is open. */
  start(): void {
    void this.refresh();
    this.#listen();
  }

  #fetching: Promise<void> | null = null;
  #again = false;
  /** Fetches the state; several wishes while one is under way become one more. Ends when what is
      shown is no older than this wish. */
  refresh(): Promise<void> {
    this.#again = true;
    this.#fetching ??= this.#fetch().finally(() => (this.#fetching = null));
    return this.#fetching;
  }
  async #fetch(): Promise<void> {
    try {
      while (this.#again) {
        this.#again = false;
        this.state = await fetch_state();
        this.reach = 'here';
      }
    } catch (problem) {
      if (problem instanceof Refused) this.reach = 'refused';
      else this.lost();
    }
  }

  lost(): void {
    if (this.reach === 'gone') return;
    this.reach = 'gone';
    this.#retry();
  }

  #retry(): void {
    setTimeout(async () => {
      await this.refresh();
      if (this.reach === 'gone') this.#retry();
      else this.#listen();
    }, RETRY_AFTER);
  }

  #source: EventSource | null = null;
  #listen(): void {
    this.#source?.close();
    const source = new EventSource(events_address());
    this.#source = source;
    source.addEventListener('state', () => void this.refresh());
    source.addEventListener('work', (event) => this.#take_work(JSON.parse(event.data)));
    // What changed between the first question and this moment was told to nobody here.
    source.addEventListener('open', () => void this.refresh());
    source.addEventListener('error', () => void this.refresh());
  }

  #take_work(work: Work): void {
    this.works = [...this.works.filter((other) => other.id !== work.id), work];
  }

  /** Says what the server answered when it did not do what was asked. */
  tell(problem: unknown): void {
    if (problem instanceof Unreached) return this.lost();
    if (problem instanceof Refused) {
      const lines = problem.findings.flatMap((f) => [f.message, ...f.hints]);
      if (problem.hint) lines.push(problem.hint);
      this.notice = { message: problem.message, lines };
      return;
    }
    this.notice = { message: String(problem), lines: [] };
  }
}

interface NamedColour {
  name: string;
  written: string;
  value: string | null;
}
/** A desk that does not tell the game's colours still tells those of the suits. */
function colours_of(
  state: (State & { colours?: { name: string; value: string | null }[] }) | null,
) {
  const named: NamedColour[] =
    state?.colours?.map(({ name, value }) => ({ name, written: name, value })) ??
    state?.suits.map(({ name, colour }) => ({ name, written: colour ?? '', value: colour })) ??
    [];
  return named;
}

function card_of(finding: Finding, state: State | null): string {
  if (!state) return '';
  const named = finding.piece.replace(/^cards\//, '');
  if (state.cards.some((card) => card.id === named)) return named;
  if (finding.place && finding.place.file === state.list) {
    return cell_of(finding, state)?.id ?? '';
  }
  return '';
}

/** The card and column of a finding whose place lies in the list, by the places of its words. */
export function cell_of(
  finding: Finding,
  state: State,
): { id: string; row: number; column: number } | null {
  const place = finding.place;
  if (!place || place.file !== state.list || place.line < 2) return null;
  const row = row_at_line(state, place.line);
  const card = state.cards[row];
  if (!card) return null;
  return { id: card.id, row, column: column_at(card.cells, place.column) };
}

/** Rows may hold line breaks, so the line of a row is the sum of the lines before it. */
function row_at_line(state: State, line: number): number {
  let at = 2;
  for (const [row, card] of state.cards.entries()) {
    const lines = 1 + card.cells.reduce((sum, cell) => sum + cell.split('\n').length - 1, 0);
    if (line < at + lines) return row;
    at += lines;
  }
  return -1;
}

function column_at(cells: string[], column: number): number {
  let at = 1;
  for (const [index, cell] of cells.entries()) {
    const quoted = /[",;\n]/.test(cell);
    const width = cell.replaceAll('"', '""').length + (quoted ? 2 : 0);
    if (column <= at + width) return index;
    at += width + 1;
  }
  return Math.max(0, cells.length - 1);
}

export const desk = new Desk();
