// Where on this page a finding is mended or seen.

import type { Finding, State } from '../api/types';
import { cell_of } from './desk.svelte';

export interface Leads {
  parts: string[];
  words: string;
}

/** The address inside the page that a finding leads to, and what stands there. */
export function leads_to(finding: Finding, state: State): Leads {
  const cell = cell_of(finding, state);
  if (cell) {
    const column = state.columns[cell.column] ?? '';
    return { parts: ['list', cell.id, column], words: `${cell.id}, ${column}` };
  }
  const named = finding.piece.replace(/^cards\//, '');
  const card = state.cards.find((one) => one.id === named);
  if (card && finding.element) {
    return {
      parts: ['layout', card.layout, card.id, finding.element],
      words: `${card.id}, ${finding.element}`,
    };
  }
  if (card) return { parts: ['cards', card.id], words: card.id };
  const is_rules = /^rules\./.test(finding.id) || finding.place?.file.endsWith('.md');
  if (is_rules) {
    const line = finding.place?.file.endsWith('.md') ? finding.place.line : 0;
    return { parts: line ? ['rules', 'line', String(line)] : ['rules'], words: 'rules' };
  }
  if (/^press\./.test(finding.id)) return { parts: ['printer'], words: 'printer' };
  if (/^(sheet|sheets)\./.test(finding.id)) return { parts: ['sheets'], words: 'sheets' };
  if (finding.piece === 'mat' || /^mat\./.test(finding.id)) {
    return {
      parts: finding.element ? ['mat', finding.element] : ['mat'],
      words: finding.element ? `mat, ${finding.element}` : 'mat',
    };
  }
  if (/^box\./.test(finding.id)) return { parts: ['box'], words: 'box' };
  const layout = state.layouts.find((one) => one.file === finding.place?.file);
  if (layout) return { parts: ['layout', layout.file], words: layout.file };
  if (finding.place?.file === state.list) return { parts: ['list'], words: 'list' };
  return { parts: ['cards'], words: finding.place?.file || 'cards' };
}

/** "cards.csv, line 31", or "" when it has no place in a file. */
export function file_words(finding: Finding): string {
  const place = finding.place;
  return place && place.file ? `${place.file}, line ${place.line}` : '';
}
