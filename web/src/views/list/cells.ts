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
