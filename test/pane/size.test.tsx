import { FluentProvider, webLightTheme } from "@fluentui/react-components";
import { renderToStaticMarkup } from "react-dom/server";
import { picturePoints } from "./picture-points";
import { planTexts } from "../../src/pane/size/plan-texts";
import { pictureShape, ticks } from "../../src/pane/size/picture-shape";
import { problemCount, readForm } from "../../src/pane/size/read-form";
import { Size } from "../../src/pane/size/size";
import { EMPTY_FORM, type FieldName, foodRows, shownText, type SizeAction, type SizeForm, sizeReducer } from "../../src/pane/size/size-form";
import { areaUnit, fromMetric, plain, toMetric } from "../../src/pane/size/units";
import { planScreen } from "../../src/science/sizing-plan";

const after = (...actions: SizeAction[]): SizeForm => actions.reduce(sizeReducer, EMPTY_FORM);
const type = (field: FieldName, text: string): SizeAction => ({ type: "field", field, text });
const wishOf = (form: SizeForm) => {
  const { wish } = readForm(form);
  if (!wish) throw new Error("no wish");
  return wish;
};

describe("units", () => {
  it.each([
    ["volume", 1, 3.785411784],
    ["mass", 1, 28.349523125],
    ["length", 1, 2.54],
    ["temperature", 77, 25],
    ["none", 5, 5],
  ] as const)("%s: %d in US units is %d in metric ones, and back", (dimension, us, metric) => {
    expect(toMetric(us, dimension, "us")).toBeCloseTo(metric, 12);
    expect(fromMetric(metric, dimension, "us")).toBeCloseTo(us, 12);
    expect([toMetric(us, dimension, "metric"), fromMetric(us, dimension, "metric")]).toEqual([us, us]);
  });

  it.each([[0.09, "metric", "cm2", 900], [0.1, "metric", "m2", 0.1], [0.09, "us", "in2", 139.5], [0.1, "us", "ft2", 1.076]] as const)("%d m2 is told in %s units in %s", (m2, units, name, figure) => {
    const unit = areaUnit(m2, units);
    expect([unit.name, Number(plain(m2 * unit.perM2, 4))]).toEqual([name, figure]);
  });

  it.each([[0, "0"], [0.0000931, "0.000093"], [12.6, "13"], [1234, "1200"], [0.5, "0.5"], [99.9, "100"]])("writes %d as %s", (value, text) => expect(plain(value, 2)).toBe(text));
});

