import { type ExcelPage, excelPage } from "./excel-page";
import { type Harness, startHarness, type WatchedPage } from "./harness";
import { eventually } from "./pane-checks";

let harness: Harness;
let opened: WatchedPage;
let excel: ExcelPage;

beforeAll(async () => {
  harness = await startHarness();
  opened = await harness.open("index.html");
  await opened.page.waitForFunction(() => "algalLedger" in window);
  await opened.page.evaluate(() => window.algalLedger.ready);
  excel = excelPage(opened);
}, 120_000);
afterAll(async () => harness?.close());

beforeEach(() => excel.openLog(), 60_000);

describe("ranges on the real grid", () => {
  test("say what is used, what they show and how they look", async () => {
    const seen = await excel.inPage(async (context) => {
      const sheet = context.workbook.worksheets.getItem("Log");
      const range = sheet.getRange("A2:B3");
      range.numberFormat = [["yyyy-mm-dd", "0.0"], ["yyyy-mm-dd", "0.00"]];
      range.format.font.bold = true;
      range.format.font.color = "#1A2B3C";
      range.format.fill.color = "#E0F0E0";
      range.format.wrapText = true;
      range.format.horizontalAlignment = "Right";
      sheet.getRange("B:B").format.columnWidth = 90;
      sheet.getRange("D9").format.fill.color = "#FFFFFF";
      range.load("text, numberFormat, values, format/font/bold, format/font/color, format/fill/color, format/wrapText, format/horizontalAlignment");
      const [values, all, other] = [sheet.getUsedRange(true).load("address"), sheet.getUsedRange().load("address"), context.workbook.worksheets.getItem("Other").getUsedRangeOrNullObject()];
      const column = sheet.getRange("B1").load("format/columnWidth");
      const mixed = sheet.getRange("A1:A2").load("format/font/bold");
      await context.sync();
      const { fill, font, horizontalAlignment, wrapText } = range.format;
      return [range.text, range.numberFormat, range.values, [font.bold, font.color, fill.color, wrapText, horizontalAlignment], values.address, all.address, other.isNullObject, column.format.columnWidth, mixed.format.font.bold];
    });
    expect(seen).toEqual([
      [["2025-12-09", "4.3"], ["2025-12-16", "3.50"]],
      [["yyyy-mm-dd", "0.0"], ["yyyy-mm-dd", "0.00"]],
      [[46000, 4.25], [46007, 3.5]],
      [true, "#1A2B3C", "#E0F0E0", true, "Right"],
      "Log!A1:B3",
      "Log!A1:D9",
      true,
      90,
      null,
    ]);
  });

  test("are cleared, and undo brings contents and formats back", async () => {
    const seen = await excel.inPage(async (context) => {
      const sheet = context.workbook.worksheets.getItem("Log");
      sheet.getRange("B2").numberFormat = [["0.0"]];
      sheet.getRange("B2").clear("Contents");
      sheet.getRange("B3").format.font.bold = true;
      sheet.getRange("B3").clear("Formats");
      sheet.getRange("A:A").clear();
      const range = sheet.getRange("A1:B3").load("values, numberFormat, format/font/bold");
      await context.sync();
      return [range.values, range.numberFormat[1]?.[1], range.format.font.bold];
    });
    expect(seen).toEqual([[["", "Nitrate"], ["", ""], ["", 3.5]], "0.0", false]);
    await excel.undo();
    const [values, formats] = await opened.page.evaluate(() => [window.algalLedger.port.read("Log", "A1:B3").values, window.algalLedger.port.formats.numberFormats("Log", "B2")]);
    expect([values, formats]).toEqual([[["Day", "Nitrate"], [46000, 4.25], [46007, 3.5]], [["General"]]]);
  });

  test("keep a formula that is formatted in the batch that wrote it, and its answer when the format is undone", async () => {
    await excel.inPage(async (context) => {
      const range = context.workbook.worksheets.getItem("Log").getRange("D1:E1");
      range.formulas = [["=B2*2", '=IF($B$3=3.5,SEQUENCE(2),"")']];
      range.numberFormat = [["0.0", "0.0"]];
      range.format.font.bold = true;
      await context.sync();
    });
    const seen = () => opened.page.evaluate(() => window.algalLedger.port.read("Log", "D1:E2"));
    await opened.page.waitForFunction(() => window.algalLedger.port.read("Log", "E2").values[0]?.[0] === 2);
    expect(await seen()).toEqual({ values: [[8.5, 1], ["", 2]], formulas: [["=B2*2", '=IF($B$3=3.5,SEQUENCE(2),"")'], ["", 2]] });
    await opened.page.evaluate(() => window.algalLedger.port.formats.setStyle("Log", "D1:E2", { fill: "#EEEEEE" }));
    await excel.undo();
    // What spilled comes again with the calculation that follows.
    await eventually(async () => (await seen()).values, [[8.5, 1], ["", 2]]);
    expect(await opened.page.evaluate(() => window.algalLedger.port.formats.style("Log", "D1").fill)).toBe("");
  });

  test("take a format over blank, filled and formatted cells alike, and undo and redo give each what it had", async () => {
    const formats = () => opened.page.evaluate(() => [window.algalLedger.port.formats.numberFormats("Log", "B1:C4"), window.algalLedger.port.read("Log", "B1:C4").values]);
    await excel.inPage(async (context) => {
      context.workbook.worksheets.getItem("Log").getRange("B3:C3").numberFormat = [["0.00", "0%"]];
    });
    const before = await formats();
    await excel.inPage(async (context) => {
      context.workbook.worksheets.getItem("Log").getRange("B1:C4").numberFormat = [["0.0", "0.0"], ["0.0", "General"], ["0.0", "0.0"], ["0.0", "0.0"]];
    });
    const after = await formats();
    expect(before).toEqual([[["General", "General"], ["General", "General"], ["0.00", "0%"], ["General", "General"]], [["Nitrate", ""], [4.25, ""], [3.5, ""], ["", ""]]]);
    expect(after).toEqual([[["0.0", "0.0"], ["0.0", "General"], ["0.0", "0.0"], ["0.0", "0.0"]], before[1]]);
    await excel.undo();
    expect(await formats()).toEqual(before);
    await opened.page.keyboard.press("Control+y");
    await opened.page.waitForTimeout(150);
    expect(await formats()).toEqual(after);
  });

  test("grow the rows of wrapped texts, also when their column becomes narrow, and undo gives the heights back", async () => {
    const heights = () => opened.page.evaluate(() => window.algalLedger.port.formats.rowHeights("Log", "A1:A5"));
    const plain = await heights();
    await excel.inPage(async (context) => {
      const sheet = context.workbook.worksheets.getItem("Log");
      sheet.getRange("D2").values = [["Filamentous algae, harvested and wrung out by hand"]];
      sheet.getRange("D:D").format.columnWidth = 400;
      sheet.getRange("D2:D5").format.wrapText = true;
    });
    expect(await heights()).toEqual(plain);
    await excel.inPage(async (context) => {
      context.workbook.worksheets.getItem("Log").getRange("D:D").format.columnWidth = 90;
    });
    const [first, second = 0, ...rest] = await heights();
    expect([first, ...rest]).toEqual([plain[0], ...plain.slice(2)]);
    expect(second).toBeGreaterThan(1.8 * (plain[1] ?? NaN));
    await excel.undo();
    expect(await heights()).toEqual(plain);
  });

  test("fit their columns to the longest text, and grow a sheet that is too small", async () => {
    const [narrow, wide, rows, value] = await excel.inPage(async (context) => {
      const sheet = context.workbook.worksheets.getItem("Log");
      sheet.getRange("C1:D1").values = [["a", "Filamentous algae, harvested and wrung out by hand"]];
      sheet.getRange("C:D").format.autofitColumns();
      sheet.getRange("A2000").values = [[7]];
      const [c, d, far] = [sheet.getRange("C1").load("format/columnWidth"), sheet.getRange("D1").load("format/columnWidth"), sheet.getUsedRange(true).getLastRow().load("rowIndex, values")];
      await context.sync();
      return [c.format.columnWidth, d.format.columnWidth, far.rowIndex, far.values[0]?.[0]] as number[];
    });
    expect(narrow).toBeLessThan(60);
    expect(wide).toBeGreaterThan(200);
    expect([rows, value]).toEqual([1999, 7]);
  });
});

