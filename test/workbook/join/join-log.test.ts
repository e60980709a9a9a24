import { worksheetFunctions } from "../../../src/functions";
import { cellAddress } from "../../../src/host/engine/address";
import { stateOnSheets } from "../../../src/host/excel/book-state";
import { joinLog } from "../../../src/workbook/join/join-log";
import { lookAtSelection, type Look } from "../../../src/workbook/join/look";
import { lookAgain, readAgain } from "../../../src/workbook/join/read-again";
import { foodsOfLog } from "../../../src/workbook/join/recognise/foods-of-log";
import { listJoins, removeJoin } from "../../../src/workbook/join/take-back";
import { calculatedGrid, errors } from "../calculated";
import { excelTests } from "../excel-tests";
import type { MemoryGrid } from "../memory-grid";
import { LOGS } from "./logs/all";
import type { InventedLog } from "./logs/invented";

const { engine, open } = excelTests();
let grid: MemoryGrid;
beforeEach(() => {
  grid = open(["Mine", "Other"]);
});

function put(log: Pick<InventedLog, "grid" | "selected">): void {
  log.grid.forEach((row, r) => row.forEach((cell, c) => cell !== "" && cell !== null && cell !== undefined && grid.put("Mine", cellAddress(r, c), cell)));
  grid.select("Mine", cellAddress(log.selected.row, log.selected.column));
}

/** One has no reading at all, the other none that is a number. */
const UNREAD = ["in cubes, gallons, cups and pinches", "with mixed units in the cells and a repeated heading"];
const SET_UP = { "Volume (L)": 265 };
/** The keeper answers as the log's truth has it; what would be counted twice is left alone. */
function answers(log: InventedLog): (string | null)[] {
  const taken = new Set<string>();
  return log.columns.map(({ meaning }) => {
    const substance = meaning === null ? "" : /^(?:NO3|PO4|NH4|NO2)/.exec(meaning)?.[0] || meaning;
    if (meaning === null || taken.has(substance)) return null;
    taken.add(substance);
    return meaning;
  });
}
const wish = (meanings: readonly (string | null)[], dateOrder: InventedLog["dateOrder"] = undefined, onNewSheet = false) => ({ meanings, dateOrder: dateOrder ?? null, setUp: SET_UP, onNewSheet });

/** All that a book holds, a line for each thing. */
function everything(): string[] {
  const ids = new Set(grid.sheets.list().map(({ id }) => id));
  const { tables, charts, validations, conditionalFormats, xmlParts } = stateOnSheets(grid.state.current(), ids);
  return [
    ...grid.sheetNames().flatMap((name) => [
      name,
      ...[...grid.sheets.byName(name).cells].map((cell) => JSON.stringify(cell)).sort(),
      ...grid.formats.numberFormats(name, "A1:AD70").map((row, r) => `${r + 1}: ${row.map((format, c) => (format === "General" ? "" : `${c} ${format}`)).join("")}`),
      ...grid.formats.columnWidths(name, "A1:AD1").map((width, column) => `width ${column} ${width}`),
      JSON.stringify(grid.formats.style(name, "A1:AD70")),
    ]),
    ...grid.names.list().map(({ name, formula }) => `${name} ${formula}`),
    ...[tables, charts, validations, conditionalFormats, xmlParts].flat().map((one) => JSON.stringify(one)),
  ];
}
const cellsOf = (sheet: string): string => JSON.stringify([...grid.sheets.byName(sheet).cells].sort(([a], [b]) => a.localeCompare(b)));

const SIMPLE: InventedLog = LOGS.find(({ name }) => name === "under our own headings") as InventedLog;
const withTitle: InventedLog = LOGS.find(({ name }) => name === "below a merged title and a blank row") as InventedLog;

