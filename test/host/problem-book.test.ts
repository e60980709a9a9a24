import { joinAddress, splitAddress } from "../../src/functions/cell-address";
import { type CellProblem, ProblemBook } from "../../src/functions/problem-book";

const problem = (address: string, functionName = "ALGAL.X", sentence = "Wrong."): CellProblem => ({ address, functionName, sentence });

function watched(): { book: ProblemBook; told: () => number } {
  const book = new ProblemBook();
  let count = 0;
  book.subscribe(() => {
    count += 1;
  });
  return { book, told: () => count };
}

describe("the problem book", () => {
  test("replaces what a formula cell had, and drops the cell when it calculates well", () => {
    const { book } = watched();
    book.replace("Log!B2", [problem("Log!B2"), problem("Log!B3")]);
    book.replace("Log!B2", [problem("Log!B4")]);
    expect(book.list().map(({ address }) => address)).toEqual(["Log!B4"]);
    book.replace("Log!B2", []);
    expect([book.list(), book.origins()]).toEqual([[], []]);
  });

  test("keeps the functions of one formula apart", () => {
    const { book } = watched();
    book.replaceFor("Log!B2", "ALGAL.X", [problem("Log!B2", "ALGAL.X")]);
    book.replaceFor("Log!B2", "ALGAL.Y", [problem("Log!B2", "ALGAL.Y")]);
    expect(book.of("Log!B2").map(({ functionName }) => functionName)).toEqual(["ALGAL.X", "ALGAL.Y"]);
    book.replaceFor("Log!B2", "ALGAL.X", []);
    expect(book.of("Log!B2").map(({ functionName }) => functionName)).toEqual(["ALGAL.Y"]);
  });

  test("tells a listener of each change, and not when nothing changed", () => {
    const { book, told } = watched();
    book.replace("Log!B2", [problem("Log!B2")]);
    book.replace("Log!B2", [problem("Log!B2")]);
    book.replace("Log!C2", []);
    expect(told()).toBe(1);
    book.clear();
    book.clear();
    expect(told()).toBe(2);
  });

  test("tells once after many changes, even when one of them throws", () => {
    const { book, told } = watched();
    expect(() =>
      book.batch(() => {
        book.replace("Log!B2", [problem("Log!B2")]);
        book.replace("Log!B3", [problem("Log!B3")]);
        throw new Error("stop");
      }),
    ).toThrow("stop");
    expect([told(), book.list().length]).toEqual([1, 2]);
  });

  test("tells nobody who has left", () => {
    const book = new ProblemBook();
    const listener = jest.fn();
    book.subscribe(listener)();
    book.replace("Log!B2", [problem("Log!B2")]);
    expect(listener).not.toHaveBeenCalled();
  });
});

describe("an address with its sheet", () => {
  test.each([
    ["Log", "B7", "Log!B7"],
    ["Tank 2", "B7", "'Tank 2'!B7"],
    ["Keeper's", "B7:C9", "'Keeper''s'!B7:C9"],
    ["A1", "B7", "'A1'!B7"],
    ["R1C1", "B7", "'R1C1'!B7"],
    ["Übersicht", "B7", "Übersicht!B7"],
    ["2024", "B7", "'2024'!B7"],
  ])("sheet %s and cell %s are written %3$s and read back", (sheet, cell, written) => {
    expect(joinAddress(sheet, cell)).toBe(written);
    expect(splitAddress(written)).toEqual({ sheet, cell });
  });

  test("is read without quotes, with dollar signs, and without a sheet", () => {
    expect(splitAddress("Tank 2!$B$7")).toEqual({ sheet: "Tank 2", cell: "B7" });
    expect(splitAddress("B7")).toEqual({ sheet: "", cell: "B7" });
  });
});