describe("sheets on the real grid", () => {
  test("are added, renamed, moved, hidden, frozen and deleted, with the front one in front", async () => {
    const seen = await excel.inPage(async (context) => {
      const { worksheets } = context.workbook;
      const added = worksheets.add("Balance");
      added.getRange("A1").formulas = [["=Log!B2*2"]];
      added.position = 0;
      added.name = "Weekly balance";
      added.freezePanes.freezeRows(1);
      const frozen = added.freezePanes.getLocationOrNullObject().load("address");
      worksheets.getItem("Other").visibility = "Hidden";
      worksheets.load("items/name, items/visibility, items/position");
      const front = worksheets.getActiveWorksheet().load("name");
      await context.sync();
      const names = () => worksheets.items.map(({ name, visibility }) => `${name}: ${visibility}`);
      const before = names();
      worksheets.getItem("Other").visibility = "Visible";
      added.delete();
      worksheets.load("items/name, items/visibility");
      const after = worksheets.getActiveWorksheet().load("name");
      await context.sync();
      return [before, frozen.address, front.name, names(), after.name];
    });
    expect(seen).toEqual([["Weekly balance: Visible", "Log: Visible", "Other: Hidden"], "'Weekly balance'!1:1", "Log", ["Log: Visible", "Other: Visible"], "Log"]);
  });

  test("keep formulas right when they are renamed", async () => {
    await excel.inPage(async (context) => {
      const { worksheets } = context.workbook;
      worksheets.getItem("Other").getRange("A1").formulas = [["=Log!B2*2"]];
      await context.sync();
      worksheets.getItem("Log").name = "Tank log";
    });
    await excel.settled();
    expect(await opened.page.evaluate(() => window.algalLedger.port.read("Other", "A1"))).toEqual({ values: [[8.5]], formulas: [["='Tank log'!B2*2"]] });
  });
});

