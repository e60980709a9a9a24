import { type Harness, startHarness, type WatchedPage } from "./harness";
import { eventually } from "./pane-checks";

const SHEET = "Nitrogen";

let harness: Harness;
let opened: WatchedPage;

beforeAll(async () => {
  harness = await startHarness();
  opened = await openReady();
}, 120_000);
afterAll(async () => harness?.close());

async function openReady(options: Parameters<Harness["open"]>[1] = {}): Promise<WatchedPage> {
  const watched = await harness.open("index.html", options);
  await watched.page.waitForFunction(() => "algalLedger" in window);
  await watched.page.evaluate(() => window.algalLedger.ready);
  return watched;
}

const values = (address: string, sheet = SHEET) => opened.page.evaluate(([s, a]) => window.algalLedger.port.read(s, a).values, [sheet, address] as const);
const formulas = (address: string) => opened.page.evaluate(([s, a]) => window.algalLedger.port.read(s, a).formulas, [SHEET, address] as const);
const problems = () => opened.page.evaluate(() => window.algalLedger.problems.list());
const select = (address: string, sheet = SHEET) => opened.page.evaluate(([s, a]) => window.algalLedger.port.select(s, a), [sheet, address] as const);

/** Writes through the port and waits until the grid has calculated. */
async function write(address: string, content: unknown[][]): Promise<void> {
  await opened.page.evaluate(
    async ([sheet, to, rows]) => {
      window.algalLedger.port.write(sheet, to, rows);
      await window.algalLedger.settled();
    },
    [SHEET, address, content] as const,
  );
}

/** A canvas of the grid's is drawn over the cell while something is typed there. */
const isEditing = (wanted: boolean) =>
  opened.page.waitForFunction((is) => [...document.querySelectorAll('#grid [data-u-comp="render-canvas"]')].filter((canvas) => canvas.getBoundingClientRect().width > 0).length === (is ? 3 : 2), wanted);

async function type(address: string, text: string): Promise<void> {
  await select(address);
  await opened.page.waitForTimeout(200);
  await opened.page.keyboard.type(text.slice(0, 1));
  await isEditing(true);
  await opened.page.keyboard.type(text.slice(1), { delay: 30 });
}

async function leaveCell(): Promise<void> {
  await opened.page.keyboard.press("Escape");
  await opened.page.keyboard.press("Escape");
  await isEditing(false);
}

describe("the local page", () => {
  test("opens the first sample, calculated, with the picker showing it", async () => {
    expect(await opened.page.title()).toBe("An invented rock-pool tank, 16 weeks - Algal Ledger");
    expect(await opened.page.locator("#sample option:checked").textContent()).toBe("An invented rock-pool tank, 16 weeks");
    expect(await values("A1")).toEqual([["Nitrogen: where did it go?"]]);
    expect(await problems()).toEqual([]);
  });

  test("puts the pane beside the grid", async () => {
    expect(await opened.page.locator("#pane").textContent()).not.toBe("");
    const [grid, pane] = [await opened.page.locator("#grid").boundingBox(), await opened.page.locator("#pane").boundingBox()];
    expect(pane?.width).toBe(350);
    expect((grid?.x ?? 0) + (grid?.width ?? 0)).toBe(pane?.x);
  });
});

describe("typing a formula", () => {
  test("offers the functions with what they do", async () => {
    await type("P40", "=ALG");
    const offered = opened.page.locator("li").filter({ hasText: /^ALGAL\./, visible: true });
    await offered.first().waitFor();
    expect((await offered.allTextContents()).length).toBeGreaterThan(5);
    await opened.page.keyboard.type("AL.LIGHT_", { delay: 30 });
    await opened.page.waitForFunction(() => [...document.querySelectorAll("li")].every((item) => !/^ALGAL\.[A-K]/.test(item.textContent ?? "")));
    const [first] = await offered.allTextContents();
    expect(first).toMatch(/^ALGAL\.LIGHT_COST.+kWh/);
    await leaveCell();
  });

  test("shows the argument in hand with its description, and that one only", async () => {
    await type("P40", "=ALGAL.LIGHT_DAILY(200,");
    const help = opened.page.getByText("Required. Hours lit a day", { exact: false });
    await help.waitFor();
    expect(await help.isVisible()).toBe(true);
    expect(await opened.page.getByText("Required. Light on the", { exact: false }).isVisible()).toBe(false);
    expect(await opened.page.getByText("Example: =ALGAL.LIGHT_DAILY(", { exact: false }).isVisible()).toBe(true);
    await leaveCell();
  });

  test("calculates when Enter is pressed", async () => {
    await type("P40", "=ALGAL.LIGHT_DAILY(200,12)");
    await opened.page.keyboard.press("Enter");
    await eventually(() => values("P40"), [[8.64]]);
    expect(await formulas("P40")).toEqual([["=ALGAL.LIGHT_DAILY(200,12)"]]);
  });
});

