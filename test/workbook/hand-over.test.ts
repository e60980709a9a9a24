import { installExcel } from "../../src/host/excel/install";
import { ourFormulas } from "../../src/workbook/hand-over/our-formulas";
import { openCopy, workbookFile, workbookName } from "../../src/workbook/hand-over/workbook-file";
import { MemoryGrid } from "./memory-grid";

let grid: MemoryGrid;
let uninstall: () => void = () => undefined;
let given: Uint8Array[];
/** Longer than a slice, and no byte like the one before. */
const bytes = Uint8Array.from({ length: 4 * 1024 * 1024 + 5 }, (_, at) => (at * 31 + (at >> 8)) % 256);

function start(name = "tank.xlsx", read: () => Promise<Uint8Array> = async () => bytes): void {
  given = [];
  grid = new MemoryGrid(["Log", "It's empty"]);
  uninstall = installExcel(grid, { bytes: read, name: () => name, give: (file) => void given.push(file) });
}
afterEach(() => uninstall());

test("the workbook comes as a file, whole, from all its slices", async () => {
  start();
  expect(Buffer.from(await workbookFile()).equals(Buffer.from(bytes))).toBe(true);
});

test("a slice can be asked for while the file is open, and not after", async () => {
  start();
  const file = await new Promise<Office.File>((resolve) => Office.context.document.getFileAsync(Office.FileType.Compressed, { sliceSize: 1000 }, ({ value }) => resolve(value)));
  const slice = (index: number) => new Promise<Office.AsyncResult<Office.Slice>>((resolve) => file.getSliceAsync(index, resolve));
  expect([file.size, file.sliceCount]).toEqual([bytes.length, Math.ceil(bytes.length / 1000)]);
  expect((await slice(file.sliceCount - 1)).value.data).toEqual([...bytes.slice(-(bytes.length % 1000))]);
  expect((await slice(file.sliceCount)).status).toBe("failed");
  file.closeAsync();
  expect((await slice(0)).status).toBe("failed");
});

test("when the host has no file, or it is stopped, that is one sentence", async () => {
  start("", async () => Promise.reject(new Error("no")));
  await expect(workbookFile()).rejects.toThrow("The copy could not be made.");
  uninstall();
  start();
  await expect(workbookFile(AbortSignal.abort())).rejects.toThrow("Stopped. No copy was made.");
});

test.each([["tank.xlsx", "tank.xlsx"], ["https://example.org/pond%20one/my%20tank.xlsx", "my tank.xlsx"], ["C:\\tanks\\100% reef.xlsx", "100% reef.xlsx"], ["", ""]])("%j is named %j", (url, name) => {
  start(url);
  expect(workbookName()).toBe(name);
});

test("a copy is opened with the bytes that it was made of", async () => {
  start();
  await openCopy(bytes);
  expect(Buffer.from(given[0] ?? []).equals(Buffer.from(bytes))).toBe(true);
});

test("formulas of ours are counted by sheet, with those that show an error", async () => {
  start();
  grid.put("Log", "A1", '="ALGAL.CHANGE_COUNT"');
  grid.put("Log", "A2", "=ALGAL.CHANGE_COUNT(40,10,20%)");
  grid.put("Log", "C7", "=1+ALGAL.CHANGE_COUNT(40,10,20%)");
  grid.sheets.byName("Log").cells.set("D1", { value: "#VALUE!", formula: "=ALGAL.CHANGE_COUNT(1)" } as never);
  expect(await ourFormulas()).toEqual([{ sheet: "Log", cells: 3, wrong: 1 }]);
});