describe("tables and names on the real grid", () => {
  test("are known to formulas, grow with their rows and follow inserted ones", async () => {
    await excel.inPage(async (context) => {
      const sheet = context.workbook.worksheets.getItem("Log");
      const table = sheet.tables.add("A1:B3", true);
      table.name = "Readings";
      await context.sync();
      sheet.getRange("E1").formulas = [["=SUM(Readings[Nitrate])"]];
      context.workbook.worksheets.getItem("Other").getRange("A1").formulas = [["=MAX(Readings[Day])"]];
    });
    await excel.settled();
    const total = () => opened.page.evaluate(() => window.algalLedger.port.read("Log", "E1:E2").values.flat());
    expect(await total()).toEqual([7.75, ""]);
    await excel.inPage(async (context) => void context.workbook.tables.getItem("Readings").rows.add(undefined, [[46014, 2]]));
    await excel.settled();
    expect(await total()).toEqual([9.75, ""]);
    expect(await opened.page.evaluate(() => window.algalLedger.port.read("Other", "A1").values)).toEqual([[46014]]);
    await excel.inPage(async (context) => {
      context.workbook.worksheets.getItem("Log").getRange("B1").values = [["NO3"]];
      context.workbook.worksheets.getItem("Log").getRange("E2").formulas = [["=SUM(Readings[NO3])"]];
    });
    await excel.settled();
    expect((await total())[1]).toBe(9.75);
    // A row above, put in by the grid's own menu for the row heads.
    await opened.page.locator("#grid canvas[id^=univer-sheet-main-canvas]").first().click({ position: { x: 20, y: 30 }, button: "right" });
    await opened.page.locator("button", { hasText: "rows above" }).first().click({ position: { x: 16, y: 12 } });
    await excel.settled();
    expect(await opened.page.evaluate(() => window.algalLedger.port.state.current().tables[0]?.ref)).toBe("A2:B5");
    await excel.undo();
    expect(await opened.page.evaluate(() => window.algalLedger.port.state.current().tables[0]?.ref)).toBe("A1:B4");
  });

  test("names stand in formulas, for ranges and for numbers, and are gone when deleted", async () => {
    await excel.inPage(async (context) => {
      const { names, worksheets } = context.workbook;
      names.add("Readings", worksheets.getItem("Log").getRange("B2:B3"), "mg/L");
      names.add("Share", "=0.5");
      await context.sync();
      worksheets.getItem("Log").getRange("E1").formulas = [["=SUM(Readings)*Share"]];
    });
    await excel.settled();
    const seen = await excel.inPage(async (context) => {
      const { names, worksheets } = context.workbook;
      const cell = worksheets.getItem("Log").getRange("E1").load("values");
      names.load("items/name, items/type, items/comment");
      await context.sync();
      const known = names.items.map(({ comment, name, type }) => [name, type, comment]);
      names.getItem("Share").delete();
      const count = names.getCount();
      await context.sync();
      return [cell.values[0]?.[0], known, count.value];
    });
    expect(seen).toEqual([3.875, [["Readings", "Range", "mg/L"], ["Share", "Double", ""]], 1]);
  });
});

