// test/flows.test.ts
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
var cell = (page, row, column) => page.locator(`[role=row][aria-rowindex="${row + 2}"] [role=gridcell]`).nth(column);
var view = (page, name) => page.getByRole("navigation").getByRole("link", { name, exact: true }).click();

// test/flows.test.ts
flow("the token leaves the address", async (page) => {
  assert2.equal(new URL(page.url()).hash.includes("token"), false);
  await page.reload();
  await page.getByRole("navigation").waitFor();
});
flow("cards are filtered by words, suit and findings", async (page) => {
  await view(page, "Cards");
  const shown = page.getByRole("list", { name: "All faces" }).getByRole("button");
  await page.getByRole("searchbox", { name: "Words on the card" }).fill("scallop");
  await eventually(() => shown.count(), 1);
  await page.getByRole("searchbox", { name: "Words on the card" }).fill("");
  await page.getByRole("combobox", { name: "Suit" }).selectOption({ label: "Rope" });
  await eventually(() => shown.count(), 7);
  await page.getByRole("combobox", { name: "Suit" }).selectOption({ label: "Every suit" });
  await page.getByRole("combobox", { name: "Seen by" }).selectOption("deutan");
  const filter = await shown.first().locator("img").evaluate((i) => getComputedStyle(i).filter);
  assert2.match(filter, /sight-deutan/);
});
flow("one card is turned over, shown at true size, and the next one taken", async (page) => {
  await view(page, "Cards");
  await page.getByRole("list", { name: "All faces" }).getByRole("button").first().click();
  const stage = page.getByRole("region", { name: "One card" });
  const first = await stage.getByRole("heading").first().innerText();
  await stage.getByRole("button", { name: "Front" }).click();
  await stage.getByRole("button", { name: "Back", exact: true }).waitFor();
  await stage.getByRole("checkbox", { name: "Bleed" }).check();
  await stage.getByRole("checkbox", { name: "Bleed" }).uncheck();
  await stage.getByRole("button", { name: "True size" }).click();
  const dialog = page.getByRole("dialog", { name: "Measure this screen once" });
  await dialog.getByRole("slider").fill("4");
  await dialog.getByRole("button", { name: "It fits" }).click();
  await settled(page);
  const shown = await stage.getByRole("img", { name: first, exact: true, includeHidden: true }).boundingBox();
  assert2.equal(Math.round(shown?.width ?? 0), 254);
  await stage.getByRole("button", { name: "The card after" }).click();
  assert2.notEqual(await stage.getByRole("heading").first().innerText(), first);
});
flow("sheets are shown from both sides and against the light", async (page) => {
  await view(page, "Sheets");
  await page.getByRole("img", { name: "Sheet 1, front" }).waitFor();
  await page.getByRole("button", { name: "Back", exact: true }).click();
  await page.getByRole("img", { name: "Sheet 1, back" }).waitFor();
  await page.getByRole("button", { name: "Against the light", exact: true }).click();
  await page.getByRole("img", { name: "Sheet 1, against the light" }).waitFor();
  await page.getByRole("button", { name: "Sheet 2" }).click();
  await page.getByRole("img", { name: "Sheet 2, against the light" }).waitFor();
});
flow("the box is folded by its slider and turned by keys", async (page) => {
  await view(page, "Box");
  const model = page.getByRole("application", { name: /^The box, folded/ });
  const slider = page.getByRole("slider", { name: "How far it is folded" });
  await slider.fill("0");
  await page.getByText("The net lies flat.").waitFor();
  await page.waitForTimeout(1500);
  const picture = () => model.evaluate((canvas) => canvas.toDataURL());
  const flat = await picture();
  await slider.fill("2.5");
  await page.getByText(/^3\. /).waitFor();
  await page.waitForTimeout(600);
  const half = await picture();
  assert2.notEqual(half, flat);
  await model.focus();
  await page.keyboard.press("ArrowLeft");
  await page.waitForTimeout(600);
  assert2.notEqual(await picture(), half);
  await page.getByRole("button", { name: "Net", exact: true }).click();
  await page.getByRole("img", { name: /^Net of/ }).waitFor();
});
flow("a pack is made, stopped, made again and saved", async (page) => {
  await view(page, "Make");
  await page.getByRole("button", { name: "Make the pack" }).click();
  await page.getByRole("button", { name: "Stop" }).click();
  await page.getByText("Stopped.").first().waitFor();
  await page.getByRole("button", { name: "Make the pack" }).click();
  const save = page.getByRole("button", { name: "Save home/cards.pdf" });
  await save.waitFor();
  const [download] = await Promise.all([page.waitForEvent("download"), save.click()]);
  assert2.equal(download.suggestedFilename(), "cards.pdf");
});
flow(
  "what is typed while the desk is away arrives when it is back",
  async (page, desk) => {
    await view(page, "List");
    await cell(page, 0, 4).click();
    desk.mock.away = true;
    await page.keyboard.press("Enter");
    await page.getByRole("textbox", { name: /^name of/ }).fill("Kept Periwinkle");
    await page.keyboard.press("Enter");
    await page.getByText("The desk does not answer.").waitFor();
    await page.getByText("1 change is kept here").waitFor();
    assert2.equal((await cell(page, 0, 4).innerText()).trim(), "Kept Periwinkle");
    desk.mock.away = false;
    await page.getByText("The desk does not answer.").waitFor({ state: "hidden" });
    await eventually(async () => desk.mock.game.content.rows[0][4], "Kept Periwinkle");
  },
  { mock: true, complaints: /ERR_|Failed to load/ }
);
flow(
  "a refused edit says why and what to do",
  async (page) => {
    await view(page, "List");
    await cell(page, 0, 4).click();
    await page.keyboard.press("Enter");
    await page.getByRole("textbox", { name: /^name of/ }).fill("refuse this");
    await page.keyboard.press("Enter");
    const alert = page.getByRole("alert");
    await alert.getByText("The list cannot hold these words.").waitFor();
    await alert.getByText("Write other words.").waitFor();
    await alert.getByRole("button", { name: "Put this away" }).click();
    await alert.waitFor({ state: "hidden" });
  },
  { mock: true, complaints: /422/ }
);
flow(
  "both values of a conflict are shown, and one is kept",
  async (page, desk) => {
    desk.mock.game.conflicts = [
      {
        id: "c1",
        label: "name of shell-1",
        file: "cards.csv",
        mine: "Rough Periwinkle",
        theirs: "Edible Periwinkle",
        place: { file: "cards.csv", line: 2, column: 14, length: 4 }
      }
    ];
    await page.reload();
    const dialog = page.getByRole("dialog", { name: "Changed in two places" });
    await dialog.getByText("Rough Periwinkle").waitFor();
    await dialog.getByText("Edible Periwinkle").waitFor();
    await dialog.getByRole("button", { name: "Keep theirs" }).click();
    await dialog.waitFor({ state: "hidden" });
    assert2.equal(desk.mock.game.conflicts.length, 0);
  },
  { mock: true }
);
flow(
  "a first game begins from pictures",
  async (page) => {
    await page.getByRole("heading", { name: "A game begins here" }).waitFor();
    await page.getByLabel("What the game is called").fill("Reef");
    const file = (name) => ({ name, mimeType: "image/png", buffer: Buffer.from("png") });
    await page.locator("input[type=file]").setInputFiles([file("01-crab.png"), file("back.png")]);
    await page.getByText("2 pictures").waitFor();
    await page.getByRole("button", { name: "Make a game of them" }).click();
    await page.getByRole("navigation").waitFor();
  },
  { mock: true, empty: true }
);
flow("a term is explained on focus and Esc closes it", async (page) => {
  await view(page, "Box");
  const term = page.getByRole("button", { name: "Clearance", exact: true });
  await term.focus();
  const words = page.getByRole("tooltip").filter({ hasText: "between the deck" });
  await words.waitFor({ state: "visible" });
  await page.keyboard.press("Escape");
  await words.waitFor({ state: "hidden" });
});
flow(
  "without WebGL the box is shown in pictures",
  async (page) => {
    await page.addInitScript(() => {
      HTMLCanvasElement.prototype.getContext = () => null;
    });
    await page.reload();
    await view(page, "Box");
    await page.getByText("This browser shows no models").waitFor();
    await page.getByRole("img", { name: /^Net of/ }).waitFor();
  },
  { complaints: /WebGL/ }
);
flow(
  "a thousand cards scroll with only those in view in the page",
  async (page, desk) => {
    const { rows } = desk.mock.game.content;
    const more = [];
    for (let copy = 1; copy <= 18; copy++) {
      for (const row of rows) more.push([`${row[0]}-${copy}`, ...row.slice(1)]);
    }
    desk.mock.game.content.rows = more;
    await page.reload();
    await view(page, "Cards");
    await page.getByText("1008 faces").waitFor();
    const faces = page.getByRole("list", { name: "All faces" });
    assert2.ok(await faces.getByRole("button").count() < 80);
    await faces.getByRole("button").first().focus();
    await page.keyboard.press("End");
    await eventually(
      async () => faces.locator('[data-at="1007"]').evaluate((b) => b === document.activeElement),
      true
    );
    assert2.ok(await faces.getByRole("button").count() < 80);
    await view(page, "List");
    await page.getByRole("gridcell").first().click();
    await page.keyboard.press("Control+End");
    await eventually(async () => cell(page, 1007, 10).getAttribute("aria-selected"), "true");
    assert2.ok(await page.getByRole("row").count() < 60);
  },
  { mock: true }
);
