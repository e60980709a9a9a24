import fs from "node:fs";
import path from "node:path";
import { worksheetFunctions } from "../../src/functions";
import { CellError } from "../../src/functions/cell-error";
import metadata from "../../src/functions/generated/functions.json";
import examples from "../../src/functions/generated/examples.json";
import { helpPage } from "../../scripts/build-help";
import { buildMetadata, readExamples } from "../../scripts/build-metadata";
import { errorOf, rows, value } from "../call";

describe("metadata", () => {
  test("every described function exists and every function is described", () => {
    expect([...worksheetFunctions.keys()].sort()).toEqual(metadata.functions.map((one) => one.id).sort());
  });

  test("the committed file is what the JSDoc says", async () => {
    expect(JSON.parse(JSON.stringify(await buildMetadata()))).toEqual(metadata);
  });

  test("every function has an example that calls it, and the committed files are up to date", () => {
    expect(readExamples()).toEqual(examples);
    for (const { id } of metadata.functions) expect((examples as Record<string, string>)[id]).toMatch(new RegExp(`^=ALGAL\\.${id}\\(`));
    expect(fs.readFileSync(path.join(__dirname, "../../src/functions/generated/help.html"), "utf8")).toBe(helpPage());
  });

  test.each(metadata.functions.map((one) => [one.id, one] as const))("%s has help of 1 to 128 characters throughout and a help link", (id, one) => {
    expect(id).toMatch(/^[A-Z][A-Z_]{1,62}[A-Z]$/);
    const texts = [one.description, ...one.parameters.map((parameter) => parameter.description)];
    for (const text of texts) {
      expect(text.length).toBeGreaterThanOrEqual(1);
      expect(text.length).toBeLessThanOrEqual(128);
    }
    expect(one.helpUrl).toMatch(new RegExp(`^https://.+#${id}$`));
    expect(worksheetFunctions.get(id)?.length).toBe(one.parameters.length);
  });

  test("errors of other cells reach the functions", () => expect(metadata.allowErrorForDataTypeAny).toBe(true));
});

describe("ranges", () => {
  test("a column in gives a column out, and one cell serves every row", () => {
    expect(rows("HARVEST_DRY", [[100], [50], [25]], 0.1)).toEqual([[10], [5], [2.5]]);
  });
  test("a row in gives a row out", () => {
    expect(rows("HARVEST_DRY", [[100, 50]], 0.1)).toEqual([[10, 5]]);
  });
  test("a block in gives a block out, cell for cell", () => {
    expect(rows("LIGHT_DAILY", [[100, 200], [300, 400]], [[10, 10], [5, 5]])).toEqual([[3.6, 7.2], [5.4, 7.2]]);
  });
  test("ranges of different size are refused in a sentence", () => {
    const error = errorOf("LIGHT_DAILY", [[1], [2]], [[1], [2], [3]]);
    expect(error.code).toBe("#VALUE!");
    expect(error.message).toContain("ranges of different size");
  });
  test("functions that answer side by side take columns and spill one row for each", () => {
    expect(rows("SCRUBAREA_HABIT", [[3], [""], [6]])).toEqual([[0.015, 0.02], ["", ""], [0.03, 0.04]]);
    expect(errorOf("SCRUBAREA_HABIT", [[3, 6]]).message).toContain("one column");
  });
});

describe("blanks", () => {
  test("a blank cell gives a blank, whether it arrives as empty text or as null", () => {
    expect(rows("HARVEST_DRY", [[""], [null], ["  "], [10]], 0.1)).toEqual([[""], [""], [""], [1]]);
  });
  test("a blank optional argument means what leaving it out means", () => {
    expect(value("HARVEST_DRY", 100, "")).toBe(value("HARVEST_DRY", 100));
    expect(value("HARVEST_DRY", 100)).toBe(8);
    expect(value("HARVEST_DRY", 100, null, "pressed")).toBe(15);
  });
  const required = metadata.functions.filter((one) => one.parameters[0]?.name !== "log" && one.id !== "HARVEST_INTERVAL");
  test.each(required.map((one) => [one.id]))("%s of blanks is blank", (id) => {
    expect(new Set(rows(id).flat())).toEqual(new Set([""]));
  });
});