describe("typing a date", () => {
  test("with points is that day of that month, and is shown as it was typed", async () => {
    await type("P42", "4.3.2026");
    await opened.page.keyboard.press("Enter");
    await eventually(() => values("P42"), [[46085]]);
    expect(await opened.page.evaluate(() => window.algalLedger.port.formats.numberFormats("Nitrogen", "P42:P42"))).toEqual([["d.m.yyyy"]]);
  });
});

describe("what cells show", () => {
  test("an answer of several rows spills, and reads as values, not formulas", async () => {
    await write("P45", [['=ALGAL.READING_LOW({"<0.2";"5"},"0 5 10")']]);
    expect(await values("P45:P46")).toEqual([[0], [2.5]]);
    expect(await formulas("P46")).toEqual([[2.5]]);
  });

  test("a blocked spill shows #SPILL! and is listed, and spills again when the cell is free", async () => {
    await write("P46", [["mine"]]);
    expect(await values("P45:P46")).toEqual([["#SPILL!"], ["mine"]]);
    expect((await problems()).map(({ address, functionName }) => [address, functionName])).toEqual([["Nitrogen!P45", "ALGAL.READING_LOW"]]);
    await write("P46", [[""]]);
    expect(await values("P45:P46")).toEqual([[0], [2.5]]);
    expect(await problems()).toEqual([]);
  });

  test("text that looks like a number stays text, blanks stay blank", async () => {
    await write("P50:S50", [["0.20", "007", true, ""]]);
    await write("P51", [['=P50&"|"&ISTEXT(Q50)&"|"&R50&"|"&ISBLANK(S50)']]);
    expect(await values("P50:S50")).toEqual([["0.20", "007", true, ""]]);
    expect(await values("P51")).toEqual([["0.20|TRUE|TRUE|TRUE"]]);
  });

  test("an error shows its code, and its sentence is listed with the cell until it is put right", async () => {
    await write("P55", [["=ALGAL.LIGHT_DAILY(200,25)"]]);
    expect(await values("P55")).toEqual([["#VALUE!"]]);
    const [listed] = await problems();
    expect([listed?.address, listed?.functionName]).toEqual(["Nitrogen!P55", "ALGAL.LIGHT_DAILY"]);
    expect(listed?.sentence).toMatch(/between 0 and 24/);
    await write("P55", [["=ALGAL.LIGHT_DAILY(200,24)"]]);
    expect(await problems()).toEqual([]);
  });

  test("an error inside a spilled answer is listed at its own cell", async () => {
    await write("P60:P62", [[10], [30], [12]]);
    await write("Q60", [["=ALGAL.LIGHT_DAILY(200,P60:P62)"]]);
    expect(await values("Q60:Q62")).toEqual([[7.2], ["#VALUE!"], [8.64]]);
    expect((await problems()).map(({ address }) => address)).toEqual(["Nitrogen!Q61"]);
  });

  test("an error that the formula catches is no problem, nor one of a formula that was deleted", async () => {
    await write("Q60", [['=IFERROR(ALGAL.LIGHT_DAILY(200,99),"none")']]);
    expect(await values("Q60")).toEqual([["none"]]);
    expect(await problems()).toEqual([]);
    await write("Q60", [["=ALGAL.LIGHT_DAILY(200,99)"]]);
    expect(await problems()).toHaveLength(1);
    await write("Q60", [[""]]);
    expect(await problems()).toEqual([]);
  });

  test("a problem follows its cell when a row is put in above it", async () => {
    await write("P70", [["=ALGAL.LIGHT_DAILY(200,99)"]]);
    expect((await problems()).map(({ address }) => address)).toEqual(["Nitrogen!P70"]);
    await select("P65");
    await opened.page.waitForTimeout(300);
    await insertRow();
    await opened.page.waitForFunction(() => window.algalLedger.problems.list()[0]?.address === "Nitrogen!P71");
    expect((await problems()).map(({ address }) => address)).toEqual(["Nitrogen!P71"]);
    await write("P71", [[""]]);
  });
});

/** Through the menu of the grid, as a keeper does it; which row of those in view does not matter. */
async function insertRow(): Promise<void> {
  const box = await opened.page.locator("#grid").boundingBox();
  if (!box) throw new Error("There is no grid.");
  await opened.page.mouse.click(box.x + box.width / 2, box.y + box.height / 2, { button: "right" });
  await opened.page.getByText("Insert", { exact: true }).filter({ visible: true }).hover();
  await opened.page.getByText("rows above").filter({ visible: true }).click({ position: { x: 4, y: 8 } });
}

