import { installExcel } from "../../src/host/excel/install";
import { codeOf } from "./batch";
import { MemoryGrid } from "./memory-grid";

let grid: MemoryGrid;
let uninstall: () => void;

beforeEach(() => {
  grid = new MemoryGrid(["Log", "My lists"]);
  uninstall = installExcel(grid);
});
afterEach(() => uninstall());

const log = (context: Excel.RequestContext) => context.workbook.worksheets.getItem("Log");

describe("data validation", () => {
  it("keeps a list with its alert and prompt, a range as the formula of its cells", async () => {
    await Excel.run(async (context) => {
      const { dataValidation } = log(context).getRange("C2:C40");
      dataValidation.rule = { list: { inCellDropDown: true, source: context.workbook.worksheets.getItem("My lists").getRange("A1:A9") } };
      dataValidation.errorAlert = { message: "Choose a food of the list.", showAlert: true, style: "Stop", title: "Food" };
      dataValidation.prompt = { message: "Choose a food.", showPrompt: true, title: "Food" };
      dataValidation.ignoreBlanks = false;
      const cell = log(context).getRange("C7").dataValidation;
      cell.load("rule, type, errorAlert, prompt, ignoreBlanks");
      await context.sync();
      expect([cell.rule, cell.type, cell.errorAlert?.message, cell.prompt?.message, cell.ignoreBlanks]).toEqual([
        { list: { inCellDropDown: true, source: "='My lists'!$A$1:$A$9" } },
        "List",
        "Choose a food of the list.",
        "Choose a food.",
        false,
      ]);
    });
  });

  it("is cut where another rule or none comes in", async () => {
    await Excel.run(async (context) => {
      log(context).getRange("C2:C10").dataValidation.rule = { list: { inCellDropDown: true, source: "a,b" } };
      log(context).getRange("C4:D5").dataValidation.rule = { decimal: { formula1: 0, formula2: 9, operator: "Between" } };
      log(context).getRange("C9").dataValidation.clear();
      const kinds = ["C3", "C4", "D5", "C9", "C10", "C3:C4", "E1"].map((address) => log(context).getRange(address).dataValidation);
      for (const kind of kinds) kind.load("type");
      await context.sync();
      expect(kinds.map(({ type }) => type)).toEqual(["List", "Decimal", "Decimal", "None", "List", "Inconsistent", "None"]);
    });
    expect(grid.state.current().validations.map(({ ref }) => ref)).toEqual(["C2:C3", "C6:C8", "C10", "C4:D5"]);
  });

  it("refuses a rule of no kind, and an alert without a rule", async () => {
    expect(await codeOf(async (context) => (log(context).getRange("A1").dataValidation.rule = {}))).toBe("InvalidArgument");
    expect(await codeOf(async (context) => (log(context).getRange("A1").dataValidation.ignoreBlanks = true))).toBe("InvalidArgument");
  });
});

describe("conditional formats", () => {
  /** One with a formula on B2:B20 and, added after it and so before it, one for a text on B2:C20. */
  async function addTwo(): Promise<void> {
    await Excel.run(async (context) => {
      const custom = log(context).getRange("B2:B20").conditionalFormats.add("Custom");
      custom.custom.rule.formula = "=$B2>0.1";
      custom.custom.format.fill.color = "#FDE7E9";
      custom.custom.format.font.color = "#A4262C";
      custom.custom.format.font.bold = true;
      const text = log(context).getRange("B2:C20").conditionalFormats.add("ContainsText");
      text.textComparison.rule = { operator: "BeginsWith", text: "Watch" };
      text.textComparison.format.font.color = "#8A6100";
      text.stopIfTrue = true;
    });
  }

  it("keep their rules and looks, the newest first", async () => {
    await addTwo();
    await Excel.run(async (context) => {
      const { conditionalFormats } = log(context).getRange("B3");
      conditionalFormats.load("items/type, items/stopIfTrue");
      await context.sync();
      expect(conditionalFormats.items.map(({ stopIfTrue, type }) => [type, stopIfTrue])).toEqual([["ContainsText", true], ["Custom", false]]);
      const [text, custom] = conditionalFormats.items as [Excel.ConditionalFormat, Excel.ConditionalFormat];
      text.textComparison.load("rule");
      custom.custom.rule.load("formula");
      custom.custom.format.fill.load("color");
      const range = custom.getRange().load("address");
      await context.sync();
      expect([text.textComparison.rule, custom.custom.rule.formula, custom.custom.format.fill.color, range.address]).toEqual([{ operator: "BeginsWith", text: "Watch" }, "=$B2>0.1", "#FDE7E9", "Log!B2:B20"]);
    });
  });

  it("are cleared from a part of their range, and the rest keeps the cell that its formula is seen from", async () => {
    await addTwo();
    await Excel.run(async (context) => log(context).getRange("B2:B5").conditionalFormats.clearAll());
    expect(grid.state.current().conditionalFormats.map(({ ref, seenFrom, type }) => [type, ref, seenFrom])).toEqual([
      ["ContainsText", "B6:C20", "B2"],
      ["ContainsText", "C2:C5", "B2"],
      ["Custom", "B6:B20", "B2"],
    ]);
    expect(new Set(grid.state.current().conditionalFormats.map(({ id }) => id)).size).toBe(3);
  });

  it("are deleted one by one, and go with the formats of their cells", async () => {
    await addTwo();
    await Excel.run(async (context) => {
      log(context).getRange("B2").conditionalFormats.getItemAt(0).delete();
      const count = log(context).getRange("B2").conditionalFormats.getCount();
      log(context).getRange("B:B").clear("Formats");
      const after = log(context).getRange("B2").conditionalFormats.getCount();
      await context.sync();
      expect([count.value, after.value]).toEqual([1, 0]);
    });
  });

  it("are refused in kinds that the local host lacks", async () => {
    expect(await codeOf(async (context) => log(context).getRange("A1").conditionalFormats.add("ColorScale"))).toBe("NotImplemented");
  });
});
