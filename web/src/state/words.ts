// Numbers and counts in words, the same wherever they stand on the page.

import type { Range, Severity } from '../api/types';

/** A length to a tenth of a millimetre, without a needless zero. */
export function mm(length: number): string {
  return `${Number(length.toFixed(1))}`;
}
export function range(of: Range): string {
  return mm(of.low) === mm(of.high) ? `${mm(of.low)} mm` : `${mm(of.low)} to ${mm(of.high)} mm`;
}
export function count(number: number, one: string, many: string): string {
  return `${number} ${number === 1 ? one : many}`;
}
export function bytes(number: number): string {
  if (number < 1000) return `${number} bytes`;
  if (number < 1e6) return `${Math.round(number / 1000)} kB`;
  return `${(number / 1e6).toFixed(1)} MB`;
}
/** A sentence of the desk's as it stands alone on the page. */
export function sentence(text: string): string {
  const word = text.split(' ')[0] ?? '';
  const plain = /^[a-z][a-z-]*[,:]?$/.test(word); // and no file, key or number
  const first = plain ? text.charAt(0).toUpperCase() + text.slice(1) : text;
  return /[.!?…:]$/.test(first) ? first : `${first}.`;
}

export const severity_words: Record<Severity, { one: string; many: string; means: string }> = {
  error: { one: 'stops the print', many: 'stop the print', means: 'this is not printed yet' },
  warning: { one: 'will disappoint', many: 'will disappoint', means: 'printed, and seen' },
  note: { one: 'good to know', many: 'good to know', means: 'good to know' },
};
export const severities: Severity[] = ['error', 'warning', 'note'];
