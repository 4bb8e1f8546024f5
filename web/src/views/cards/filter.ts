// Which cards the maker wants to see.

import type { Card, Finding, State } from '../../api/types';

/** `suit` is "*" for every suit, "" for cards without one. */
export interface CardFilter {
  text: string;
  suit: string;
  findings: 'any' | 'some' | 'none';
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
    if (filter.findings !== 'any' && (filter.findings === 'some') !== findings.has(card.id)) {
      return false;
    }
    return words === '' || card.cells.some((cell) => cell.toLocaleLowerCase().includes(words));
  });
}

/** What a card is called for a person: its name column when there is one, else its id. */
export function card_name(card: Card, columns: string[]): string {
  const at = columns.indexOf('name');
  return (at >= 0 && card.cells[at]) || card.id;
}
