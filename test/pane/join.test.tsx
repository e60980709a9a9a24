import { FluentProvider, webLightTheme } from "@fluentui/react-components";
import type { ReactElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { answeredFoods, answeredColumns, type Answers, fieldsFor, firstAnswers, foodsToAsk, openQuestions, readSetUp, THE_FOOD } from "../../src/pane/join/answers";
import { FoodQuestions } from "../../src/pane/join/food-questions";
import { Questions } from "../../src/pane/join/questions";
import { Settled } from "../../src/pane/join/settled";
import { SetUpBoxes } from "../../src/pane/join/set-up-boxes";
import { UnderstoodRows } from "../../src/pane/join/understood-rows";
import type { Look } from "../../src/workbook/join/look";
import { findLog } from "../../src/workbook/join/recognise/find-log";
import { proposeColumns } from "../../src/workbook/join/recognise/propose";

/** The text of a screen, tags out, one blank between words. */
const textOf = (screen: ReactElement): string =>
  renderToStaticMarkup(<FluentProvider theme={webLightTheme}>{screen}</FluentProvider>)
    .replace(/<style.*?<\/style>/gs, "")
    .replace(/<[^>]+>/g, " ")
    .replace(/&quot;/g, '"')
    .replace(/&#x27;/g, "'")
    .replace(/\s+/g, " ");

const HEADINGS = ["Date", "Feed (g)", "Nitrate", "Algae (g)", "Remarks"];
function lookAt(grid: readonly (readonly unknown[])[], calendarOffset = 0): Look {
  const found = findLog(grid, { row: 1, column: 0 });
  if ("reason" in found) throw new Error(found.reason);
  return { sheet: "Mine", grid, formulas: grid, table: null, found, columns: proposeColumns(grid, found), calendarOffset };
}
const doubtful = lookAt([HEADINGS, [46000, 3, 10, "", "fine"], [46001, 3, "<5", 120, ""], [46002, "3 or so", 12, "", ""]]);
const answered = (look: Look, meanings: readonly (string | null | undefined)[], more: Partial<Answers> = {}): Answers => ({ ...firstAnswers(look, null), meanings, ...more });

describe("questions", () => {
  it("asks for the form of nitrate, which nothing of the sheet says, and for nothing that is sure", () => {
    const answers = firstAnswers(doubtful, null);
    expect(answers.meanings).toEqual(["Date", "Feed (g)", undefined, "Harvest (g)", null]);
    expect(openQuestions(answers)).toBe(1);
    const text = textOf(<Questions look={doubtful} answers={answers} onMeaning={() => {}} onDateOrder={() => {}} />);
    expect(text).toContain('1 column needs your answer. What is "Nitrate"?');
    expect(text).toContain("Choose ... NO3 (mg/L) NO3-N (mg/L)");
    expect(text).toContain("Leave it alone");
    const settled = textOf(<Settled look={doubtful} />);
    expect(settled).toContain("Feed (g) → Feed (g) (sure)");
    expect(settled).toContain("Left alone: Remarks");
    expect(settled).not.toContain("Nitrate");
  });

  it("does not ask again what an earlier look has answered", () => {
    const answers = firstAnswers(doubtful, { known: ["Date", "Feed (g)", "NO3-N (mg/L)", null, undefined], dateOrder: null });
    expect(answers.meanings).toEqual(["Date", "Feed (g)", "NO3-N (mg/L)", null, null]);
    expect(openQuestions(answers)).toBe(0);
  });

  it("asks for the order of dates in text when no day is above 12, and takes it from the sheet when it stands there", () => {
    const look = lookAt([["Date", "Feed (g)"], ["3/4/2026", 3], ["4/4/2026", 3], ["5/4/2026", 3]]);
    const answers = firstAnswers(look, null);
    expect([answers.dateOrder, openQuestions(answers)]).toEqual([undefined, 1]);
    expect(textOf(<Questions look={look} answers={answers} onMeaning={() => {}} onDateOrder={() => {}} />)).toContain("In which order are the dates written?");
    expect(firstAnswers(look, { known: ["Date", "Feed (g)"], dateOrder: "mdy" }).dateOrder).toBe("mdy");
    expect(answeredColumns(look, { ...answers, dateOrder: "dmy" })[0]?.dateOrder).toBe("dmy");
  });
});

describe("rows as understood", () => {
  it("shows each figure with the unit that was answered, and what is not understood with its row", () => {
    const text = textOf(<UnderstoodRows look={doubtful} answers={answered(doubtful, ["Date", "Feed (g)", "NO3-N (mg/L)", "Harvest (g)", null])} />);
    expect(text).toContain("Row 2 Date 9 December 2025 Feed 3 g NO3-N 10 mg/L NO3-N");
    expect(text).toContain("NO3-N below 5 mg/L NO3-N Harvest 120 g");
    expect(text).toMatch(/Not understood Row 4, Feed \(g\): .*3 or so/);
  });

  it("shows the days of a workbook that counts from 1904 as they are", () => {
    const look = lookAt([HEADINGS, [46000 - 1462, 3, 10, "", ""], [46001 - 1462, 3, "", "", ""]], 1462);
    expect(textOf(<UnderstoodRows look={look} answers={answered(look, ["Date", "Feed (g)", "NO3 (mg/L)", null, null])} />)).toContain("Date 9 December 2025");
  });
});

describe("the set-up", () => {
  const meanings = ["Date", "Feed (g)", "NO3 (mg/L)", "Harvest (g)", null];
  it("asks for what the columns need", () => {
    expect(fieldsFor(answered(doubtful, meanings))).toEqual(["volume", "area", "no3"]);
    expect(fieldsFor(answered(doubtful, ["Date", "Feed (g)", "PO4-P (ug/L)", null, null]))).toEqual(["volume", "po4"]);
  });

  it("reads numbers with a comma or a point, keeps the steps of a colour chart as text, and a single step as a number", () => {
    const read = readSetUp(answered(doubtful, meanings, { setUp: { volume: "265,5", area: "0.12", no3: "0 5 10 20 40", po4: "" } }));
    expect(read).toEqual({ rows: { "Volume (L)": 265.5, "Lit area (m2)": 0.12, "NO3 kit steps": "0 5 10 20 40" }, wrong: {}, needsVolume: false });
    expect(readSetUp(answered(doubtful, meanings, { setUp: { volume: "1", area: "", no3: "0.5", po4: "" } })).rows["NO3 kit steps"]).toBe(0.5);
  });

  it.each([["0", "above 0"], ["-3", "above 0"], ["much", "much"]])("says at the box that %s is no volume, and needs it", (volume, sentence) => {
    const answers = answered(doubtful, meanings, { setUp: { volume, area: "", no3: "", po4: "" } });
    const read = readSetUp(answers);
    expect(read.needsVolume).toBe(true);
    expect(textOf(<SetUpBoxes answers={answers} read={read} onText={() => {}} />)).toContain(sentence);
  });

  it("refuses kit steps that cannot be read", () => {
    expect(readSetUp(answered(doubtful, meanings, { setUp: { volume: "1", area: "", no3: "some", po4: "" } })).wrong.no3).toMatch(/some/);
  });
});

describe("the food", () => {
  it("is asked for when the log names none, and written to the set-up", () => {
    const answers = answered(doubtful, ["Date", "Feed (g)", null, null, null]);
    const { asked, told } = foodsToAsk(doubtful, answers);
    expect([asked, told]).toEqual([[THE_FOOD], []]);
    expect(textOf(<FoodQuestions names={asked} answers={answers} onFood={() => {}} />)).toContain("What do you feed?");
    expect(answeredFoods(asked, { ...answers, foods: { [THE_FOOD]: "Mussel" } })).toEqual({ setUp: { Food: "Mussel" }, own: {} });
    expect(answeredFoods(asked, { ...answers, foods: { [THE_FOOD]: null } })).toEqual({ setUp: {}, own: {} });
  });

  it("is asked for by each name that is not in the table, in cells and in headings, once", () => {
    const look = lookAt([["Date", "Food", "Feed (g)", "Feed Granulés (g)"], [46000, "Moules du port", 3, 1], [46001, "mussel", 3, 1], [46002, "moules du  port", 3, ""]]);
    const answers = answered(look, ["Date", "Food", "Feed (g)", "Feed Granulés (g)"]);
    expect(foodsToAsk(look, answers)).toEqual({ asked: ["Moules du port", "Granulés"], told: [] });
    expect(answeredFoods(["Moules du port", "Granulés"], { ...answers, foods: { "Moules du port": "Mussel", Granulés: null } })).toEqual({ setUp: {}, own: { "Moules du port": "Mussel" } });
  });

  it("of more names than the sheet has room for, the rest is told", () => {
    const look = lookAt([["Date", "Food", "Feed (g)"], ...Array.from({ length: 20 }, (_, day) => [46000 + day, `My mix ${day}`, 3])]);
    const { asked, told } = foodsToAsk(look, answered(look, ["Date", "Food", "Feed (g)"]));
    expect([asked.length, told.length]).toEqual([15, 5]);
  });
});
