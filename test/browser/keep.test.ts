import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import type { Page } from "playwright-core";
import { writeBook } from "../../src/files/new-book";
import { readWorkbook } from "../../src/files/read-workbook";
import { wholeBook } from "../files/whole-book";
import { type Harness, type OpenOptions, startHarness, type WatchedPage } from "./harness";
import { axeViolations, eventually } from "./pane-checks";

/** What the local page keeps in the browser, and the workbook as a file in and out. */
let harness: Harness;
let watched: WatchedPage;
let page: Page;
const folder = fs.mkdtempSync(path.join(os.tmpdir(), "algal-ledger-keep-"));
const FIRST = "An invented rock-pool tank, 16 weeks";
const KEPT = /^Kept in this browser, saved \d\d:\d\d\.$/;

beforeAll(async () => {
  harness = await startHarness();
  watched = await openReady();
  page = watched.page;
}, 120_000);
afterAll(async () => {
  await harness?.close();
  fs.rmSync(folder, { recursive: true, force: true });
});

async function openReady(options: OpenOptions = {}): Promise<WatchedPage> {
  const opened = await harness.open("index.html", options);
  await ready(opened.page);
  return opened;
}

async function ready(on: Page): Promise<void> {
  await on.waitForFunction(() => "algalLedger" in window);
  await on.evaluate(() => window.algalLedger.ready);
}

async function reload(on: Page = page): Promise<void> {
  await on.reload();
  await ready(on);
}

const read = (sheet: string, address: string, on: Page = page) => on.evaluate(([s, a]) => window.algalLedger.port.read(s, a), [sheet, address] as const);
const write = (sheet: string, address: string, content: unknown[][], on: Page = page) => on.evaluate(([s, a, rows]) => window.algalLedger.port.write(s, a, rows), [sheet, address, content] as const);
const text = (id: string, on: Page = page) => on.locator(id).textContent();
const kept = (on: Page = page) => on.waitForFunction((pattern) => new RegExp(pattern).test(document.getElementById("kept")?.textContent ?? ""), KEPT.source);
const answer = (name: string, on: Page = page) => on.getByRole("dialog").getByRole("button", { name, exact: true }).click();
const isTitled = (title: string, on: Page = page) => on.waitForFunction((wanted) => document.title === `${wanted} - Algal Ledger`, title);

/** A file of the user's, ready to be chosen or dropped. */
function file(name: string, content: Uint8Array | string): string {
  const place = path.join(folder, name);
  fs.writeFileSync(place, content);
  return place;
}

async function download(act: () => Promise<void> = () => page.locator("#download").click()): Promise<{ name: string; bytes: Buffer }> {
  const [download] = await Promise.all([page.waitForEvent("download"), act()]);
  return { name: download.suggestedFilename(), bytes: fs.readFileSync(await download.path()) };
}

/** All that the workbook holds beyond its cells, with the sheets by name. */
const state = () =>
  page.evaluate(() => {
    const { port } = window.algalLedger;
    const { charts, conditionalFormats, pages, tables, validations, xmlParts } = port.state.current();
    const names = Object.fromEntries(port.sheets.list().map(({ id, name }) => [id, name]));
    const named = JSON.stringify({ charts, conditionalFormats, tables, validations, xmlParts, pages: Object.entries(pages) });
    return JSON.parse(Object.entries(names).reduce((whole, [id, name]) => whole.split(`"${id}"`).join(JSON.stringify(name)), named)) as Record<string, unknown[]>;
  });

describe("a change", () => {
  test("is not there before anything was changed: the page says nothing of keeping", async () => {
    expect([await text("#kept"), await page.locator("#afresh").isVisible(), await page.locator("#sample option:checked").textContent()]).toEqual(["", false, FIRST]);
    await reload();
    expect(await text("#kept")).toBe("");
  });

  test("is kept a moment later, says so with the time, and is there again after a reload, calculated", async () => {
    await write("Nitrogen", "P40:P42", [["=ALGAL.LIGHT_DAILY(200,12)"], ["007"], ['=ALGAL.READING_LOW({"<0.2";"5"},"0 5 10")']]);
    await kept();
    await reload();
    expect((await read("Nitrogen", "P40:P43")).values).toEqual([[8.64], ["007"], [0], [2.5]]);
    expect((await read("Nitrogen", "P40")).formulas).toEqual([["=ALGAL.LIGHT_DAILY(200,12)"]]);
    expect(await text("#kept")).toMatch(KEPT);
    expect(await page.title()).toBe(`${FIRST} - Algal Ledger`);
  });

  test("in the last half second before the page goes is kept, too", async () => {
    await write("Nitrogen", "P41", [["last"]]);
    await reload();
    expect((await read("Nitrogen", "P41")).values).toEqual([["last"]]);
  });
});

