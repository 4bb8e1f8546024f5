// The system's Chromium, headless, and pages in it.

import { existsSync } from 'node:fs';
import {
  chromium,
  type Browser,
  type BrowserContext,
  type Locator,
  type Page,
} from 'playwright-core';

const PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];
// Models are drawn by the processor here, which is slow: only where a model is looked at.
const WITH_MODELS = ['--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'];
const WITHOUT_MODELS = ['--disable-gpu', '--disable-3d-apis'];

export async function open_browser(models: 'models' | 'no models'): Promise<Browser> {
  const executablePath = process.env.CHROMIUM ?? PLACES.find((place) => existsSync(place));
  if (!executablePath) throw new Error('no Chromium on this machine: apt-get install chromium');
  return chromium.launch({
    executablePath,
    args: ['--no-sandbox', ...(models === 'models' ? WITH_MODELS : WITHOUT_MODELS)],
  });
}

export interface Looks {
  theme?: 'light' | 'dark';
  width?: number;
  height?: number;
  motion?: 'reduce' | 'no-preference';
  /** the view it opens on; left out, the address is opened as the program printed it */
  at?: string | undefined;
}

export interface Opened {
  page: Page;
  context: BrowserContext;
  complaints: string[];
}

/** A page of its own; `complaints` gathers faults, and whatever is asked of another host. */
export async function open_page(
  browser: Browser,
  address: string,
  looks: Looks = {},
): Promise<Opened> {
  const context = await browser.newContext({
    viewport: { width: looks.width ?? 1280, height: looks.height ?? 720 },
    colorScheme: looks.theme ?? 'light',
    reducedMotion: looks.motion ?? 'reduce',
    acceptDownloads: true,
  });
  const { page, complaints } = await another_page(context, address, looks.at);
  return { page, context, complaints };
}

/** One more page in the same browser window. */
export async function another_page(
  context: BrowserContext,
  address: string,
  at?: string,
): Promise<{ page: Page; complaints: string[] }> {
  const page = await context.newPage();
  const { origin, host, hash } = new URL(address);
  const complaints: string[] = [];
  page.on('request', (request) => {
    const url = new URL(request.url());
    if (url.protocol.startsWith('http') && url.host !== host) complaints.push(`asked ${url.host}`);
  });
  page.on('pageerror', (problem) => complaints.push(String(problem)));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  await hold_to_strict_rules(page, origin);
  page.setDefaultTimeout(Number(process.env.QUOIN_PATIENCE ?? 60_000));
  if (at !== undefined) {
    await page.addInitScript((token) => {
      if (!sessionStorage.getItem('quoin.token')) sessionStorage.setItem('quoin.token', token);
    }, hash.slice(1));
  }
  await page.goto(at === undefined ? address : `${origin}/#/${at}`, {
    waitUntil: 'domcontentloaded',
  });
  await page.getByRole('main').waitFor();
  return { page, complaints };
}

/** Takes from the content rules whatever allows a style or a script in the markup: the page must
    do without, whatever the server allows. A breach is a complaint. */
async function hold_to_strict_rules(page: Page, origin: string): Promise<void> {
  await page.route(`${origin}/`, async (route) => {
    const answer = await route.fetch().catch(() => null);
    if (!answer) return route.abort();
    const headers = answer.headers();
    const rules = headers['content-security-policy'] ?? '';
    headers['content-security-policy'] = rules.replaceAll(" 'unsafe-inline'", '');
    await route.fulfill({ response: answer, headers });
  });
}

export async function go(page: Page, view: string): Promise<void> {
  await page.evaluate((hash) => (location.hash = hash), `#/${view}`);
  await settled(page);
}

/** Waits until a picture is there. One whose address changes meanwhile is decoded once more; one that
    is damaged fails within a second or so. */
export async function decoded(picture: Locator): Promise<void> {
  await picture.evaluate(async (one) => {
    for (let tries = 1; ; tries++) {
      try {
        await (one as HTMLImageElement).decode();
        return;
      } catch (fault) {
        if (tries === 50) throw fault;
        await new Promise((done) => setTimeout(done, 20));
      }
    }
  });
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