describe("conditional formats on the real grid", () => {
  test("colour cells by a formula and by a text, follow new values, and go when cleared", async () => {
    await excel.inPage(async (context) => {
      const sheet = context.workbook.worksheets.getItem("Log");
      sheet.getRange("C2:C3").values = [["Watch it"], ["fine"]];
      const high = sheet.getRange("B2:B3").conditionalFormats.add("Custom");
      high.custom.rule.formula = "=$B2>4";
      high.custom.format.fill.color = "#FDE7E9";
      const text = sheet.getRange("C:C").conditionalFormats.add("ContainsText");
      text.textComparison.rule = { operator: "BeginsWith", text: "watch" };
      text.textComparison.format.fill.color = "#FFF4CE";
      sheet.getRange("H20").select();
    });
    await excel.settled();
    const cells = ["B2", "B3", "C2", "C3"];
    expect(await excel.fills(cells)).toEqual(["#FDE7E9", "none", "#FFF4CE", "none"]);
    await excel.inPage(async (context) => {
      context.workbook.worksheets.getItem("Log").getRange("B2:B3").values = [[1], [9]];
    });
    await excel.settled();
    expect(await excel.fills(cells)).toEqual(["none", "#FDE7E9", "#FFF4CE", "none"]);
    await excel.inPage(async (context) => context.workbook.worksheets.getItem("Log").getRange().conditionalFormats.clearAll());
    await excel.settled();
    expect(await excel.fills(cells)).toEqual(["none", "none", "none", "none"]);
  });

  test("look from each cell, from its row or its column as the formula says, and at texts that a formula filled in", async () => {
    const rule = (address: string, formula: string, fill: string) =>
      opened.page.evaluate(
        ([range, text, color]) =>
          Excel.run(async (context) => {
            const { custom } = context.workbook.worksheets.getItem("Log").getRange(range).conditionalFormats.add("Custom");
            custom.rule.formula = text;
            custom.format.fill.color = color;
            await context.sync();
          }),
        [address, formula, fill] as const,
      );
    await excel.inPage(async (context) => {
      const sheet = context.workbook.worksheets.getItem("Log");
      sheet.getRange("A6:C8").values = [[1, 2, 3], [3, 1, 2], [1, 1, 3]];
      sheet.getRange("D6").formulas = [['=IF(SEQUENCE(3)=2,"Note: this","fine")']];
      const text = sheet.getRange("D6:D8").conditionalFormats.add("ContainsText");
      text.textComparison.rule = { operator: "BeginsWith", text: "note" };
      text.textComparison.format.fill.color = "#FFF4CE";
      sheet.getRange("H20").select();
    });
    const cells = ["A6", "B6", "C6", "A7", "B7", "C7", "A8", "B8", "C8"];
    const seen = async (address: string, formula: string): Promise<string> => {
      await rule(address, formula, "#FDE7E9");
      await excel.settled();
      const fills = await excel.fills(cells);
      await excel.inPage(async (context) => context.workbook.worksheets.getItem("Log").getRange("A6:C8").conditionalFormats.clearAll());
      await excel.settled();
      return fills.map((fill) => (fill === "#FDE7E9" ? "x" : fill === "none" ? "." : fill)).join("");
    };
    expect(await seen("A6:C8", "=A6>2")).toBe("..xx....x");
    expect(await seen("A6:C8", "=$A6>2")).toBe("...xxx...");
    expect(await seen("A6:C8", "=A$7>2")).toBe("x..x..x..");
    expect(await seen("A6:C8", "=$B$6=2")).toBe("xxxxxxxxx");
    expect(await seen("B7:C8", "=B6>1")).toBe("....xx..x");
    expect(await excel.fills(["D6", "D7", "D8"])).toEqual(["none", "#FFF4CE", "none"]);
  }, 60_000);
});