describe("the form", () => {
  it("begins with usual values of the water, and another water brings its own", () => {
    expect([shownText(EMPTY_FORM, "no3"), shownText(EMPTY_FORM, "temperature")]).toEqual(["5", "25"]);
    const fresh = after({ type: "water", water: "fresh" });
    expect([shownText(fresh, "no3"), shownText(fresh, "temperature"), foodRows(fresh).map(({ name }) => name)]).toEqual(["20", "24", ["Dry pellets or flakes"]]);
  });

  it("keeps what was typed when the water changes, a cleared box too", () => {
    const form = after(type("no3", "8"), type("po4", ""), { type: "amount", id: 0, text: "4" }, { type: "water", water: "fresh" });
    expect([shownText(form, "no3"), shownText(form, "po4"), shownText(form, "temperature")]).toEqual(["8", "", "24"]);
    expect(foodRows(form).map(({ name, amount }) => [name, amount.text])).toEqual([["Mysids, frozen", "4"], ["Brine shrimp, adult, frozen", "2"]]);
  });

  it("shows a figure in other units, calculates with what was typed, and gives it back unchanged", () => {
    const gallons = after({ type: "units", units: "us" }, type("volume", "50"));
    expect(wishOf(gallons).volumeL).toBeCloseTo(50 * 3.785411784, 9);
    const litres = sizeReducer(gallons, { type: "units", units: "metric" });
    expect([shownText(litres, "volume"), wishOf(litres).volumeL]).toEqual(["189.3", wishOf(gallons).volumeL]);
    expect(shownText(sizeReducer(litres, { type: "units", units: "us" }), "volume")).toBe("50");
    expect(shownText(after({ type: "units", units: "us" }), "temperature")).toBe("77");
  });

  it("adds a food that is not there yet, and takes one away", () => {
    const form = after({ type: "add" }, { type: "amount", id: 2, text: "1.5" }, { type: "remove", id: 0 });
    expect(foodRows(form).map(({ name, amount }) => [name, amount.text])).toEqual([["Brine shrimp, adult, frozen", "2"], ["Shrimp, untreated", "1.5"]]);
  });

  it("becomes a wish: per cent to shares, an empty target to none, foods without an amount out", () => {
    const wish = wishOf(after(type("changed", "0"), type("no3", ""), type("retained", "12"), { type: "amount", id: 1, text: "0" }, { type: "sides", sides: 1 }, { type: "setting", setting: "strong" }));
    expect(wish).toMatchObject({ changedShareAWeek: 0, targetNO3MgPerL: null, targetPO4MgPerL: 0.1, retainedShare: 0.12, litSides: 1, setting: "strong", volumeL: 200 });
    expect(wish.foods.map(({ food, gPerDay }) => [food.name, gPerDay])).toEqual([["Mysids, frozen", 3]]);
  });

  it.each<[FieldName, string, string]>([
    ["volume", "", "Water volume is empty: write a number, such as 200."],
    ["volume", "0", "Water volume should be more than 0."],
    ["volume", "two", 'Water volume should be a number, and "two" is not one.'],
    ["volume", "1,234", '"1,234" can mean two numbers: write it with a decimal point, or without the thousands sign.'],
    ["temperature", "50", "Temperature should be between 5 and 35 degrees C, and is 50."],
    ["hours", "25", "Hours lit a day should be between 0 and 24 h, and is 25."],
    ["no3", "0", "Nitrate wanted should be more than 0."],
    ["no3", "", "Nitrate wanted is needed to count the water changes: write the reading that you want to keep."],
    ["retained", "-1", "Kept by growth should be between 0 and 90 %, and is -1."],
    ["light", "2500", "This light and these hours make 126 mol m-2 d-1, and full summer sun gives less than 80. Check both."],
  ])("refuses %s %j with a sentence at that box", (field, text, sentence) => {
    const read = readForm(after(type(field, text)));
    expect([read.wish, read.fields, problemCount(read)]).toEqual([null, { [field]: sentence }, 1]);
  });

  it("tells a limit in the units that are shown", () => {
    const read = readForm(after({ type: "units", units: "us" }, type("temperature", "25")));
    expect(read.fields.temperature).toBe("Temperature should be between 41 and 95 degrees F, and is 25.");
  });

  it("tells a wrong amount at its row, and a list without food as a whole", () => {
    expect(readForm(after({ type: "amount", id: 1, text: "some" })).amounts).toEqual({ 1: 'Amount of food 2 a day should be a number, and "some" is not one.' });
    const read = readForm(after({ type: "remove", id: 0 }, { type: "remove", id: 1 }));
    expect([read.foods, read.wish]).toEqual(["Nothing is fed: give at least one food an amount above 0.", null]);
  });

  it("reads a decimal comma", () => expect(wishOf(after(type("po4", "0,08"))).targetPO4MgPerL).toBe(0.08));
});