describe("errors", () => {
  test("one bad cell harms no other cell of the range", () => {
    const answer = rows("HARVEST_DRY", [[10], ["lots"], [20]], 0.1);
    expect(answer[0]).toEqual([1]);
    expect(answer[1]?.[0]).toBeInstanceOf(CellError);
    expect((answer[1]?.[0] as CellError).code).toBe("#VALUE!");
    expect(answer[2]).toEqual([2]);
  });
  test("an error of another cell goes through as it is", () => {
    const given = new CellError("#REF!", "gone");
    expect(rows("HARVEST_DRY", [[given], [10]], 0.1)).toEqual([[given], [1]]);
  });
  test.each([
    ["a negative weight", "HARVEST_DRY", [-1], "#VALUE!", "drained_g should be 0 g or more, and is -1."],
    ["a truth value", "HARVEST_DRY", [true], "#VALUE!", "drained_g should be a number, and true is not one."],
    ["a per cent without its sign", "HARVEST_N_EXPORT", [100, 0.08, 3.5], "#VALUE!", "tissue_n should be a share between 0 and 0.08, and is 3.5. Write 5 per cent as 5% or 0.05."],
    ["an area of zero", "HARVEST_GROWTH", [100, 0, 7], "#DIV/0!", "lit_area_m2 is zero, so nothing can be divided by it."],
    ["zero days", "HARVEST_GROWTH", [100, 0.02, 0], "#DIV/0!", "days is zero, so nothing can be divided by it."],
    ["an unknown food", "FEEDLOAD_N", [10, "mysis"], "#N/A", '"mysis" is not in the foods table'],
    ["a portion of a food without one", "FEEDLOAD_N", [1, "Pond pellets, 30 % protein", "portions"], "#N/A", "No portion mass is known"],
    ["no way to the target", "CHANGE_COUNT", [40, 5, 0.25, 10], "#NUM!", "cannot be reached by changing water"],
    ["a zero without steps", "READING_VALUE", [0], "#N/A", "below what the kit can show"],
    ["a reading beyond the scale", "READING_VALUE", [">50"], "#N/A", "above what the kit can show"],
    ["ppm", "ION_CONVERT", [1, "ppm NO3", "mg/L NO3"], "#VALUE!", "ppm can mean"],
    ["nitrogen to phosphorus", "ION_CONVERT", [1, "NO3", "PO4"], "#VALUE!", "nitrogen does not turn into phosphorus"],
    ["mg/kg without salinity", "ION_CONVERT", [1, "mg/kg NO3", "mg/L NO3"], "#VALUE!", "give the salinity and the temperature"],
    ["nitrate without a basis", "WATER_STORE_N", [10, "nitrate", 100], "#VALUE!", "does not say on which basis"],
    ["phosphate where nitrogen is wanted", "WATER_STORE_N", [10, "PO4", 100], "#VALUE!", "is not a form of nitrogen"],
    ["25 hours a day", "LIGHT_DAILY", [100, 25], "#VALUE!", "between 0 and 24 hours"],
    ["no light", "SCRUBAREA_NEEDED", [0.1, 0.01, 0], "#DIV/0!", "Without light nothing grows"],
    ["no load", "SCRUBAREA_NEEDED", [0, 0, 8], "#NUM!", "nothing for a screen to take up"],
    ["more rock than tank", "NET_VOLUME", [100, 400], "#VALUE!", "displaces more water than the tank holds"],
    ["a text with two meanings", "HARVEST_DRY", ["1,234"], "#VALUE!", "can mean two numbers"],
    ["half a change", "CHANGE_RESULT", [40, 0.25, 0, 1.5], "#VALUE!", "whole number"],
  ] as const)("%s", (_, name, given, code, sentence) => {
    const error = errorOf(name, ...given);
    expect(error.code).toBe(code);
    expect(error.message).toContain(sentence);
  });
});

describe("a Foods sheet", () => {
  const sheet = [
    ["Food", "Protein (g/100 g)", "P (mg/100 g)", "Factor", "Portion (g)"],
    ["House mix", 20, 300, 6.25, 5],
    ["Cod", 10, 100, "", ""],
    ["", "", "", "", ""],
  ];
  test("adds the keeper's foods", () => {
    expect(value("FEEDLOAD_N", 2, "house mix", "portions", sheet, 0)).toBeCloseTo(10 * 0.032, 12);
  });
  test("puts the keeper's row in the place of a built-in food of the same name", () => {
    expect(value("FOOD_N_CONTENT", "Cod", sheet)).toBeCloseTo(0.016, 12);
    expect(value("FOOD_N_CONTENT", "Cod")).toBeCloseTo(0.1781 / 6.25, 12);
  });
  test("names the row that cannot be used", () => {
    const broken = [...sheet, ["Typo", 200, 300, 6.25, 5]];
    expect(errorOf("FOOD_N_CONTENT", "Cod", broken).message).toBe("Foods, row 5: Protein (g/100 g) should be between 0 and 100 g/100 g, and is 200.");
  });
  test("asks for a heading that is missing", () => {
    expect(errorOf("FOOD_N_CONTENT", "Cod", [["Food", "P (mg/100 g)"], ["Cod", 100]]).message).toContain("Protein (g/100 g)");
  });
});

test("functions know nothing of Office, of the page or of files", () => {
  const folder = path.join(__dirname, "../../src/functions");
  for (const file of fs.readdirSync(folder).filter((name) => name.endsWith(".ts") && name !== "entry.ts")) {
    expect(fs.readFileSync(path.join(folder, file), "utf8")).not.toMatch(/\bOffice\.|\bExcel\.|CustomFunctions\.|node:|document\./);
  }
});
