import { FluentProvider, webLightTheme } from "@fluentui/react-components";
import type { ReactElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import Functions from "../../src/pane/functions/functions";
import { Problems } from "../../src/pane/problems/problems";
import { Start } from "../../src/pane/start/start";
import { pane } from "../../src/words/pane";

/** The text of a screen, tags out, one blank between words. */
function textOf(screen: ReactElement): string {
  const html = renderToStaticMarkup(<FluentProvider theme={webLightTheme}>{screen}</FluentProvider>);
  return html
    .replace(/<style.*?<\/style>/gs, "")
    .replace(/<[^>]+>/g, " ")
    .replace(/&#x27;/g, "'")
    .replace(/&quot;/g, '"')
    .replace(/&lt;/g, "<")
    .replace(/&gt;/g, ">")
    .replace(/&amp;/g, "&")
    .replace(/\s+/g, " ");
}

const headings = (screen: ReactElement): string[] =>
  [...renderToStaticMarkup(<FluentProvider theme={webLightTheme}>{screen}</FluentProvider>).matchAll(/<h([1-6])/g)].map(([, level]) => level ?? "");

const problem = (row: number) => ({ address: `Log!B${row}`, origin: `Log!B${row}`, functionName: "ALGAL.LIGHT_DAILY", sentence: `Row ${row} is wrong.` });

describe("Start", () => {
  it("gives three choices and a sample before anything else, then the formula in three steps", () => {
    const text = textOf(<Start formulas={{}} onSize={() => undefined} onBudget={() => undefined} />);
    const order = ["What now?", "Choose one.", "You keep a log already", "Join the log on your sheet", "You begin a log", "Insert the weekly sheets", "You have no screen yet", "Size a screen", "You are just looking", "Add a sample to play with", "Or type the formula yourself", "1 Log", "2 Type one formula", "3 Read the verdict", "Before you touch the unit", "Privacy"];
    const places = order.map((words) => text.indexOf(words));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places[0]).toBe(1);
  });

  it("shows formulas for any workbook while the open one has no budget, and says what to put in", () => {
    const text = textOf(<Start formulas={{}} onSize={() => undefined} onBudget={() => undefined} />);
    expect(text).toContain("=ALGAL.BUDGET_N(log, set-up)");
    expect(text).toContain("=ALGAL.BUDGET_P(log, set-up)");
    expect(text).toContain("In place of log, select your log with its heading row");
  });

  it("shows the formulas of the open workbook and where they stand", () => {
    const text = textOf(<Start formulas={{ N: { formula: "=ALGAL.BUDGET_N(Log!A1:H9,T!A1:B9)", sheet: "Nitrogen" }, P: { formula: "=ALGAL.BUDGET_P(Log!A1:H9,T!A1:B9)", sheet: "Phosphorus" } }} onSize={() => undefined} onBudget={() => undefined} />);
    expect(text).toContain("=ALGAL.BUDGET_N(Log!A1:H9, T!A1:B9)");
    expect(text).toContain("As in this workbook, on the sheets Nitrogen and Phosphorus.");
    expect(text).not.toContain("In place of log");
  });

  it("keeps the formula's own text whole for the copy", () => {
    const html = renderToStaticMarkup(<Start formulas={{ N: { formula: "=ALGAL.BUDGET_N(Log!A1:H9,'A, b'!A1:B9)", sheet: "N" } }} onSize={() => undefined} onBudget={() => undefined} />);
    const code = /<code[^>]*>(.*?)<\/code>/s.exec(html)?.[1] ?? "";
    expect(code.replace(/<[^>]+>/g, "").replace(/&#x27;/g, "'")).toBe("=ALGAL.BUDGET_N(Log!A1:H9,'A, b'!A1:B9)");
  });

  it.each(["residual-current device", "drip loops", "licensed electrician", "Lamps over water", "Gloves on, hands washed", "poisonous", "Change nutrients slowly", "not a diagnosis", "public aquarium", "not food for people", "nothing is sent"])(
    "says: %s",
    (caution) => {
      expect(textOf(<Start formulas={{}} onSize={() => undefined} onBudget={() => undefined} />)).toContain(caution);
    },
  );
});

describe("Problems", () => {
  it("says in words that every formula has an answer", () => {
    expect(textOf(<Problems shown={{ list: [], checked: true }} />)).toContain("Every ALGAL formula that was calculated has its answer.");
  });

  it("lists cell, function and sentence as one button each", () => {
    const html = renderToStaticMarkup(<Problems shown={{ list: [problem(7), problem(8)], checked: true }} />);
    expect(html.match(/<li/g)).toHaveLength(2);
    expect(textOf(<Problems shown={{ list: [problem(7)], checked: true }} />)).toContain("Log!B7 ALGAL.LIGHT_DAILY Row 7 is wrong.");
  });

  it("shows a hundred at once and offers the rest", () => {
    const list = Array.from({ length: 250 }, (_problem, row) => problem(row + 1));
    const html = renderToStaticMarkup(<Problems shown={{ list, checked: true }} />);
    expect(html.match(/<li/g)).toHaveLength(100);
    expect(html).toContain("Show more (100 of 250 shown)");
  });

  it("says when the cells could not be read", () => {
    expect(textOf(<Problems shown={{ list: [problem(7)], checked: false }} />)).toContain("may hold some that are solved");
  });
});

describe("headings", () => {
  it.each<[string, ReactElement]>([
    ["Start", <Start formulas={{}} onSize={() => undefined} onBudget={() => undefined} />],
    ["Problems", <Problems shown={{ list: [problem(7)], checked: true }} />],
    ["Functions", <Functions />],
  ])("begin at level 2 and skip no level on %s", (_name, screen) => {
    const levels = headings(screen).map(Number);
    expect(levels[0]).toBe(2);
    expect(levels.every((level, place) => place === 0 || (level > 2 && level - (levels[place - 1] ?? 0) <= 1))).toBe(true);
  });
});

it("counts cells in words for a screen reader", () => {
  expect([0, 1, 2].map(pane.problems.count)).toEqual(["No problems.", "1 cell with a problem.", "2 cells with a problem."]);
});
