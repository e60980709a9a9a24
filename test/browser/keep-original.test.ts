import fs from "node:fs";
import path from "node:path";
import type { Page } from "playwright-core";
import { readWorkbook } from "../../src/files/read-workbook";
import { bytesOf, differingParts } from "../files/merge-kit";
import { handMade, MAIN } from "../files/hand-made";
import { partText } from "../files/zip-bytes";
import { type Harness, startHarness, type WatchedPage } from "./harness";
import { eventually } from "./pane-checks";

/** A keeper's own file, opened, changed and downloaded on the page: what the page does not show stays in it. */
let harness: Harness;
let watched: WatchedPage;
let page: Page;
const WRITTEN = path.join(__dirname, "../files/written");

beforeAll(async () => {
  harness = await startHarness();
  watched = await harness.open("index.html");
  page = watched.page;
  await ready();
}, 120_000);
afterAll(() => harness?.close());

async function ready(): Promise<void> {
  await page.waitForFunction(() => "algalLedger" in window);
  await page.evaluate(() => window.algalLedger.ready);
}

const answer = (name: string) => page.getByRole("dialog").getByRole("button", { name, exact: true }).click();
const write = (sheet: string, address: string, content: unknown[][]) => page.evaluate(([s, a, rows]) => window.algalLedger.port.write(s, a, rows), [sheet, address, content] as const);

async function open(name: string): Promise<void> {
  await page.locator("#file").setInputFiles(path.join(WRITTEN, name));
  await page.waitForFunction((title) => document.title.startsWith(title) || document.querySelector("dialog") !== null, name.replace(/\.xlsx$/, ""));
  if (await page.getByRole("dialog").count()) await answer("Discard changes");
  await page.waitForFunction((title) => document.title.startsWith(title), name.replace(/\.xlsx$/, ""));
}

/** Through the menu of the grid, as a keeper does it. */
async function insertRow(down = 0.5): Promise<void> {
  const box = await page.locator("#grid").boundingBox();
  if (!box) throw new Error("There is no grid.");
  await page.mouse.click(box.x + box.width / 2, box.y + box.height * down, { button: "right" });
  await page.getByText("Insert", { exact: true }).filter({ visible: true }).hover();
  await page.getByText("rows above").filter({ visible: true }).click({ position: { x: 4, y: 8 } });
}

/** By its heading, as a keeper does it. */
async function moveColumn(): Promise<void> {
  const box = await page.locator("#grid canvas").last().boundingBox();
  if (!box) throw new Error("There is no grid.");
  const [y, from] = [box.y + 10, box.x + 90];
  await page.mouse.click(from, y);
  await page.mouse.move(from, y);
  await page.mouse.down();
  await page.mouse.move(from + 80, y, { steps: 8 });
  await page.mouse.move(from + 230, y, { steps: 8 });
  await page.mouse.up();
  await page.waitForTimeout(300);
}

async function download(act: () => Promise<void> = () => page.locator("#download").click()): Promise<Uint8Array> {
  const [given] = await Promise.all([page.waitForEvent("download"), act()]);
  return new Uint8Array(fs.readFileSync(await given.path()));
}

test.each(["openpyxl-comments-links-picture.xlsx", "openpyxl-pivot-kept.xlsx", "xlsxwriter-charts.xlsx"])("%s comes back with the cell that was typed, after a reload, and all its other parts as they were", async (name) => {
  const before = bytesOf(name);
  await open(name);
  await page.waitForFunction(() => document.getElementById("status")?.textContent?.startsWith("Not shown here, and kept in the file when you download it: "));
  const [sheet = ""] = await page.evaluate(() => window.algalLedger.port.sheetNames());
  await write(sheet, "K40:K41", [["typed here"], ["=6*7"]]);
  await page.waitForFunction(() => /^Kept in this browser/.test(document.getElementById("kept")?.textContent ?? ""));
  await page.reload();
  await ready();
  const after = await download();
  const { book: was, unshown } = await readWorkbook(before);
  const { book: is, unshown: now } = await readWorkbook(after);
  const allowed = ["[Content_Types].xml", "xl/_rels/workbook.xml.rels", "xl/calcChain.xml"];
  const touched = differingParts(before, after).filter((part) => !allowed.includes(part));
  expect(touched.every((part) => part.startsWith("xl/worksheets/sheet"))).toBe(true);
  expect(now).toEqual(unshown);
  expect([is.sheets[0]?.cells.get("K40"), is.sheets[0]?.cells.get("K41")]).toEqual([{ value: "typed here" }, { value: 42, formula: "6*7" }].map((cell) => expect.objectContaining(cell) as unknown));
  // Of the other cells only what formulas show may be another program's last digit, or what the page cannot work out.
  for (const [i, { cells }] of was.sheets.entries()) for (const [address, cell] of cells) if (cell.formula === undefined && cell.value !== null) expect([address, is.sheets[i]?.cells.get(address)]).toEqual([address, cell]);
}, 60_000);

