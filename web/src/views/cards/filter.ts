// Which cards the maker wants to see.

import type { Card, Finding, State } from '../../api/types';

/** `suit` is "*" for every suit, "" for cards without one; `findings` is "any", "some", "none" or
    the id of a finding. */
export interface CardFilter {
  text: string;
  suit: string;
  findings: string;
}
export const usual_filter: CardFilter = { text: '', suit: '*', findings: 'any' };

export function wanted_cards(
  state: State,
  filter: CardFilter,
  findings: Map<string, Finding[]>,
): Card[] {
  const words = filter.text.trim().toLocaleLowerCase();
  return state.cards.filter((card) => {
    if (filter.suit !== '*' && card.suit !== filter.suit) return false;
    if (!has_wanted(findings.get(card.id) ?? [], filter.findings)) return false;
    return words === '' || card.cells.some((cell) => cell.toLocaleLowerCase().includes(words));
  });
}

/** What a card is called for a person: its name column when there is one, else its id. */
export function card_name(card: Card, columns: string[]): string {
  const at = columns.indexOf('name');
  return (at >= 0 && card.cells[at]) || card.id;
}

function has_wanted(found: Finding[], wanted: string): boolean {
  if (wanted === 'any') return true;
  if (wanted === 'some' || wanted === 'none') return found.length > 0 === (wanted === 'some');
  return found.some((finding) => finding.id === wanted);
}
