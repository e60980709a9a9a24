import fs from "node:fs";
import path from "node:path";
import type { Page } from "playwright-core";
import type { BookCell } from "../../src/files/book";
import { writeBook } from "../../src/files/new-book";
import { readWorkbook } from "../../src/files/read-workbook";
import { bytesOf, differingParts } from "../files/merge-kit";
import { handMade, handMadeParts, MAIN } from "../files/hand-made";
import { partText, zipOf } from "../files/zip-bytes";
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

async function openMade(name: string, buffer: Buffer): Promise<void> {
  const title = name.replace(/\.\w+$/, "");
  await page.locator("#file").setInputFiles({ name, mimeType: "application/octet-stream", buffer });
  await page.waitForFunction((wanted) => document.title.startsWith(wanted) || document.querySelector("dialog") !== null, title);
  if (await page.getByRole("dialog").count()) await answer("Discard changes");
  await page.waitForFunction((wanted) => document.title.startsWith(wanted), title);
}

const HEADED = handMade({
  rows: '<row r="1"><c r="A1" t="str"><v>Feed</v></c><c r="B1" t="str"><v>N</v></c></row><row r="2"><c r="A2"><v>2</v></c><c r="B2"><f>Diary[[#This Row],[Feed]]*2</f><v>4</v></c></row>',
  parts: {
    "xl/tables/table1.xml": `<table xmlns="${MAIN}" id="1" name="Diary" displayName="Diary" ref="A1:B2"><tableColumns count="2"><tableColumn id="1" name="Feed"/><tableColumn id="2" name="N"/></tableColumns></table>`,
    "xl/worksheets/_rels/sheet1.xml.rels": '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/table" Target="../tables/table1.xml"/></Relationships>',
  },
});

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