describe("another workbook in its place", () => {
  test("is asked about first; the question has the careful answer in hand and breaks no rule of access, light and dark", async () => {
    await page.selectOption("#sample", "1");
    await page.getByRole("dialog", { name: `Keep your changes to "${FIRST}"?` }).waitFor();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("Stay");
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      expect(await axeViolations(page, "dialog")).toEqual([]);
      expect(await axeViolations(page, "#bar")).toEqual([]);
    }
    await page.emulateMedia({ colorScheme: "light" });
    await page.keyboard.press("Escape");
    await eventually(() => page.getByRole("dialog").count(), 0);
    expect([await page.title(), (await read("Nitrogen", "P41")).values[0]?.[0]]).toEqual([`${FIRST} - Algal Ledger`, "last"]);
  });

  test("stays out with Stay, and the list of samples shows what stands there", async () => {
    await page.selectOption("#sample", "1");
    await answer("Stay");
    await eventually(() => page.locator("#sample option:checked").textContent(), FIRST);
    expect((await read("Nitrogen", "P40")).values).toEqual([[8.64]]);
  });

  test("comes after a download with Download first", async () => {
    await page.selectOption("#sample", "1");
    const { bytes, name } = await download(() => answer("Download first"));
    expect(name).toBe("An invented rock-pool tank, 16 weeks.xlsx");
    const { book } = await readWorkbook(bytes);
    expect(book.sheets[0]?.cells.get("P40")).toMatchObject({ value: 8.64, formula: "ALGAL.LIGHT_DAILY(200,12)" });
    await isTitled("Two invented garden ponds with three screens");
    await eventually(() => text("#kept"), "");
  });

  test("comes at once with Discard changes, and with no question where nothing was changed", async () => {
    await page.selectOption("#sample", "2");
    await isTitled("An invented keeper's own diary");
    const [first = ""] = await page.evaluate(() => window.algalLedger.port.sheetNames());
    await write(first, "Z1", [["mine"]]);
    await kept();
    await page.selectOption("#sample", "0");
    await answer("Discard changes");
    await isTitled(FIRST);
    await reload();
    expect([await page.title(), await text("#kept")]).toEqual([`${FIRST} - Algal Ledger`, ""]);
  });
});