describe("every invented log", () => {
  test.each(LOGS.map((log) => [log.name, log] as const))("%s: is joined without a cell touched, calculates, and is given back cell for cell", async (_, log) => {
    put(log);
    grid.formats.setNumberFormats("Mine", "A2", [["yyyy-mm-dd"]]);
    const before = everything();
    const keepers = new Map(grid.sheets.byName("Mine").cells);
    const seen = await lookAtSelection();
    // This one has a second log beside it: nothing is written there, and the account goes to a sheet of its own.
    const isHemmedIn = log.name.startsWith("beside a set-up block");
    if (isHemmedIn) {
      await expect(joinLog(seen, wish(answers(log), "dmy"))).rejects.toThrow("is in the way");
      expect(everything()).toEqual(before);
    }
    const { at, sheets } = await joinLog(seen, wish(answers(log), log.dateOrder ?? "dmy", isHemmedIn));
    if (isHemmedIn) {
      expect([at, sheets]).toEqual(["Rows!A4", ["Join", "Balance", "Charts", "Foods", "Rows"]]);
      for (const [address, cell] of keepers) expect([address, grid.sheets.byName("Mine").cells.get(address)]).toEqual([address, cell]);
      expect(await removeJoin(1, false)).toBeNull();
      expect(everything()).toEqual(before);
      return;
    }
    expect(at).toMatch(/^Mine![A-Z]+\d+$/);
    expect(sheets).toEqual(["Join", "Balance", "Charts", "Foods"]);
    for (const [address, cell] of keepers) expect([address, grid.sheets.byName("Mine").cells.get(address)]).toEqual([address, cell]);
    expect(grid.sheets.byName("Mine").cells.size).toBe(keepers.size + 1);

    const calculated = await calculatedGrid(engine(), grid);
    const anchor = at.split("!")[1] ?? "";
    const shown = calculated.get("Mine")?.values.get(anchor);
    // Without a row above the data there is no place for headings: the first row's feed stands there.
    if (seen.found.firstDataRow === 0) expect(typeof shown === "number" || shown === "").toBe(true);
    else expect(shown).toBe(UNREAD.includes(log.name) ? "Enter a nitrate or a phosphate reading: without one it is not known what stayed in the water." : "Feed in (g N)");
    expect(errors(new Map([...calculated].filter(([name]) => name !== "Mine" && name !== "Balance" && name !== "Charts")))).toEqual([]);

    expect(await removeJoin(1, false)).toBeNull();
    expect(everything()).toEqual(before);
  });
});