describe("the port", () => {
  test("leaves a cell where the content is null, and refuses content of another shape", async () => {
    await write("P80:Q80", [[1, 2]]);
    await write("P80:Q80", [[null, 3]]);
    expect(await values("P80:Q80")).toEqual([[1, 3]]);
    await expect(opened.page.evaluate(() => window.algalLedger.port.write("Nitrogen", "P80:Q80", [[1]]))).rejects.toThrow("P80:Q80 has 1 rows and 2 columns");
    expect(await values("P80:Q80")).toEqual([[1, 3]]);
  });

  test("selects on another sheet and tells the listener", async () => {
    const told = await opened.page.evaluate(
      () =>
        new Promise<unknown>((resolve) => {
          const { port } = window.algalLedger;
          const stop = port.onSelection(() => {
            stop();
            resolve(port.selection());
          });
          port.select("Log", "B4:C6");
        }),
    );
    expect(told).toEqual({ sheet: "Log", address: "B4:C6" });
    expect(await opened.page.evaluate(() => window.algalLedger.port.activeSheet())).toBe("Log");
    await select("A1");
  });

  test("names the sheets in the order of the tabs and says which one is not there", async () => {
    expect((await opened.page.evaluate(() => window.algalLedger.port.sheetNames())).slice(0, 3)).toEqual(["Nitrogen", "Phosphorus", "Log"]);
    await expect(opened.page.evaluate(() => window.algalLedger.port.read("Nowhere", "A1"))).rejects.toThrow('There is no sheet "Nowhere".');
  });

  test("a write can be undone from the keyboard", async () => {
    await write("P85", [[5]]);
    await write("P85", [[6]]);
    await select("P85");
    await opened.page.waitForTimeout(200);
    await opened.page.keyboard.press("Control+z");
    await eventually(() => values("P85"), [[5]]);
  });
});

describe("the other samples", () => {
  test.each(["two-ponds", "messy-diary"])("%s opens with no error in any cell", async (name) => {
    const option = { "two-ponds": "1", "messy-diary": "2" }[name] ?? "";
    const title = await opened.page.locator(`#sample option[value="${option}"]`).textContent();
    await opened.page.selectOption("#sample", option);
    // The first of them takes the place of a workbook that was changed above.
    if (option === "1") await opened.page.getByRole("dialog").getByRole("button", { name: "Discard changes" }).click();
    await opened.page.waitForFunction((wanted) => document.title.startsWith(wanted ?? ""), title);
    const shown = await opened.page.evaluate(() => {
      const { port } = window.algalLedger;
      return port.sheetNames().flatMap((sheet) => port.read(sheet, "A1:Z200").values.flat());
    });
    expect(shown.filter((value) => typeof value === "number").length).toBeGreaterThan(100);
    expect(shown.filter((value) => typeof value === "string" && /^#[A-Z/0]+[!?]?$/.test(value))).toEqual([]);
    expect(await problems()).toEqual([]);
  });
});

describe("the page by itself", () => {
  test("moves the keyboard with F6 from the grid to the pane, the list of samples and the grid, and back with Shift", async () => {
    const keys = await openReady();
    const area = () => keys.page.evaluate(() => ["bar", "grid", "pane"].find((id) => document.getElementById(id)?.contains(document.activeElement)));
    const pressed = async (key: string) => {
      await keys.page.keyboard.press(key);
      return area();
    };
    await keys.page.waitForFunction(() => document.getElementById("grid")?.contains(document.activeElement));
    await keys.page.locator('#pane [role="tab"]').first().waitFor();
    expect([await pressed("F6"), await pressed("F6"), await pressed("F6"), await pressed("Shift+F6")]).toEqual(["pane", "bar", "grid", "bar"]);
    await pressed("F6");
    await keys.page.evaluate(() => window.algalLedger.port.select("Nitrogen", "P90"));
    await keys.page.keyboard.type("7");
    await keys.page.keyboard.press("Enter");
    await keys.page.waitForFunction(() => window.algalLedger.port.read("Nitrogen", "P90").values[0]?.[0] === 7);
    await keys.page.close();
  }, 30_000);

  test("follows the colour scheme of the machine", async () => {
    const dark = await openReady({ colorScheme: "dark" });
    expect(await dark.page.evaluate(() => getComputedStyle(document.body).backgroundColor)).toBe("rgb(27, 29, 28)");
    expect(await dark.page.evaluate(() => document.querySelector(".univer-dark") !== null)).toBe(true);
    expect(dark.errors).toEqual([]);
    await dark.page.close();
  });

  test("says so when a sample does not come, and shows an empty grid with the functions in it", async () => {
    await harness.context.route("**/samples/one-tank-16-weeks.xlsx", (route) => route.fulfill({ status: 404, body: "" }));
    const bare = await openReady();
    await harness.context.unroute("**/samples/one-tank-16-weeks.xlsx");
    expect(await bare.page.locator("#status").textContent()).toBe("An invented rock-pool tank, 16 weeks could not be opened: the page's server does not have it.");
    await bare.page.evaluate(() => window.algalLedger.port.write("Sheet1", "A1", [["=ALGAL.LIGHT_DAILY(200,12)"]]));
    await bare.page.waitForFunction(() => window.algalLedger.port.read("Sheet1", "A1").values[0]?.[0] === 8.64);
    await bare.page.close();
  });

  test("sent nothing from this machine and logged no error while all this was done", () => {
    expect(opened.outside).toEqual([]);
    expect(opened.errors).toEqual([]);
  });
});