describe("a file", () => {
  test("that is no workbook, damaged or foreign is refused with one sentence, and what stands there stays", async () => {
    await write("Nitrogen", "P41", [["stays"]]);
    const whole = await writeBook(wholeBook());
    for (const [name, content, sentence] of [
      ["notes.xlsx", "hello", "notes.xlsx could not be opened: The file is not an Excel workbook (.xlsx)."],
      ["half.xlsx", whole.subarray(0, 900), "half.xlsx could not be opened: The file is damaged: it cannot be unpacked."],
      ["empty.xlsx", "", "empty.xlsx could not be opened: The file is empty."],
    ] as const) {
      await page.locator("#file").setInputFiles(file(name, content));
      await eventually(() => text("#status"), sentence);
    }
    expect([(await read("Nitrogen", "P41")).values, await page.getByRole("dialog").count(), await text("#doing")]).toEqual([[["stays"]], 0, ""]);
    await page.getByRole("button", { name: "Close", exact: true }).click();
    expect(await text("#status")).toBe("");
  });

  test("that is dropped is opened with all that it holds, kept at once, and there after a reload", async () => {
    const bytes = await writeBook(wholeBook());
    await page.evaluate((content) => {
      const dropped = new DataTransfer();
      dropped.items.add(new File([new Uint8Array(content)], "My tank.xlsx"));
      for (const type of ["dragover", "drop"]) document.getElementById("grid")?.dispatchEvent(new DragEvent(type, { dataTransfer: dropped, bubbles: true, cancelable: true }));
    }, [...bytes]);
    await answer("Discard changes");
    await isTitled("My tank");
    await kept();
    const opened = await state();
    expect(opened.charts).toHaveLength(7);
    expect(opened.validations).toHaveLength(6);
    expect(opened.xmlParts).toEqual(wholeBook().xmlParts);
    expect((await read("Log", "C2")).formulas).toEqual([['=ALGAL.WATER_STORE_N(B2,"NO3",100)']]);
    await reload();
    expect(await state()).toEqual(opened);
    expect(await page.title()).toBe("My tank - Algal Ledger");
    expect(await page.evaluate(() => window.algalLedger.port.activeSheet())).toBe("Foods & more");
  });

  test("that is downloaded again holds what was opened", async () => {
    const { bytes, name } = await download();
    expect([name, await text("#status")]).toEqual(["My tank.xlsx", ""]);
    const [given, { book, extras, unshown }] = [wholeBook(), await readWorkbook(bytes)];
    expect(unshown).toEqual([]);
    expect(extras.xmlParts).toEqual(given.xmlParts);
    expect(extras.sheets.map(({ charts }) => charts)).toEqual(given.sheets.map(({ charts }) => charts));
    expect(extras.sheets.map(({ print }) => print)).toEqual(given.sheets.map(({ print }) => print));
    expect(extras.sheets.map(({ veryHidden }) => veryHidden)).toEqual([undefined, undefined, true]);
    expect(extras.sheets[0]?.validations.map(({ range, kind, formula1, formula2, operator }) => [range, kind, formula1, formula2, operator])).toEqual([
      ["A4:A2000", "date", "32874", undefined, "greaterThan"],
      ["B4:B9 D4:D9", "decimal", "0", "$A$1*2", "between"],
      ["E:E", "list", '"harvest,week,""month"""', undefined, undefined],
      ["F4", "list", "'Foods & more'!$A$2:$A$9", undefined, undefined],
      ["G4:G8", "custom", "ISNUMBER(G4)", undefined, undefined],
    ]);
    expect(extras.sheets[0]?.conditionalFormats.map(({ range, formula, text: rule }) => [range, rule?.text ?? formula])).toEqual([
      ["A4:C20 E4:E20", 'AND($A4="",COUNTA($B4:$C4)>0)'],
      ["B2:B3", '<5 "kit" & more'],
      ["2:3", "Cannot"],
    ]);
    const [log] = book.sheets;
    expect(log).toMatchObject({ frozenRows: 1, frozenColumns: 1, merges: ["D5:F6"], tabColor: "#0f766e", hideGridLines: true, hiddenRows: [9], hiddenColumns: [8], rowHeights: new Map([[2, 30]]), tables: given.sheets[0]?.tables });
    for (const [address, cell] of given.sheets[0]?.cells ?? []) {
      // Of these two the page works out its own answer.
      if (address === "F1" || address === "C3") expect(log?.cells.get(address)).toMatchObject({ formula: cell.formula });
      else expect([address, log?.cells.get(address)]).toMatchObject([address, address === "C2" ? { ...cell, value: expect.closeTo(0.226, 2) as number } : cell]);
    }
    expect(book.names.map(({ name: one, ref }) => [one, ref]).sort()).toEqual(given.names.map(({ name: one, ref }) => [one, ref]).sort());
  });

  test("that holds more than the page shows is opened with one sentence that says what", async () => {
    const { handMade } = await import("../files/hand-made");
    const bytes = handMade({ rows: '<row r="1"><c r="A1"><v>5</v></c></row>', after: '<sheetProtection sheet="1"/><hyperlinks><hyperlink ref="A1"/><hyperlink ref="A2"/></hyperlinks>' });
    await page.locator("#file").setInputFiles(file("more.xlsx", bytes));
    await eventually(() => text("#status"), "Not shown here, and kept in the file when you download it: 1 sheet protection, 2 hyperlinks.");
    expect((await read("Log", "A1")).values).toEqual([[5]]);
  });
});

test("the weekly sheets, with their tables, charts, rules and names, and an XML part are there after a reload and in a download that is opened", async () => {
  await page.getByRole("button", { name: "Insert the weekly sheets" }).click();
  await page.waitForFunction(() => window.algalLedger.port.sheetNames().includes("Sources"));
  await page.evaluate("Excel.run(async (context) => { context.workbook.customXmlParts.add('<log xmlns=\"urn:algal-ledger:test\">kept</log>'); await context.sync(); })");
  const log = (await page.evaluate(() => window.algalLedger.port.sheetNames())).find((name) => name.startsWith("Log") && name !== "Log") ?? "";
  const day = (i: number) => [46100 + i, "Dry pellets or flakes", 3, i === 0 ? 10 : i === 6 ? 20 : "", i === 0 ? 0.1 : i === 6 ? 0.12 : "", i === 6 ? 60 : ""];
  await write(log, "A4:F10", [0, 1, 2, 3, 4, 5, 6].map(day));
  await write("Set-up", "B5:B8", [[265], ["0 5 10 20 40"], [0.02], [0.12]]);
  await page.waitForFunction(() => /of the N that came in/.test(String(window.algalLedger.port.read("Balance", "B5").values[0]?.[0])), undefined, { timeout: 20_000 });
  await kept();
  const cells = () => page.evaluate(() => window.algalLedger.port.sheetNames().map((sheet) => [sheet, window.algalLedger.port.read(sheet, "A1:Z70")] as const));
  const [before, held] = [await cells(), await state()];
  expect([held.tables?.length, held.charts?.length, held.xmlParts?.length]).toEqual([2, 4, 1]);

  await reload();
  expect(await cells()).toEqual(before);
  expect(await state()).toEqual(held);

  const { bytes } = await download();
  await page.locator("#file").setInputFiles(file("again.xlsx", bytes));
  await answer("Discard changes");
  await isTitled("again");
  // The weekly sheets went into the file that was open before, and what that one holds beyond the page is in the download too.
  await eventually(() => text("#status"), "Not shown here, and kept in the file when you download it: 1 sheet protection, 2 hyperlinks.");
  expect(await cells()).toEqual(before);
  const again = await state();
  // In a file they stand sheet by sheet, and are numbered anew; the names of columns are what the heading cells say.
  const inOrder = (name: string, value: unknown) => (name === "id" || name === "columns" ? undefined : typeof value === "object" && value !== null && !Array.isArray(value) ? Object.fromEntries(Object.entries(value).sort()) : value);
  const alike = (items: unknown[] = []) => items.map((item) => JSON.stringify(item, inOrder)).sort();
  for (const kind of ["charts", "conditionalFormats", "tables", "validations", "xmlParts", "pages"]) expect(alike(again[kind])).toEqual(alike(held[kind]));
}, 120_000);