describe("joining", () => {
  test("writes one formula beside a range, with formats, marks and names, and remembers it", async () => {
    put(withTitle);
    const { at } = await joinLog(await lookAtSelection(), wish(answers(withTitle)));
    expect(at).toBe("Mine!H3");
    expect(grid.sheets.byName("Mine").cells.get("H3")?.formula).toBe(
      "=IF(Balance!$B$3=\"\",ALGAL.LOG_ROWS(ALGAL.LOG_READ(Mine!$A$1:$F$521,Join!$G$5:$G$10,Join!$J$5,,Join!$B$23),Join!$A$5:$B$23,Foods!$A$3:$I$61,Join!$J$5,TRUE),Balance!$B$3)",
    );
    expect(grid.formats.numberFormats("Mine", "H3:L4")).toEqual([["General", "General", "General", "General", "General"], ["0.000", "0.0000", "0.000", "0.0000", "General"]]);
    expect(grid.state.current().conditionalFormats.filter(({ ref }) => ref.startsWith("L3:")).map(({ type, operator, text, fill }) => [type, operator, text, fill])).toEqual([
      ["ContainsText", "BeginsWith", "Note", "#FFF3D1"],
      ["ContainsText", "BeginsWith", "Caution", "#FFF3D1"],
      ["ContainsText", "BeginsWith", "Serious", "#FCE4DE"],
    ]);
    expect(grid.names.list().map(({ name, formula }) => `${name}: ${formula}`)).toEqual(expect.arrayContaining(["Algal_join_1_log: Mine!$A$1:$F$521", "Algal_join_1_added: Mine!$H$3:$L$521"]));
    expect(grid.state.current().xmlParts.map(({ namespaceUri }) => namespaceUri)).toEqual(["urn:algal-ledger:join:1"]);
    expect((await listJoins()).map(({ joined, sheets }) => [joined.log?.sheet, joined.record.columns[1], sheets.join])).toEqual([["Mine", { heading: "Feed [g]", meaning: "Feed (g)" }, "Join"]]);
  });

  test("marks of earlier versions, formulas one and all, are taken out with the columns, and rules of the keeper's own stay", async () => {
    put(withTitle);
    await joinLog(await lookAtSelection(), wish(answers(withTitle)));
    await Excel.run(async (context) => {
      const column = context.workbook.worksheets.getItem("Mine").getRange("L3:L521");
      column.conditionalFormats.clearAll();
      for (const formula of ['=LEFT($L3,7)="Serious"', '=OR(LEFT($L3,7)="Caution",LEFT($L3,4)="Note")', '=$L3="mine"']) column.conditionalFormats.add("Custom").custom.rule.formula = formula;
      for (const text of ["Note", "mine"]) column.conditionalFormats.add("ContainsText").textComparison.rule = { operator: "BeginsWith", text };
      column.conditionalFormats.add("ContainsText").textComparison.rule = { operator: "Contains", text: "Note" };
      await context.sync();
    });
    await removeJoin(1, false);
    expect(grid.state.current().conditionalFormats.filter(({ ref }) => ref.startsWith("L3:")).map(({ formula, operator, text }) => formula || `${operator} ${text}`)).toEqual(["Contains Note", "BeginsWith mine", '=$L3="mine"']);
  });

  test("the account beside the log is that of the same figures under our own headings, row by row", async () => {
    put(SIMPLE);
    const { at } = await joinLog(await lookAtSelection(), wish(answers(SIMPLE)));
    const sheets = await calculatedGrid(engine(), grid);
    const values = sheets.get("Mine")?.values;
    expect(at).toBe("Mine!M1");
    expect(["M1", "N1", "O1", "P1", "Q1"].map((cell) => values?.get(cell))).toEqual(["Feed in (g N)", "Feed in (g P)", "Harvest out (g N)", "Harvest out (g P)", "What to look at"]);
    const read = worksheetFunctions.get("LOG_ROWS") as (...args: unknown[]) => unknown[][];
    const wanted = read(SIMPLE.grid, [["Volume (L)", 265]], null, null, null, null);
    wanted.forEach((row, r) => row.forEach((cell, c) => expect(values?.get(cellAddress(r, 12 + c)) ?? "").toEqual(cell)));
    expect(sheets.get("Balance")?.values.get("B3") ?? "").toBe("");
    expect(sheets.get("Balance")?.values.get("A10")).toBe("From");
  });

  test.each([["a typed cell", "K4"], ["the blank column between", "G9"], ["below the first row", "L20"]])("writes nothing when %s is in the way, and says where", async (_, address) => {
    put(withTitle);
    grid.put("Mine", address, "mine");
    const seen = await lookAtSelection();
    const before = everything();
    // A note in a row without a date does not lengthen the log; one beside the log is part of it or in its way.
    if (seen.found.right > 5) return;
    await expect(joinLog(seen, wish(answers(withTitle)))).rejects.toThrow(`Mine!${address} is in the way`);
    expect(everything()).toEqual(before);
  });

  test("goes to a sheet of its own when asked, with the dates in front, and leaves the log's sheet as it is", async () => {
    put(withTitle);
    grid.put("Mine", "K4", "mine");
    const before = cellsOf("Mine");
    const { at, sheets } = await joinLog(await lookAtSelection(), wish(answers(withTitle), undefined, true));
    expect([at, sheets[4]]).toEqual(["Rows!A4", "Rows"]);
    expect(cellsOf("Mine")).toBe(before);
    const values = (await calculatedGrid(engine(), grid)).get("Rows")?.values;
    expect([values?.get("A4"), values?.get("A5"), values?.get("B4")]).toEqual(["Date", 46000, "Feed in (g N)"]);
    await removeJoin(1, false);
    expect([cellsOf("Mine"), grid.sheetNames()]).toEqual([before, ["Mine", "Other"]]);
  });

  test("puts foods of the keeper's own on the sheet of foods with the figures of the one that was chosen, and they count", async () => {
    const frenchFoods = { ...SIMPLE, grid: SIMPLE.grid.map((row, r) => row.map((cell, c) => (r > 0 && c === 1 ? "Moules du port" : cell))) };
    put(frenchFoods);
    await joinLog(await lookAtSelection(), { ...wish(answers(SIMPLE)), foods: { "Moules du port": "Mussel" } });
    const foods = grid.read("Foods", "A4:J80").values;
    const rowOf = (name: string) => foods.find(([food]) => food === name) ?? [];
    expect(rowOf("Moules du port").slice(1, 9)).toEqual(rowOf("Mussel").slice(1, 9));
    expect(rowOf("Moules du port")[9]).toBe("As Mussel, chosen when the log was joined.");
    const ours = (await calculatedGrid(engine(), grid)).get("Mine")?.values.get("M2");
    const read = worksheetFunctions.get("LOG_ROWS") as (...args: unknown[]) => unknown[][];
    const asMussel = read(SIMPLE.grid.map((row, r) => row.map((cell, c) => (r > 0 && c === 1 ? "Mussel" : cell))), [["Volume (L)", 265]], null, null, null, null);
    expect(ours).toBe(asMussel[1]?.[0]);
    expect(ours).toBeGreaterThan(0);
  });

  test("writes no formula that a heading or a food of the keeper's begins", async () => {
    put({ ...SIMPLE, grid: SIMPLE.grid.map((row, r) => row.map((cell, c) => (c === 9 ? (r === 0 ? "+/- (=1+1)" : "") : c === 1 && r > 0 ? "=1+1 mix" : cell))) });
    const seen = await lookAtSelection();
    await joinLog(seen, wish(answers(SIMPLE)));
    const headings = grid.read("Join", "F5:F15");
    expect(headings.formulas).toEqual(headings.values);
    expect(headings.values.flat()).toContain('"+/- (=1+1)"');
    expect(foodsOfLog(seen.grid, seen.found, answers(SIMPLE)).unknown).toEqual([]);
  });

  test("leaves nothing when it is stopped on the way, wherever that is", async () => {
    put(withTitle);
    const seen = await lookAtSelection();
    const before = everything();
    let stopped = 0;
    for (let after = 0; ; after += 1) {
      let asked = 0;
      const signal = { get aborted() { return (asked += 1) > after; } } as AbortSignal;
      const outcome = await joinLog(seen, wish(answers(withTitle)), signal).then(() => "joined", (error: Error) => error.message);
      if (outcome === "joined") break;
      expect(outcome).toBe("Stopped. Nothing was added.");
      expect(everything()).toEqual(before);
      stopped += 1;
    }
    expect(stopped).toBe(6);
  });

  test.each(["Algal_join_1_balance", "Algal_join_1_log", "Algal_join_1_added"])("leaves nothing when Excel refuses the name %s", async (name) => {
    put(withTitle);
    const seen = await lookAtSelection();
    const before = everything();
    const add = grid.names.add.bind(grid.names);
    const refusing = jest.spyOn(grid.names, "add").mockImplementation((given) => {
      if (given.name === name) throw new Error("refused");
      return add(given);
    });
    await expect(joinLog(seen, wish(answers(withTitle)))).rejects.toThrow("nothing was kept of it");
    refusing.mockRestore();
    expect(everything()).toEqual(before);
  });

  test("says that the sheet was changed since it was looked at", async () => {
    put(withTitle);
    const seen = await lookAtSelection();
    grid.put("Mine", "B3", "Harvest [g]");
    await expect(joinLog(seen, wish(answers(withTitle)))).rejects.toThrow("changed since");
  });

  test("a second log of the workbook gets sheets and names of its own", async () => {
    put(withTitle);
    await joinLog(await lookAtSelection(), wish(answers(withTitle)));
    SIMPLE.grid.forEach((row, r) => row.forEach((cell, c) => cell !== "" && grid.put("Other", cellAddress(r, c), cell)));
    grid.select("Other", "B4");
    const { sheets } = await joinLog(await lookAtSelection(), wish(answers(SIMPLE)));
    expect(sheets).toEqual(["Join 2", "Balance 2", "Charts 2", "Foods 2"]);
    expect((await listJoins()).map(({ joined }) => joined.record.id)).toEqual([1, 2]);
    await removeJoin(1, false);
    expect(grid.sheetNames()).toEqual(["Mine", "Other", "Join 2", "Balance 2", "Charts 2", "Foods 2"]);
  });
});