test("a heading that is typed over is the column's name in formulas, on the page and in the file, and taken back it is again what it was", async () => {
  await openMade("headed.xlsx", HEADED);
  await write("Log", "D2:D2", [["=SUM(Diary[Feed])"]]);
  await write("Log", "A1:A1", [["Food"]]);
  const formulas = () => page.evaluate(() => window.algalLedger.port.read("Log", "B2:D2").formulas[0]);
  await eventually(async () => JSON.stringify(await formulas()), JSON.stringify(["=Diary[[#This Row],[Food]]*2", "", "=SUM(Diary[Food])"]));
  const after = await download();
  expect(partText(after, "xl/tables/table1.xml")).toContain('<tableColumn id="1" name="Food"/>');
  expect(partText(after, "xl/worksheets/sheet1.xml")).toMatch(/<c r="B2"><f>Diary\[\[#This Row\],\[Food\]\]\*2<\/f><v>4<\/v><\/c><c r="D2"[^>]*><f[^>]*>SUM\(Diary\[Food\]\)<\/f><v>2<\/v>/);
  await write("Log", "A1:A1", [["Feed"]]);
  await eventually(async () => JSON.stringify(await formulas()), JSON.stringify(["=Diary[[#This Row],[Feed]]*2", "", "=SUM(Diary[Feed])"]));
}, 60_000);

test("a workbook with macros is given back with its ending, and a formula that Excel could not read as a text, of which the page tells", async () => {
  const MACROS = handMadeParts({ rows: '<row r="1"><c r="A1"><v>1</v></c></row>' }).map((part) => ({ ...part, content: String(part.content).replace("application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml", "application/vnd.ms-excel.sheet.macroEnabled.main+xml") }));
  await openMade("macros.xlsm", zipOf(MACROS));
  await write("Log", "B1:C1", [["=SUM(A1", "=ROUND(A1)"]]);
  await write("Log", "D1:E1", [["=IFNA(A1*2,0)", '=CELL("row")']]);
  const [given] = await Promise.all([page.waitForEvent("download"), page.locator("#download").click()]);
  expect(given.suggestedFilename()).toBe("macros.xlsm");
  const after = new Uint8Array(fs.readFileSync(await given.path()));
  expect((await readWorkbook(after)).book.sheets[0]?.cells.get("C1")).toMatchObject({ value: "=ROUND(A1)" });
  expect(partText(after, "xl/worksheets/sheet1.xml")).toContain("<f>_xlfn.IFNA(A1*2,0)</f><v>2</v>");
  expect((await readWorkbook(after)).book.sheets[0]?.cells.get("E1")?.formula).toBe('CELL("row")');
  expect(await page.locator("#status").textContent()).toMatch(/^Excel could not read (2 formulas, so the file holds them as texts: correct them, and download again \(Log!B1, Log!C1\)|the formula in Log!C1, so the file holds it as text: correct it, and download again)\.$/);
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

test("a key that is pressed while a file still opens does nothing, and does its work once the file stands there", async () => {
  const rows = 1500;
  const squares = (rows * (rows + 1) * (2 * rows + 1)) / 6;
  const cells = new Map<string, BookCell>();
  for (let row = 1; row <= rows; row += 1) cells.set(`A${row}`, { value: row }).set(`B${row}`, { value: squares + row, formula: `SUMPRODUCT(A$1:A$${rows}*A$1:A$${rows})+A${row}` });
  const file = await writeBook({ sheets: [{ name: "Opens long", cells }], names: [], date1904: false });
  // From inside the page: no key from outside comes at just the moment between the first picture and the end of the calculation.
  await page.evaluate(() => {
    // The grid takes the focus of a workbook that comes when nothing else has it.
    (document.activeElement as HTMLElement).blur();
    const { press, pressed } = Object.assign(window, { pressed: [] as string[], press: () => (document.activeElement ?? document.body).dispatchEvent(new KeyboardEvent("keydown", { key: "Delete", code: "Delete", keyCode: 46, bubbles: true, cancelable: true })) });
    const watch = setInterval(() => {
      if (window.algalLedger.port.sheetNames()[0] !== "Opens long") return;
      if (document.title.startsWith("long")) clearInterval(watch);
      else {
        press();
        pressed.push(document.title);
      }
    });
  });
  await page.locator("#file").setInputFiles({ name: "long.xlsx", mimeType: "application/octet-stream", buffer: Buffer.from(file) });
  await page.waitForFunction(() => document.title.startsWith("long") || document.querySelector("dialog") !== null);
  if (await page.getByRole("dialog").count()) await answer("Discard changes");
  await page.waitForFunction(() => document.title.startsWith("long") && document.querySelector('#grid[aria-busy="false"]'));
  expect(await page.evaluate(() => (window as unknown as { pressed: string[] }).pressed.length)).toBeGreaterThan(0);
  const a1 = () => page.evaluate(() => window.algalLedger.port.read("Opens long", "A1").values[0]?.[0]);
  expect(await a1()).toBe(1);
  await page.evaluate(() => (window as unknown as { press(): void }).press());
  await eventually(a1, "");
  const { book } = await readWorkbook(await download());
  expect(["A1", "B1"].map((at) => book.sheets[0]?.cells.get(at)?.value ?? null)).toEqual([null, squares - 1]);
}, 60_000);

test("a sheet that is deleted is an error in what reads it, on the page and in the file, and no name stands for its cells", async () => {
  const own = new Map<string, BookCell>([["A1", { value: 8, formula: "'Log 2'!A1*2" }], ["A2", { value: 4, formula: "Portion" }]]);
  const file = await writeBook({ sheets: [{ name: "Log 2", cells: new Map([["A1", { value: 4 }]]) }, { name: "Own", cells: own }], names: [{ name: "Portion", ref: "'Log 2'!$A$1" }], date1904: false });
  await openMade("sheets.xlsx", Buffer.from(file));
  await page.locator('[data-u-comp="slide-tab-item"]').filter({ hasText: "Log 2" }).click({ button: "right" });
  await page.getByText("Delete", { exact: true }).filter({ visible: true }).click();
  await page.getByText("OK", { exact: true }).filter({ visible: true }).click();
  await eventually(() => page.evaluate(() => window.algalLedger.port.sheetNames()), ["Own"]);
  const after = await download();
  expect(partText(after, "xl/workbook.xml")).toContain('<definedName name="Portion">#REF!</definedName>');
  const { book } = await readWorkbook(after);
  expect([book.sheets.map(({ name }) => name), book.sheets[0]?.cells.get("A1")]).toEqual([["Own"], expect.objectContaining({ formula: "#REF!*2", value: "#REF!" })]);
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