describe("a second tab", () => {
  test("shows what is kept; when one tab has changed it the other says that it is not kept, and neither overwrites it", async () => {
    const second = await openReady({ keeps: true });
    const elsewhere = "Another tab has changed what this browser keeps. This workbook is not kept: download it, or reload the page.";
    await isTitled("again", second.page);
    await write("Log", "Z1", [["from the second"]], second.page);
    await eventually(() => text("#kept"), elsewhere);
    await page.bringToFront();
    await write("Log", "Z1", [["from the first"]]);
    await page.waitForTimeout(1500);
    expect(await text("#kept")).toBe(elsewhere);
    await reload(second.page);
    expect((await read("Log", "Z1", second.page)).values).toEqual([["from the second"]]);
    expect(second.errors).toEqual([]);
    await second.page.close();
    page.once("dialog", (dialog) => void dialog.accept());
    await reload();
    expect((await read("Log", "Z1")).values).toEqual([["from the second"]]);
  });
});

describe("what cannot be shown or kept", () => {
  const STORE = (act: string) => `new Promise((resolve) => { const opening = indexedDB.open("algal-ledger"); opening.onsuccess = () => { const store = opening.result.transaction("workbooks", "readwrite").objectStore("workbooks"); const asked = store.get("open"); asked.onsuccess = () => { const record = asked.result; ${act}; store.transaction.oncomplete = () => { opening.result.close(); resolve(record?.title ?? null); }; }; }; })`;

  test.each([
    ["of another make", "store.put({ ...record, version: 99 }, 'open')"],
    ["that is damaged", "store.put({ ...record, version: 1 }, 'open'); store.put('{', 0)"],
  ])("a kept workbook %s is left where it is, and the page says so", async (_what, damage) => {
    await page.evaluate(STORE(damage));
    await reload();
    expect(await page.title()).toBe(`${FIRST} - Algal Ledger`);
    expect(await text("#status")).toBe("The workbook kept in this browser cannot be shown. It stays there until you choose Start afresh.");
    await write("Nitrogen", "P41", [["new"]]);
    await eventually(() => text("#kept"), "Not kept: another workbook is in its place. Download this one, or choose Start afresh.");
    expect(await page.evaluate(STORE(""))).toBe("again");
    page.once("dialog", (dialog) => void dialog.accept());
    await reload();
    expect(await text("#status")).toMatch(/^The workbook kept in this browser cannot be shown/);
  });

  test("Start afresh takes it out once it is answered, and the first sample stands there", async () => {
    await page.locator("#afresh").click();
    await answer("Stay");
    expect(await page.evaluate(STORE(""))).toBe("again");
    // The workbook before has the same title: this tells it from the one that comes.
    await write("Nitrogen", "P42", [["before"]]);
    await page.locator("#afresh").click();
    expect(await page.getByRole("dialog").locator("p").textContent()).toBe("This takes this workbook, and the other one that is kept, out of this browser and opens the first sample. It cannot be undone.");
    await answer("Start afresh");
    await isTitled(FIRST);
    await eventually(() => page.locator("#afresh").isVisible(), false);
    expect(await page.evaluate(STORE(""))).toBe(null);
    await eventually(async () => (await read("Nitrogen", "P42")).values, [[""]]);
    await page.waitForFunction(() => document.querySelector('#grid[aria-busy="false"]'));
    await write("Nitrogen", "P41", [["kept again"]]);
    await kept();
  });

  test("a browser that lends no storage is named as the reason to download", async () => {
    await page.addInitScript(() => Object.defineProperty(window, "indexedDB", { get: () => { throw new Error("refused"); } }));
    await reload();
    await write("Nitrogen", "P41", [["only here"]]);
    await eventually(() => text("#kept"), "This browser does not keep your workbook: download it before you close the page.");
  });
});

test("nothing of all this left the machine or logged an error", () => {
  expect(watched.outside).toEqual([]);
  expect(watched.errors).toEqual([]);
});
