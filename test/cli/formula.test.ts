import { readFileSync } from "node:fs";
import path from "node:path";
import { buildOnce, launched, ledger } from "./run";

beforeAll(buildOnce, 300_000);

describe("one formula", () => {
  test.each([
    ["=1+2*3", 7],
    ["1/8", 0.125],
    ["-2^2", 4],
    ['="a"&"b"', "ab"],
    ["=2>1", true],
    ['=""', ""],
    // USDA SR26: seaweed, laver, raw has 5.81 g protein in 100 g; nitrogen is protein / 6.25.
    ['=ALGAL.FOOD_N_CONTENT("Nori, raw")*1000', 9.296],
  ])("%s is printed as JSON and nothing else", (formula, answer) => {
    const { out, err, code } = ledger("formula", formula);
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(out.endsWith("\n")).toBe(true);
    if (typeof answer === "number") expect(JSON.parse(out)).toBeCloseTo(answer, 12);
    else expect(JSON.parse(out)).toBe(answer);
  });

  test.each([
    ["=1+", "#VALUE! The formula cannot be read"],
    ["=Log!A1", "there is no workbook here: use calc"],
    ["='My log'!A1+1", "there is no workbook here: use calc"],
  ])("%s is refused in a sentence of its own", (formula, sentence) => {
    const { out, err, code } = ledger("formula", formula);
    expect({ out, code }).toEqual({ out: "", code: 1 });
    expect(err).toContain(sentence);
  });

  test("an exclamation mark in a text is no sheet", () => expect(JSON.parse(ledger("formula", '="Log!A1"').out)).toBe("Log!A1"));

  test("that spills is rows of values", () => {
    expect(JSON.parse(ledger("formula", '={1,2;3,"x"}').out)).toEqual([[1, 2], [3, "x"]]);
    const { out, code } = ledger("formula", "=ALGAL.ION_CONVERT({10;20},\"mg/L NO3\",\"mg/L N\")");
    const rows = JSON.parse(out) as number[][];
    expect(code).toBe(0);
    expect(rows).toHaveLength(2);
    // 14.007 / (14.007 + 3 x 15.999), IUPAC standard atomic weights.
    expect(rows[0]?.[0]).toBeCloseTo(10 * (14.007 / 62.004), 6);
    expect((rows[1]?.[0] ?? 0) / (rows[0]?.[0] ?? 1)).toBeCloseTo(2, 12);
  });

  test("that has an error prints its sentence with its code, on standard error alone, and ends with 1", () => {
    expect(ledger("formula", "=1/0")).toEqual({ out: "", err: expect.stringMatching(/^#DIV\/0! .+\.\n$/), code: 1 });
    expect(ledger("formula", '=ALGAL.FOOD_N_CONTENT("Unobtainium flakes")')).toEqual({ out: "", err: expect.stringMatching(/^#N\/A "Unobtainium flakes" is not in the foods table\./), code: 1 });
    expect(ledger("formula", '=ALGAL.ION_CONVERT({10;"abc"},"mg/L NO3","mg/L N")')).toEqual({ out: "", err: expect.stringMatching(/^Row 2, column 1 of the answer: #VALUE! .*abc.*\n$/), code: 1 });
  });

  test.each([
    ["=SUM(1,2", "The formula cannot be read: a parenthesis, a brace or a quotation mark has no other half."],
    ["=", "The formula is empty."],
    ["=ALGAL.NO_SUCH(1)", "There is no worksheet function ALGAL.NO_SUCH. The command help lists them all."],
    ["=NO_SUCH(1)", "#NAME? The formula uses a function or a name that is not known here."],
  ])("%s is refused with a sentence", (formula, sentence) => {
    expect(ledger("formula", formula)).toEqual({ out: "", err: `${sentence}\n`, code: 1 });
  });
});

test("the launcher hands the arguments and the exit code through, and prints nothing of its own on standard output", () => {
  expect(launched("formula", "=1+1")).toMatchObject({ out: "2\n", code: 0 });
  expect(launched("nothing")).toMatchObject({ out: "", code: 2 });
});

describe("help", () => {
  test("says what the commands are", () => {
    for (const word of ["--help", "-h"]) {
      const { out, code } = ledger(word);
      expect(code).toBe(0);
      expect(out).toContain("ledger calc BOOK.xlsx -o OUT.xlsx\n");
    }
    expect(ledger("calc", "--help").out).toBe(ledger("--help").out);
  });

  test("lists every worksheet function of the metadata, and explains one by its name with or without the namespace", () => {
    const metadata = JSON.parse(readFileSync(path.join(__dirname, "../../src/functions/generated/functions.json"), "utf8")) as { functions: { name: string; description: string; parameters: { name: string; description: string; optional?: boolean }[] }[] };
    const list = ledger("help").out;
    for (const { name } of metadata.functions) expect(list).toContain(`\nALGAL.${name}(`);
    const entry = metadata.functions.find(({ name }) => name === "NP_RATIO");
    const { out, code } = ledger("help", "np_ratio");
    expect(code).toBe(0);
    expect(out).toContain(entry?.description);
    for (const { name, description, optional } of entry?.parameters ?? []) {
      expect(out).toContain(description);
      expect(out.split("\n")[0]).toContain(optional ? `[${name}]` : name);
    }
    expect(ledger("help", "ALGAL.NP_RATIO").out).toBe(out);
    expect(ledger("help", "NO_SUCH")).toEqual({ out: "", err: "There is no worksheet function NO_SUCH. The command help lists them all.\n", code: 1 });
  });
});

describe("a command line that is not understood ends with 2 and a sentence", () => {
  test.each<[string[], string]>([
    [[], "Give a command: formula, calc, hand-over or help."],
    [["budget"], 'There is no command "budget". Use formula, calc, hand-over or help.'],
    [["formula"], `Give one formula in quotes, such as '=ALGAL.FOOD_N_CONTENT("Nori, raw")'.`],
    [["formula", "=1", "=2"], `Give one formula in quotes, such as '=ALGAL.FOOD_N_CONTENT("Nori, raw")'.`],
    [["calc"], "Give a workbook to calculate: calc BOOK.xlsx -o OUT.xlsx."],
    [["calc", "a.xlsx"], "Say where the calculated copy goes: calc BOOK.xlsx -o OUT.xlsx."],
    [["calc", "a.xlsx", "b.xlsx", "-o", "c.xlsx"], "Say in which folder the calculated copies go: calc BOOK.xlsx BOOK2.xlsx -o FOLDER."],
    [["help", "A", "B"], "Give at most one name of a function."],
  ])("%j", (args, sentence) => {
    expect(ledger(...args)).toEqual({ out: "", err: `${sentence}\n`, code: 2 });
  });

  test("an unknown option", () => {
    expect(ledger("calc", "a.xlsx", "--force")).toEqual({ out: "", err: expect.stringMatching(/^The options are not understood: .*--force/), code: 2 });
  });
});
