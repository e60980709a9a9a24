import { ProblemBook } from "../../src/functions/problem-book";
import { installExcel } from "../../src/host/excel/install";
import { ProblemList } from "../../src/pane/problems/problem-list";
import { MemoryGrid } from "../workbook/memory-grid";

const WAIT_MS = 150;
const FORMULA = '=ALGAL.LIGHT_DAILY("x",9)';

let grid: MemoryGrid;
let book: ProblemBook;
let list: ProblemList;
let uninstall: () => void;
let end: () => void;

beforeEach(async () => {
  jest.useFakeTimers();
  grid = new MemoryGrid(["Log"]);
  uninstall = installExcel(grid);
  book = new ProblemBook();
  list = new ProblemList(book, WAIT_MS);
  end = list.start();
  await settle();
});
afterEach(() => {
  end();
  uninstall();
  jest.useRealTimers();
});

const settle = (): Promise<void> => jest.advanceTimersByTimeAsync(WAIT_MS * 3);
const shown = (): string[] => list.shown().list.map(({ address }) => address);

function fail(address: string): void {
  grid.put("Log", address, "#VALUE!", FORMULA);
  book.replace(`Log!${address}`, [{ address: `Log!${address}`, functionName: "ALGAL.LIGHT_DAILY", sentence: "Not a number." }]);
}

it("is empty at first", () => {
  expect(list.shown()).toEqual({ list: [], checked: true });
});

it("shows a reported problem with the cell of its formula", async () => {
  fail("B7");
  await settle();
  expect(list.shown()).toEqual({
    list: [{ address: "Log!B7", origin: "Log!B7", functionName: "ALGAL.LIGHT_DAILY", sentence: "Not a number." }],
    checked: true,
  });
});

it("drops a cell whose formula was deleted, though the book was not told", async () => {
  fail("B7");
  fail("B8");
  await settle();
  grid.empty("Log", "B7");
  await settle();
  expect(shown()).toEqual(["Log!B8"]);
  expect(book.origins()).toEqual(["Log!B7", "Log!B8"]);
});

it("shows a problem that is reported before its cell shows the error, once it does", async () => {
  book.replace("Log!B7", [{ address: "Log!B7", functionName: "ALGAL.LIGHT_DAILY", sentence: "Not a number." }]);
  await settle();
  expect(shown()).toEqual([]);
  grid.put("Log", "B7", "#VALUE!", FORMULA);
  await settle();
  expect(shown()).toEqual(["Log!B7"]);
});

it("reads the cells once for a burst of reports", async () => {
  for (let row = 1; row <= 50; row += 1) fail(`B${row}`);
  await settle();
  expect(shown()).toHaveLength(50);
  expect(grid.diary.filter((entry) => entry === "read Log!B1")).toHaveLength(2);
});

it("hears of a change that comes while the cells are read", async () => {
  fail("B7");
  const read = grid.read.bind(grid);
  let added = false;
  grid.read = (sheet, address) => {
    const content = read(sheet, address);
    if (!added) {
      added = true;
      fail("B8");
    }
    return content;
  };
  await settle();
  expect(shown()).toEqual(["Log!B7", "Log!B8"]);
});

it("shows all that was reported, and says that it was not checked, while the cells cannot be read", async () => {
  const read = grid.read.bind(grid);
  grid.read = () => {
    throw new Error("busy");
  };
  fail("B7");
  await settle();
  expect([shown(), list.shown().checked]).toEqual([["Log!B7"], false]);
  grid.read = read;
  grid.put("Log", "A1", 1);
  await settle();
  expect([shown(), list.shown().checked]).toEqual([["Log!B7"], true]);
});

it("tells its listeners of a change, and of nothing when nothing changed", async () => {
  const heard = jest.fn();
  const unsubscribe = list.subscribe(heard);
  grid.put("Log", "A1", 1);
  await settle();
  expect(heard).toHaveBeenCalledTimes(0);
  fail("B7");
  await settle();
  expect(heard).toHaveBeenCalledTimes(1);
  unsubscribe();
  book.clear();
  await settle();
  expect([heard.mock.calls.length, shown()]).toEqual([1, []]);
});

it("listens to neither the book nor the cells after its end", async () => {
  end();
  await settle();
  fail("B7");
  await settle();
  expect([shown(), grid.listenerCount]).toEqual([[], 0]);
});