describe("what the grid keeps for the file and the page", () => {
  test("stands after the batch, can be undone, and belongs to the open workbook", async () => {
    await excel.inPage(async (context) => {
      const sheet = context.workbook.worksheets.getItem("Log");
      sheet.pageLayout.orientation = "Landscape";
      context.workbook.customXmlParts.add('<a xmlns="urn:a"/>');
      sheet.getRange("B2:B3").dataValidation.rule = { decimal: { formula1: 0, operator: "GreaterThanOrEqualTo" } };
      sheet.charts.add("XYScatterLines", sheet.getRange("A1:B3")).title.text = "Nitrate";
    });
    const state = () => opened.page.evaluate(() => window.algalLedger.port.state.current());
    const { charts, pages, validations, xmlParts } = await state();
    expect([charts.map(({ series, title }) => [title, series[0]?.values?.ref]), Object.values(pages), validations.map(({ ref }) => ref), xmlParts.length]).toEqual([[["Nitrate", "B2:B3"]], [{ orientation: "Landscape" }], ["B2:B3"], 1]);
    await excel.undo();
    const undone = await state();
    expect([undone.charts, undone.pages, undone.validations, undone.xmlParts]).toEqual([[], {}, [], []]);
    await opened.page.evaluate(() => window.algalLedger.open({ sheets: [{ name: "Empty", cells: new Map() }], names: [], date1904: false }, ""));
    expect((await state()).xmlParts).toEqual([]);
  });
});

describe("events of the real grid", () => {
  test("say where something was written, and what came to the front", async () => {
    const heard = await excel.inPage(async (context) => {
      const seen: string[] = [];
      const { worksheets } = context.workbook;
      const [log, other] = [worksheets.getItem("Log").load("id"), worksheets.getItem("Other").load("id")];
      worksheets.onChanged.add(async ({ address, worksheetId }) => seen.push(`changed ${worksheetId === log.id ? "Log" : worksheetId} ${address}`));
      worksheets.onActivated.add(async ({ worksheetId }) => seen.push(`in front ${worksheetId === other.id ? "Other" : worksheetId}`));
      await context.sync();
      log.getRange("B2:C2").values = [[1, 2]];
      log.getRange("B2").format.font.bold = true;
      other.activate();
      await context.sync();
      await new Promise((resolve) => setTimeout(resolve, 500));
      return seen;
    });
    expect(heard.sort()).toEqual(["changed Log B2:C2", "in front Other"]);
  });
});

test("all of it without an error on the page", () => {
  expect([opened.errors, opened.outside]).toEqual([[], []]);
});
