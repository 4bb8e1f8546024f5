// test/layout.test.ts
import assert2 from "node:assert/strict";

// test/chromium.ts
import { existsSync } from "node:fs";
import { chromium } from "playwright-core";
var PLACES = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];
async function open_desk({ empty = false } = {}) {
  const given = process.env.QUOIN_DESK;
  if (given && !empty) return { address: given, stop: () => void 0, mock: null };
  const { start_mock } = await import("../mock/serve.mjs");
  const { address, stop, desk } = await start_mock({ empty });
  return { address, stop, mock: desk };
}
async function open_browser() {
  const executablePath = process.env.CHROMIUM ?? PLACES.find((place) => existsSync(place));
  if (!executablePath) throw new Error("no Chromium on this machine: apt-get install chromium");
  return chromium.launch({
    executablePath,
    args: [
      "--no-sandbox",
      "--use-gl=angle",
      "--use-angle=swiftshader",
      "--enable-unsafe-swiftshader"
    ]
  });
}
async function open_page(browser2, address, looks = {}) {
  const context = await browser2.newContext({
    viewport: { width: looks.width ?? 1280, height: looks.height ?? 720 },
    colorScheme: looks.theme ?? "light",
    reducedMotion: looks.motion ?? "reduce",
    acceptDownloads: true
  });
  const page = await context.newPage();
  const complaints = [];
  const host = new URL(address).host;
  page.on("request", (request) => {
    const url = new URL(request.url());
    if (url.protocol.startsWith("http") && url.host !== host) complaints.push(`asked ${url.host}`);
  });
  page.on("pageerror", (problem) => complaints.push(String(problem)));
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(message.text());
  });
  page.setDefaultTimeout(6e4);
  await page.goto(address, { waitUntil: "domcontentloaded" });
  await page.getByRole("main").waitFor();
  return { page, context, complaints };
}
async function go(page, view) {
  await page.evaluate((hash) => location.hash = hash, `#/${view}`);
  await settled(page);
}
async function settled(page) {
  await page.waitForLoadState("load");
  await page.evaluate(async () => {
    await document.fonts.ready;
    const seen = [...document.images].filter((image) => {
      const box = image.getBoundingClientRect();
      return box.bottom > 0 && box.top < innerHeight && box.width > 0;
    });
    await Promise.all(seen.map((image) => image.decode().catch(() => void 0)));
    await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  });
}

// test/flow.ts
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
var browser;
before(async () => {
  browser = await open_browser();
});
after(async () => {
  await browser?.close();
});
function flow(name, steps, needs = {}) {
  const skip = needs.mock && process.env.QUOIN_DESK ? "needs the stand-in" : false;
  test(name, { skip }, async () => {
    const desk = await open_desk({ empty: needs.empty ?? false });
    const { page, context, complaints } = await open_page(browser, desk.address);
    try {
      await steps(page, desk);
      const expected = needs.complaints;
      assert.deepEqual(
        complaints.filter((one) => !expected?.test(one)),
        []
      );
    } finally {
      await context.close();
      desk.stop();
    }
  });
}
async function eventually(what, expected) {
  let last;
  for (let tries = 0; tries < 100; tries++) {
    last = await what();
    if (last === expected) return;
    await new Promise((done) => setTimeout(done, 100));
  }
  assert.equal(last, expected);
}

// test/layout.test.ts
flow("an element is moved with keys, and one step takes it back", async (page) => {
  await go(page, "layout");
  const list = page.getByRole("region", { name: "Elements" });
  await list.getByRole("button", { name: "name", exact: true }).first().click();
  const left = page.getByRole("textbox", { name: /^From the left/ });
  const before2 = Number(await left.inputValue());
  await page.getByRole("application", { name: /^The card/ }).focus();
  for (const key of ["ArrowRight", "ArrowRight", "Shift+ArrowRight"]) {
    await page.keyboard.press(key);
  }
  await eventually(async () => Number(await left.inputValue()), Number((before2 + 1.2).toFixed(2)));
  await page.getByRole("button", { name: "Undo: place of name" }).click();
  await eventually(async () => Number(await left.inputValue()), before2);
});
flow(
  "an element is dragged, holds on to the safe area, and is undone in one step",
  async (page) => {
    await go(page, "layout");
    await page.getByRole("region", { name: "Elements" }).getByRole("button", { name: "name", exact: true }).first().click();
    const left = page.getByRole("textbox", { name: /^From the left/ });
    await left.waitFor();
    const before2 = Number(await left.inputValue());
    const card = await page.getByRole("application", { name: /^The card/ }).boundingBox();
    assert2.ok(card);
    const scale = card.width / 63.5;
    const at = { x: card.x + (before2 + 20) * scale, y: card.y + 59.4 * scale };
    await page.mouse.move(at.x, at.y);
    await page.mouse.down();
    const to_safe = (3.4 - before2) * scale;
    for (let step = 1; step <= 6; step++) await page.mouse.move(at.x + to_safe * step / 6, at.y);
    await page.mouse.up();
    await eventually(async () => Number(await left.inputValue()), 3);
    await page.getByRole("button", { name: "Undo: place of name" }).click();
    await eventually(async () => Number(await left.inputValue()), before2);
  }
);
flow("a text is put on the card, worded, and taken off", async (page) => {
  await go(page, "layout");
  const list = page.getByRole("region", { name: "Elements" });
  const before2 = await list.getByRole("listitem").count();
  await page.getByRole("group", { name: "Put on the card" }).getByRole("button", { name: "Text" }).click();
  await eventually(() => list.getByRole("listitem").count(), before2 + 1);
  const words = page.getByRole("textbox", { name: "Text", exact: true });
  await words.fill("Low water");
  await words.press("Enter");
  await page.getByRole("button", { name: /^Undo: text of/ }).waitFor();
  await list.getByRole("button", { name: "Take off the card" }).click();
  await eventually(() => list.getByRole("listitem").count(), before2);
  for (let step = 0; step < 3; step++) await page.keyboard.press("Control+z");
  await eventually(() => list.getByRole("listitem").count(), before2);
});
flow("a number outside its bounds is not taken", async (page) => {
  await go(page, "layout");
  await page.getByRole("region", { name: "Elements" }).getByRole("button", { name: "name", exact: true }).first().click();
  const width = page.getByRole("textbox", { name: /^Width/ });
  const before2 = await width.inputValue();
  await width.fill("-4");
  await width.press("Enter");
  assert2.equal(await width.getAttribute("aria-invalid"), "true");
  await width.press("Escape");
  assert2.equal(await width.inputValue(), before2);
});
