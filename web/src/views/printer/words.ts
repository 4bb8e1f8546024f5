// What the view says of printers, the same wherever it stands.

import type { KnownPrinter, PrinterAbout, Printers } from '../../api/types';

export const kind_words: Record<Printers['kind'], string> = {
  laser: 'Laser',
  inkjet: 'Inkjet',
  'copy-shop': 'Copy shop',
};
export const how_words: Record<KnownPrinter['how'], string> = {
  eye: 'read by eye',
  scans: 'by scans',
  typed: 'written by hand',
};
export const edge_words: Record<PrinterAbout['flip'], string> = {
  'long-edge': 'long edge',
  'short-edge': 'short edge',
};
export const backs_words: Record<PrinterAbout['backs'], string> = {
  printer: 'turned by the printer',
  'by-hand': 'turned by hand',
};

/** "3 weeks ago": days of the calendar between two days written as 2026-11-25. */
export function age_words(day: string, today: string): string {
  const days = Math.round((Date.parse(today) - Date.parse(day)) / 86_400_000);
  if (!Number.isFinite(days)) return 'at some time';
  if (days < 0) return `on ${day}`;
  if (days === 0) return 'today';
  if (days === 1) return 'yesterday';
  if (days < 14) return `${days} days ago`;
  if (days < 61) return `${Math.round(days / 7)} weeks ago`;
  if (days < 730) return `${Math.round(days / 30.44)} months ago`;
  return `${Math.floor(days / 365.25)} years ago`;
}

/** To a hundredth of a millimetre, which is what these measurements are good for. */
export const hundredths = (length: number) => `${length.toFixed(2)} mm`;