test("a width, a rule, the weekly sheets and a renamed sheet are brought into the file, beside its picture", async () => {
  const name = "openpyxl-comments-links-picture.xlsx";
  await open(name);
  const [sheet = ""] = await page.evaluate(() => window.algalLedger.port.sheetNames());
  await page.evaluate((on) => window.algalLedger.port.formats.setColumnWidth(on, "B1:B1", 180), sheet);
  await page.getByRole("button", { name: "Insert the weekly sheets" }).click();
  await page.waitForFunction(() => window.algalLedger.port.sheetNames().includes("Sources"));
  const after = await download();
  const { book, extras, unshown } = await readWorkbook(after);
  expect(unshown).toEqual((await readWorkbook(bytesOf(name))).unshown);
  expect(book.sheets.map((one) => one.name)).toEqual(await page.evaluate(() => window.algalLedger.port.sheetNames()));
  expect(book.sheets[0]?.columnWidths?.[1]).toBeCloseTo((180 - 8) / 7.5, 2);
  expect(extras.sheets.reduce((sum, { charts }) => sum + charts.length, 0)).toBe(4);
  expect(differingParts(bytesOf(name), after).filter((part) => /drawing1|image|comment/.test(part))).toEqual([]);
  expect(partText(after, "xl/workbook.xml")).toContain("definedName");
}, 60_000);

test("what a rule colours on the page is no look of the cell in the file, whether it holds or holds no longer", async () => {
  const STYLES = `<styleSheet xmlns="${MAIN}"><fonts count="1"><font/></fonts><fills count="1"><fill/></fills><borders count="1"><border/></borders><cellXfs count="1"><xf/></cellXfs><dxfs count="1"><dxf><fill><patternFill patternType="solid"><bgColor rgb="FFFFC7CE"/></patternFill></fill></dxf></dxfs></styleSheet>`;
  const bytes = handMade({
    rows: [1, 2, 3].map((row) => `<row r="${row}"><c r="A${row}"><v>${row === 3 ? 9 : row}</v></c></row>`).join(""),
    after: '<conditionalFormatting sqref="A1:A9"><cfRule type="expression" dxfId="0" priority="1"><formula>A1&gt;5</formula></cfRule></conditionalFormatting>',
    parts: { "xl/styles.xml": STYLES },
    links: { styles: "styles.xml" },
  });
  await page.locator("#file").setInputFiles({ name: "marked.xlsx", mimeType: "application/octet-stream", buffer: bytes });
  await page.waitForFunction(() => document.title.startsWith("marked") || document.querySelector("dialog") !== null);
  if (await page.getByRole("dialog").count()) await answer("Discard changes");
  await page.waitForFunction(() => document.title.startsWith("marked"));
  // The rule begins to hold in A1, ends in A3 and never holds in A2.
  await write("Log", "A1:A3", [[8], [3], [1]]);
  const after = await download();
  expect(partText(after, "xl/worksheets/sheet1.xml").match(/<c [^>]*>/g)).toEqual(['<c r="A1">', '<c r="A2">', '<c r="A3">']);
  expect(partText(after, "xl/styles.xml")).toBe(STYLES);
}, 60_000);

test("rows that were put in beside a picture and comments, and a reload, move what stands below them in the file", async () => {
  const name = "openpyxl-comments-links-picture.xlsx";
  await open(name);
  await insertRow(0.2);
  await page.waitForFunction(() => /^Kept in this browser/.test(document.getElementById("kept")?.textContent ?? ""));
  await page.reload();
  await ready();
  const after = await download();
  const [was, is] = [await readWorkbook(bytesOf(name)), await readWorkbook(after)];
  expect(is.unshown).toEqual(was.unshown);
  expect([was, is].map(({ book }) => book.sheets[0]?.cells.get("B10")?.value)).not.toEqual([undefined, undefined]);
  expect(is.book.sheets[0]?.cells.get("B11")?.value).toBe(was.book.sheets[0]?.cells.get("B10")?.value);
}, 60_000);

test("where the file cannot be carried on, the page says what a new file would not hold, and Cancel downloads nothing", async () => {
  await open("openpyxl-comments-links-picture.xlsx");
  // Columns that go to another place are not followed.
  await page.evaluate(() => window.algalLedger.port.select(window.algalLedger.port.sheetNames()[0] ?? "", "A1"));
  await moveColumn();
  await page.locator("#download").click();
  const dialog = page.getByRole("dialog", { name: "Write a new file?" });
  await dialog.waitFor();
  expect(await dialog.locator("p").textContent()).toBe("After this change your own file cannot be carried on without a guess. The download would be a new file, without 2 hyperlinks, 1 picture, 2 comments and the theme and the named styles of yours. Your file itself is unchanged.");
  await answer("Cancel");
  await eventually(() => page.getByRole("dialog").count(), 0);
  await page.locator("#download").click();
  const after = await download(() => answer("Download without them"));
  expect((await readWorkbook(after)).unshown).toEqual([]);
}, 60_000);

test("rows that were put in and taken back leave the file as it is", async () => {
  const name = "openpyxl-comments-links-picture.xlsx";
  await open(name);
  await insertRow();
  await page.keyboard.press("Control+z");
  await page.waitForTimeout(500);
  const after = await download();
  expect(differingParts(bytesOf(name), after).filter((part) => !part.startsWith("xl/worksheets/sheet"))).toEqual([]);
}, 60_000);

test("nothing of all this left the machine or logged an error", () => {
  expect(watched.outside).toEqual([]);
  expect(watched.errors).toEqual([]);
});