describe("a table", () => {
  const table = async (): Promise<Look> => {
    put({ ...SIMPLE, selected: { row: 3, column: 2 } });
    await Excel.run(async (context) => {
      context.workbook.worksheets.getItem("Mine").tables.add("A1:K21", true).name = "Diary";
      await context.sync();
    });
    return lookAtSelection();
  };

  test("grows by columns with a formula in each row, and shrinks again", async () => {
    const seen = await table();
    const before = everything();
    const { at, sheets } = await joinLog(seen, wish(answers(SIMPLE)));
    expect([seen.table, at, sheets[4]]).toEqual(["Diary", "Diary", "Rows"]);
    expect(grid.state.current().tables.find(({ name }) => name === "Diary")?.ref).toBe("A1:P21");
    expect(grid.sheets.byName("Mine").cells.get("L5")?.formula).toContain("INDEX(Rows!$B$5:");
    const values = (await calculatedGrid(engine(), grid)).get("Mine")?.values;
    const read = worksheetFunctions.get("LOG_ROWS") as (...args: unknown[]) => unknown[][];
    read(SIMPLE.grid, [["Volume (L)", 265]], null, null, null, null).slice(1).forEach((row, r) => row.forEach((cell, c) => expect(values?.get(cellAddress(r + 1, 11 + c)) ?? "").toEqual(cell)));
    await removeJoin(1, false);
    expect(everything()).toEqual(before);
  });

  test("is not widened over what stands beside it", async () => {
    const seen = await table();
    grid.put("Mine", "N7", "mine");
    const before = everything();
    await expect(joinLog(seen, wish(answers(SIMPLE)))).rejects.toThrow("Mine!N7 is in the way");
    expect(everything()).toEqual(before);
  });
});

