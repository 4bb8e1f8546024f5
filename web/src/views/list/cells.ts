// The list's cells as text: how wide columns want to be, and what a spreadsheet puts on the
// clipboard.

import type { Card } from '../../api/types';

const LETTER = 7.6; // pixels, mean advance of the text face at its usual size
const LEAST = 72;
const MOST = 320;
const LOOKED_AT = 200; // rows; more would not change a width noticeably

export function column_widths(columns: string[], cards: Card[]): number[] {
  return columns.map((name, at) => {
    const longest = cards
      .slice(0, LOOKED_AT)
      .reduce((most, card) => Math.max(most, card.cells[at]?.length ?? 0), name.length + 2);
    return Math.round(Math.max(LEAST, Math.min(MOST, longest * LETTER + 24)));
  });
}

/** Lines of cells from text parted by tabs. A cell in double quotes may hold tabs, line breaks and
    doubled quotes, as spreadsheets write them. */
export function copied_cells(text: string): string[][] {
  const lines: string[][] = [[]];
  let cell = '';
  let quoted = false;
  const end_cell = () => {
    lines.at(-1)?.push(cell);
    cell = '';
  };
  for (let at = 0; at < text.length; at++) {
    const letter = text.charAt(at);
    if (quoted && letter === '"' && text.charAt(at + 1) === '"') {
      cell += '"';
      at++;
    } else if (quoted && letter === '"') quoted = false;
    else if (!quoted && letter === '"' && cell === '') quoted = true;
    else if (!quoted && letter === '\t') end_cell();
    else if (!quoted && letter === '\n') {
      end_cell();
      lines.push([]);
    } else if (letter !== '\r') cell += letter;
  }
  if (cell !== '' || (lines.at(-1)?.length ?? 0) > 0) end_cell();
  return lines.filter((line) => line.length > 0);
}

/** An id like that of the card above, with the first number that no card has. */
export function free_id(cards: Card[], above: string): string {
  const stem = above.replace(/[-_ ]?\d+$/, '') || 'card';
  const taken = new Set(cards.map((card) => card.id));
  let number = 1;
  while (taken.has(`${stem}-${number}`)) number += 1;
  return `${stem}-${number}`;
}

const A_WORD = 24; // letters; longer cells are sentences, which belong to one card

/** What a new card below `row` begins with: an id, the suit and deck of the card above, and the
    words that the two cards above share. */
export function new_cells(columns: string[], cards: Card[], row: number): Record<string, string> {
  const [above, before] = [cards[row], cards[row - 1]];
  const cells: Record<string, string> = { id: free_id(cards, above?.id ?? '') };
  for (const [at, column] of columns.entries()) {
    const text = above?.cells[at] ?? '';
    if (column === 'id' || text === '') continue;
    const shared = text === before?.cells[at] && text.length <= A_WORD && /^[a-z]/i.test(text);
    if (column === 'suit' || column === 'deck' || shared) cells[column] = text;
  }
  return cells;
}
