import type { Locator, Page } from "playwright-core";
import { type Harness, startHarness, type WatchedPage } from "./harness";
import { axeViolations, eventually } from "./pane-checks";

/** The size screen on the local page, typed into as a person does. */
let harness: Harness;
let watched: WatchedPage;
let page: Page;
let pane: Locator;

beforeAll(async () => {
  harness = await startHarness();
  watched = await harness.open("index.html");
  page = watched.page;
  await page.evaluate(() => window.algalLedger.ready);
  pane = page.locator("#pane");
  await pane.getByRole("tab", { name: "Size" }).click();
  await pane.getByText("Most likely").first().waitFor();
});
afterAll(() => harness.close());

/** The answer to what stands in the form now. */
async function headline(): Promise<string> {
  await pane.locator('[aria-busy="false"] h3:has-text("Lit area")').waitFor();
  return pane.locator("h3:has-text('Lit area') + p").first().innerText();
}
const box = (name: string): Locator => pane.getByRole("textbox", { name });
const figuresOf = (text: string): number[] => [...text.matchAll(/[\d.]+(?= |$)/g)].map(([figure]) => Number(figure));

it("answers before anything is typed, and follows each figure", async () => {
  const before = await headline();
  expect(before).toMatch(/^[\d.]+ to [\d.]+ m2$/);
  await box("Light on the screen").fill("125");
  await eventually(async () => (await headline()) === before, false);
  const [low = 0, high = 0] = figuresOf(await headline());
  const [lowBefore = 0, highBefore = 0] = figuresOf(before);
  expect(low > lowBefore && high > highBefore).toBe(true);
  await box("Light on the screen").fill("250");
  await eventually(headline, before);
});

it("takes the answer away while an entry is wrong, says why at the box, and brings it back", async () => {
  const before = await headline();
  await box("Hours lit a day").fill("30");
  await eventually(headline, "No answer yet");
  expect(await pane.getByRole("button", { name: "Put into workbook" }).count()).toBe(0);
  const described = await box("Hours lit a day").getAttribute("aria-describedby");
  const message = await pane.evaluate((element, ids) => ids.split(" ").map((id) => element.querySelector(`#${CSS.escape(id)}`)?.textContent).join(" "), described ?? "");
  expect(message).toContain("Hours lit a day should be between 0 and 24 h, and is 30.");
  await box("Hours lit a day").fill("14");
  await eventually(headline, before);
});

it("keeps what was typed when the water changes, and converts it when the units do", async () => {
  await box("Nitrate wanted").fill("8");
  await box("Water volume").fill("100");
  await pane.getByLabel("Water", { exact: true }).selectOption({ label: "Fresh" });
  expect([await box("Nitrate wanted").inputValue(), await box("Phosphate wanted").inputValue()]).toEqual(["8", "0.5"]);
  await pane.getByLabel("Units").selectOption({ label: "US" });
  expect([await box("Water volume").inputValue(), await box("Temperature").inputValue()]).toEqual(["26.42", "75.2"]);
  await eventually(async () => (await headline()).endsWith("ft2"), true);
  await pane.getByLabel("Units").selectOption({ label: "Metric" });
  expect(await box("Water volume").inputValue()).toBe("100");
  await pane.getByLabel("Water", { exact: true }).selectOption({ label: "Marine" });
});

it("works by keyboard alone: adds a food, chooses it by its first letters, types, removes it", async () => {
  const before = await headline();
  const add = pane.getByRole("button", { name: "Add a food" });
  await add.focus();
  await page.keyboard.press("Enter");
  await eventually(() => page.evaluate(() => document.activeElement?.getAttribute("aria-label")), "Food 3");
  expect(await headline()).toBe("No answer yet");
  await page.keyboard.type("Squ");
  expect(await pane.getByLabel("Food 3", { exact: true }).inputValue()).toBe("Squid");
  await page.keyboard.press("Tab");
  await page.keyboard.type("5");
  await eventually(async () => /^[\d.]+ to/.test(await headline()) && (await headline()) !== before, true);
  await page.keyboard.press("Tab");
  expect(await page.evaluate(() => document.activeElement?.getAttribute("aria-label"))).toBe("Remove Squid");
  await page.keyboard.press("Enter");
  await eventually(headline, before);
  await eventually(() => page.evaluate(() => document.activeElement?.getAttribute("aria-label")), "Food 2");
});

it("hides no box that has the focus behind the answer", async () => {
  const last = pane.getByLabel("Growing conditions");
  await last.focus();
  for (let step = 0; step < 16; step += 1) {
    await page.keyboard.press("Shift+Tab");
    const clear = await page.evaluate(() => {
      const focused = document.activeElement;
      const answer = focused?.closest("[role=tabpanel]")?.querySelector("[aria-busy]");
      return !answer || !focused || focused.getBoundingClientRect().top >= answer.getBoundingClientRect().bottom - 1;
    });
    expect(clear).toBe(true);
  }
});

it.each(["light", "dark"] as const)("has no violation that axe finds at 350 px, %s, with an answer and without", async (colorScheme) => {
  await page.emulateMedia({ colorScheme });
  await eventually(() => pane.locator(".fui-FluentProvider").evaluate((element) => getComputedStyle(element).colorScheme), colorScheme);
  expect((await pane.boundingBox())?.width).toBe(350);
  expect(await axeViolations(page)).toEqual([]);
  await box("Temperature").fill("warm");
  await eventually(headline, "No answer yet");
  expect(await axeViolations(page)).toEqual([]);
  await box("Temperature").fill("25");
  await eventually(async () => (await headline()) === "No answer yet", false);
  await page.emulateMedia({ colorScheme: "light" });
});

it("puts the plan into the workbook as live formulas on a new sheet, and the grid calculates the pane's figures", async () => {
  const [low = 0, high = 0] = figuresOf(await headline());
  await pane.getByRole("button", { name: "Put into workbook" }).click();
  await pane.getByText("Written on the new sheet Size.").waitFor();
  expect(await page.evaluate(() => window.algalLedger.port.selection())).toEqual({ sheet: "Size", address: "A1" });
  const area = (): Promise<unknown[]> =>
    page.evaluate(() => window.algalLedger.port.read("Size", "A1:D60").values.find(([label]) => label === "Lit area (m2)")?.slice(1) ?? []);
  await eventually(async () => (await area()).map((figure) => Number(Number(figure).toPrecision(2))).filter((_figure, place) => place !== 1), [low, high]);
  expect(watched.errors).toEqual([]);
  expect(watched.outside).toEqual([]);
});