describe("reading again", () => {
  test("takes rows that were added, in one call, and keeps the sheets with what was typed on them", async () => {
    put(withTitle);
    await joinLog(await lookAtSelection(), wish(answers(withTitle)));
    grid.put("Join", "B13", 0.1);
    // A meaning put right on the sheet stays right.
    grid.put("Join", "G10", "");
    for (let day = 18; day < 900; day += 1) {
      grid.put("Mine", cellAddress(day + 3, 0), 46000 + day);
      grid.put("Mine", cellAddress(day + 3, 1), 5);
    }
    const { look, known } = await lookAgain(1);
    expect(known).toEqual(["Date", "Feed (g)", "NO3-N (mg/L)", "PO4-P (ug/L)", "Harvest (g)", null]);
    const { rows, at } = await readAgain(1, { meanings: known.map((one) => one ?? null), dateOrder: null });
    expect([rows, at, look.found.bottom]).toEqual([900, "Mine!H3", 902]);
    expect(grid.sheets.byName("Mine").cells.get("H3")?.formula).toContain("Mine!$A$1:$F$1403");
    expect(grid.sheets.byName("Balance").cells.get("A10")?.formula).toContain("Mine!$A$1:$F$1403");
    expect(grid.sheets.byName("Join").cells.get("B13")?.value).toBe(0.1);
    expect(grid.names.list().filter(({ name }) => name.startsWith("Algal_join_1_")).length).toBe(6);
  });

  test("says which columns were not there before, and reads them when they are answered", async () => {
    put(withTitle);
    await joinLog(await lookAtSelection(), wish(answers(withTitle)));
    await removeJoin(1, true);
    expect(grid.sheetNames()).toContain("Balance");
    await joinLog(await lookAtSelection(), { ...wish(answers(withTitle)), setUp: {} });
    const { id } = (await listJoins())[0]?.joined.record ?? { id: 0 };
    grid.put("Mine", "D3", "Nitrite");
    const { known } = await lookAgain(id);
    expect(known[3]).toBeUndefined();
    await readAgain(id, { meanings: known.map((one, place) => (place === 3 ? "NO2 (mg/L)" : (one ?? null))), dateOrder: null });
    expect(grid.sheets.byName("Join 2").cells.get("G8")?.value).toBe("NO2 (mg/L)");
  });

  test("changes nothing when a cell is in the way by then", async () => {
    put(withTitle);
    await joinLog(await lookAtSelection(), wish(answers(withTitle)));
    for (let row = 21; row < 30; row += 1) grid.put("Mine", `A${row + 1}`, 46000 + row);
    grid.put("Mine", "J25", "mine");
    const before = everything();
    // What stands where a column was added belongs to the added cells: Excel shows #SPILL!, and taking back leaves it.
    await removeJoin(1, false).then((left) => expect(left).toBe("Mine!J25"));
    expect(everything()).not.toEqual(before);
    expect(grid.sheets.byName("Mine").cells.get("J25")?.value).toBe("mine");
    await expect(joinLog(await lookAtSelection(), wish(answers(withTitle)))).rejects.toThrow("Mine!J25 is in the way");
  });

  test("says so when the sheets of the join are gone", async () => {
    put(withTitle);
    await joinLog(await lookAtSelection(), wish(answers(withTitle)));
    grid.removeSheet("Charts");
    await expect(lookAgain(1)).rejects.toThrow("deleted");
  });
});
