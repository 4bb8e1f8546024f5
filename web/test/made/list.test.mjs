// test/list.test.ts
import assert2 from "node:assert/strict";

// test/flow.ts
import assert from "node:assert/strict";
import { after, before, test } from "node:test";

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

// test/flow.ts
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
var text_of = (place) => async () => (await place.innerText()).trim();
var cell = (page, row, column) => page.locator(`[role=row][aria-rowindex="${row + 2}"] [role=gridcell]`).nth(column);
var view = (page, name) => page.getByRole("navigation").getByRole("link", { name, exact: true }).click();

// test/list.test.ts
flow("a cell is edited in place, and undone with its name", async (page) => {
  await view(page, "List");
  const name = cell(page, 0, 4);
  await name.click();
  const before2 = (await name.innerText()).trim();
  await page.keyboard.press("Enter");
  await page.getByRole("textbox", { name: /^name of/ }).fill("Rough Periwinkle");
  await page.keyboard.press("Enter");
  await eventually(text_of(name), "Rough Periwinkle");
  const undo = page.getByRole("button", { name: /^Undo: name of/ });
  await undo.waitFor();
  await page.keyboard.press("Control+z");
  await eventually(text_of(name), before2);
  await page.keyboard.press("Control+Shift+z");
  await eventually(text_of(name), "Rough Periwinkle");
  await page.keyboard.press("Control+z");
  await eventually(text_of(name), before2);
});
flow("Esc leaves a cell as it was; Tab goes on; arrows walk", async (page) => {
  await view(page, "List");
  await cell(page, 1, 4).click();
  const before2 = (await cell(page, 1, 4).innerText()).trim();
  await page.keyboard.type("x");
  await page.getByRole("textbox", { name: /^name of/ }).fill("Something else");
  await page.keyboard.press("Escape");
  assert2.equal((await cell(page, 1, 4).innerText()).trim(), before2);
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowLeft");
  assert2.equal(await cell(page, 2, 3).getAttribute("aria-selected"), "true");
  await page.keyboard.press("F2");
  await page.keyboard.press("Tab");
  assert2.equal(await cell(page, 2, 4).getAttribute("aria-selected"), "true");
});
flow("changing copies changes the totals", async (page) => {
  await view(page, "List");
  const totals = page.getByRole("status").filter({ hasText: "in the deck" });
  const before2 = Number(/(\d+) in the deck/.exec(await totals.innerText())?.[1]);
  const head = await page.getByRole("columnheader").allInnerTexts();
  const copies = head.indexOf("copies") - 1;
  const had = Number((await cell(page, 0, copies).innerText()).trim() || "1");
  await cell(page, 0, copies).click();
  await page.keyboard.type(String(had + 3));
  await page.keyboard.press("Enter");
  await eventually(
    async () => Number(/(\d+) in the deck/.exec(await totals.innerText())?.[1]),
    before2 + 3
  );
  await page.keyboard.press("Control+z");
  await eventually(
    async () => Number(/(\d+) in the deck/.exec(await totals.innerText())?.[1]),
    before2
  );
});
flow("a block from a spreadsheet goes into its cells as one step", async (page) => {
  await view(page, "List");
  await cell(page, 3, 4).click();
  const before2 = await Promise.all([cell(page, 3, 4), cell(page, 4, 5)].map((c) => c.innerText()));
  await page.evaluate(() => {
    const data = new DataTransfer();
    data.setData("text/plain", 'Sword Shell	Ensis ensis\nDog Whelk	"Nucella\nlapillus"\n');
    document.activeElement?.dispatchEvent(
      new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true })
    );
  });
  await eventually(text_of(cell(page, 3, 4)), "Sword Shell");
  await eventually(async () => (await cell(page, 4, 5).innerText()).includes("lapillus"), true);
  await page.getByRole("button", { name: "Undo: pasting 4 cells" }).click();
  await eventually(text_of(cell(page, 3, 4)), before2[0]?.trim());
  await eventually(text_of(cell(page, 4, 5)), before2[1]?.trim());
});
flow("rows are added, copied, moved and removed", async (page) => {
  await view(page, "List");
  const grid = page.getByRole("grid");
  const rows = async () => Number(await grid.getAttribute("aria-rowcount")) - 1;
  const before2 = await rows();
  await cell(page, 2, 0).click();
  const id = (await cell(page, 2, 0).innerText()).trim();
  await page.getByRole("button", { name: "Copy", exact: true }).click();
  await eventually(rows, before2 + 1);
  await cell(page, 2, 0).click();
  await page.keyboard.press("Alt+ArrowUp");
  await eventually(text_of(cell(page, 1, 0)), id);
  await page.keyboard.press("Control+z");
  await eventually(text_of(cell(page, 2, 0)), id);
  await cell(page, 3, 0).click();
  await page.getByRole("button", { name: "Remove" }).click();
  await eventually(rows, before2);
  await page.getByRole("button", { name: "New card" }).click();
  await eventually(rows, before2 + 1);
  await page.keyboard.press("Control+z");
  await eventually(rows, before2);
});
flow("a row is dragged to another place", async (page) => {
  await view(page, "List");
  const id = (await cell(page, 0, 0).innerText()).trim();
  const grip = page.getByRole("rowheader").first();
  const from = await grip.boundingBox();
  const target = await cell(page, 3, 0).boundingBox();
  assert2.ok(from && target);
  await page.mouse.move(from.x + 12, from.y + 10);
  await page.mouse.down();
  await page.mouse.move(from.x + 12, target.y + 10, { steps: 5 });
  await page.mouse.up();
  await eventually(text_of(cell(page, 3, 0)), id);
  await page.keyboard.press("Control+z");
  await eventually(text_of(cell(page, 0, 0)), id);
});
flow("a problem is marked at its cell and leads there", async (page) => {
  await view(page, "List");
  const head = await page.getByRole("columnheader").allInnerTexts();
  const copies = head.indexOf("copies") - 1;
  await cell(page, 5, copies).click();
  await page.keyboard.type("three");
  await page.keyboard.press("Enter");
  await page.getByText("stops the print").first().waitFor();
  await view(page, "Table");
  await page.getByRole("button", { name: /See all/ }).click();
  await page.getByRole("link", { name: /Go to .*copies/ }).click();
  await eventually(async () => cell(page, 5, copies).getAttribute("aria-selected"), "true");
  assert2.match(await cell(page, 5, copies).getAttribute("title") ?? "", /three/);
  await page.keyboard.press("Control+z");
});
