// What the flows about printers share: readings as a maker writes them, and measuring sheets as a
// scanner shows them.

import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';

const { PNG } = createRequire(import.meta.url)('pngjs');

export interface Sheet {
  letter?: string;
  /** of (1) to (8) */
  scales: string[];
  bars?: [string, string];
}
/** Backs that lie by some lines to the right and down, the same all over the sheet. */
export const even = (across: string, down: string): string[] => [
  across,
  down,
  across,
  down,
  across,
  down,
  across,
  down,
];

export const scale_field = (page: Page, number: number) =>
  page.getByRole('textbox', { name: `(${number})` });

/** Goes to a step of measuring by its link. */
export async function step(page: Page, name: string): Promise<void> {
  await page
    .getByRole('navigation', { name: 'Steps of measuring' })
    .getByRole('link', { name })
    .click();
}

export async function show_sheet(page: Page, number: number): Promise<void> {
  const sheets = page.getByRole('group', { name: 'Sheets' });
  await sheets.getByRole('button', { name: new RegExp(`^Sheet ${number}`) }).click();
}
export async function fill_sheet(page: Page, number: number, sheet: Sheet): Promise<void> {
  await show_sheet(page, number);
  for (const [at, words] of sheet.scales.entries()) await scale_field(page, at + 1).fill(words);
  if (sheet.letter) await page.getByLabel('Behind A lies').selectOption(sheet.letter);
  if (!sheet.bars) return;
  await page.getByRole('textbox', { name: '150 mm bar' }).fill(sheet.bars[0]);
  await page.getByRole('textbox', { name: '200 mm bar' }).fill(sheet.bars[1]);
}
export const measure = (page: Page) =>
  page.getByRole('button', { name: 'See what it comes to' }).click();

const PPI = 150;
const BORDER = 40; // pixels of the dark that lies behind the sheet
const DARK = 24;

/** A measuring sheet as a flatbed shows it: the real file, drawn by poppler, its back moved by
    (across, down) mm on its paper, seen from the back, with dark all round. */
export function scans_of(pdf: Buffer, moved: { across: number; down: number }): [Buffer, Buffer] {
  const folder = mkdtempSync(join(tmpdir(), 'quoin-scan-'));
  try {
    writeFileSync(join(folder, 'sheet.pdf'), pdf);
    const words = ['-r', String(PPI), '-gray', '-png', '-l', '2', 'sheet.pdf', 'page'];
    execFileSync('pdftoppm', words, { cwd: folder });
    const page = (number: number) => {
      const names = [`page-${number}.png`, `page-0${number}.png`];
      for (const name of names) {
        try {
          return PNG.sync.read(readFileSync(join(folder, name)));
        } catch {
          continue;
        }
      }
      throw new Error(`pdftoppm drew no page ${number}`);
    };
    const pixels = (mm: number) => Math.round((mm * PPI) / 25.4);
    return [scanned(page(1), 0, 0), scanned(page(2), pixels(moved.across), pixels(moved.down))];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function scanned(page: any, across: number, down: number): Buffer {
  // Poppler draws a part of a pixel more than the paper has, always right and below; on paper that
  // would be an edge where there is none.
  const paper = { width: Math.round((210 * PPI) / 25.4), height: Math.round((297 * PPI) / 25.4) };
  const width = paper.width + 2 * BORDER;
  const height = paper.height + 2 * BORDER;
  const scan = new PNG({ width, height });
  const within = (at: number, size: number) => at >= 0 && at < size;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const on_paper = within(x - BORDER, paper.width) && within(y - BORDER, paper.height);
      const [from_x, from_y] = [x - BORDER - across, y - BORDER - down];
      const printed = within(from_x, page.width) && within(from_y, page.height);
      const ink = printed ? page.data[(from_y * page.width + from_x) * 4] : 255;
      const light = on_paper ? ink : DARK;
      scan.data.set([light, light, light, 255], (y * width + x) * 4);
    }
  }
  return PNG.sync.write(scan);
}

/** A photograph of something else: light and shade, and no mark of the sheet. */
export function photograph(): Buffer {
  const png = new PNG({ width: 900, height: 700 });
  for (let y = 0; y < 700; y++) {
    for (let x = 0; x < 900; x++) {
      const light = Math.round(128 + 60 * Math.sin(x / 90) + 50 * Math.cos(y / 70));
      png.data.set([light, light, Math.min(255, light + 20), 255], (y * 900 + x) * 4);
    }
  }
  return PNG.sync.write(png);
}

/** Printers' files as `quoin printer` writes them, for lists to choose from. */
export const profile_file = (name: string, more = ''): string =>
  `name = "${name}"\nmeasured = 2026-03-01\nhow = "eye"\npaper = "A4"\nsheets = 3\n${more}` +
  'within = 0.09\n[back]\nshift = [0.62, -0.35]\nturn = 0.08\n[spread]\nshift = [0.11, 0.16]\n' +
  'turn = 0.03\n';
