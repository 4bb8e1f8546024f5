// The system's Chromium, headless, and a desk to look at: the one that QUOIN_DESK names by its
// whole address, or else the stand-in.

import { existsSync } from 'node:fs';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';

const PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];

export interface Desk {
  address: string;
  stop: () => void;
  mock: any;
}

export async function open_desk({ empty = false } = {}): Promise<Desk> {
  const given = process.env.QUOIN_DESK;
  if (given && !empty) return { address: given, stop: () => undefined, mock: null };
  const { start_mock } = await import('./mock/serve.mjs' as string);
  const { address, stop, desk } = await start_mock({ empty });
  return { address, stop, mock: desk };
}

export async function open_browser(): Promise<Browser> {
  const executablePath = process.env.CHROMIUM ?? PLACES.find((place) => existsSync(place));
  if (!executablePath) throw new Error('no Chromium on this machine: apt-get install chromium');
  return chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--use-gl=angle',
      '--use-angle=swiftshader',
      '--enable-unsafe-swiftshader',
    ],
  });
}

export interface Looks {
  theme?: 'light' | 'dark';
  width?: number;
  height?: number;
  motion?: 'reduce' | 'no-preference';
}

/** A page of its own, which fails the test when anything is asked of another host. */
export async function open_page(
  browser: Browser,
  address: string,
  looks: Looks = {},
): Promise<{ page: Page; context: BrowserContext; complaints: string[] }> {
  const context = await browser.newContext({
    viewport: { width: looks.width ?? 1280, height: looks.height ?? 720 },
    colorScheme: looks.theme ?? 'light',
    reducedMotion: looks.motion ?? 'reduce',
    acceptDownloads: true,
  });
  const page = await context.newPage();
  const complaints: string[] = [];
  const host = new URL(address).host;
  page.on('request', (request) => {
    const url = new URL(request.url());
    if (url.protocol.startsWith('http') && url.host !== host) complaints.push(`asked ${url.host}`);
  });
  page.on('pageerror', (problem) => complaints.push(String(problem)));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.setDefaultTimeout(60_000); // a machine shared by many
  await page.goto(address, { waitUntil: 'domcontentloaded' });
  await page.getByRole('main').waitFor();
  return { page, context, complaints };
}

export async function go(page: Page, view: string): Promise<void> {
  await page.evaluate((hash) => (location.hash = hash), `#/${view}`);
  await settled(page);
}

/** Waits until pictures in view are there and two frames were drawn. */
export async function settled(page: Page): Promise<void> {
  await page.waitForLoadState('load');
  await page.evaluate(async () => {
    await document.fonts.ready;
    const seen = [...document.images].filter((image) => {
      const box = image.getBoundingClientRect();
      return box.bottom > 0 && box.top < innerHeight && box.width > 0;
    });
    await Promise.all(seen.map((image) => image.decode().catch(() => undefined)));
    await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  });
}