describe("the answer in words", () => {
  const wish = wishOf(EMPTY_FORM);
  const plan = planScreen(wish);

  it("is a range, a likely area and sheets that make it", () => {
    const { headline, likely } = planTexts(wish, plan, "metric");
    const { low, middle, high } = plan.screen?.area ?? { low: 0, middle: 0, high: 0 };
    expect(headline).toBe(`${plain(low, 2)} to ${plain(high, 2)} m2`);
    expect(likely).toBe(`Most likely ${plain(middle, 2)} m2: 3 sheets of 30 x ${plain(plan.screen?.sheets.heightCm ?? 0, 2)} cm, lit on both sides.`);
  });

  it("names what rules, what drives it, and the gap to common practice", () => {
    const { why, habit } = planTexts(wish, plan, "metric");
    expect(why.join(" ")).toMatch(/brings 71 mg of nitrogen and 7\.6 mg of phosphorus.*water changes take out 3\.2 mg and 0\.093 mg.*Nitrogen rules in \d+ % of the draws.*The spread comes from/);
    expect(habit[0]).toContain("250 to 330 cm2 lit");
    expect(habit[2]).toContain("Why the gap?");
  });

  it("says it in US units as well", () => {
    const { headline, figures } = planTexts(wish, plan, "us");
    expect(headline).toMatch(/^\d(\.\d)? to \d+ ft2$/);
    expect(figures.map(({ name, text }) => `${name}: ${text}`)).toContain(`Flow: ${plain((plan.screen?.flowLPerH.low ?? 0) / 3.785411784, 2)} to ${plain((plan.screen?.flowLPerH.high ?? 0) / 3.785411784, 2)} US gal/h`);
  });

  it("needs no screen when the water changes carry the load", () => {
    const much = wishOf(after(type("changed", "200"), type("no3", "50"), type("po4", "5")));
    expect(planTexts(much, planScreen(much), "metric")).toMatchObject({ headline: "No screen is needed", figures: [] });
  });
});

describe("the picture", () => {
  const shape = pictureShape(planScreen(wishOf(EMPTY_FORM)), "metric");

  it("marks the axes at round figures", () => {
    expect(ticks(10)).toEqual([0, 5, 10]);
    expect(ticks(2.57)).toEqual([0, 1, 2]);
    expect(shape?.x.map(({ label }) => label)).toEqual(["0", "5", "10"]);
  });

  it("puts the planned food in the middle, low under likely under high, and common practice below them", () => {
    expect(shape?.yours.x).toBe(173);
    const { low, middle, high } = shape?.yours ?? { low: 0, middle: 0, high: 0 };
    expect(low > middle && middle > high).toBe(true);
    const habitAt = picturePoints(shape?.habitLine ?? "").at(-1)?.y ?? 0;
    expect(habitAt).toBeGreaterThan(picturePoints(shape?.likely ?? "").at(-1)?.y ?? Infinity);
  });
});

describe("the screen", () => {
  const html = (initial: SizeForm = EMPTY_FORM, inFront = true): string => renderToStaticMarkup(<FluentProvider theme={webLightTheme}><Size inFront={inFront} initial={initial} /></FluentProvider>);

  it("gives the answer, then the form, then reasons, picture, hardware, button and cautions", () => {
    const page = html();
    const order = ["Lit area", "Most likely", "Your water and light", "What sets it", "Beside common practice", "<svg", "To build and run it", "Put into workbook", "Mains electricity beside water", "Lamps over water"];
    const places = order.map((text) => page.indexOf(text, text === "<svg" ? page.indexOf("Beside common practice") : 0));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places[0]).toBeGreaterThan(0);
  });

  it("shows no answer, no picture and no button while an entry is wrong, and the sentence belongs to its box", () => {
    const page = html(after(type("hours", "30")));
    expect(page).toContain("No answer yet");
    expect([page.includes("Put into workbook"), page.includes("Most likely"), page.includes("What sets it")]).toEqual([false, false, false]);
    const box = /<input[^>]*value="30"[^>]*>/.exec(page)?.[0] ?? (/<input[^>]*aria-invalid="true"[^>]*>/.exec(page)?.[0] ?? "");
    const described = /aria-describedby="([^"]+)"/.exec(box)?.[1] ?? "none";
    expect(page).toMatch(new RegExp(`id="${described}"[^>]*>(<[^>]*>)*.*Hours lit a day should be between 0 and 24 h`, "s"));
  });

  it("tells the picture to those who do not see it", () => {
    expect(html()).toMatch(/<svg[^>]*role="img"[^>]*aria-labelledby="[^"]+"[^>]*><title[^>]*>Lit area against food<\/title><desc[^>]*>The lit area grows with the food\. At 5 g a day it is 0\.45 m2 to/);
  });

  it("plans nothing behind another tab", () => expect(html(EMPTY_FORM, false)).not.toContain("Most likely"));
});
