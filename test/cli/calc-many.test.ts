import fs from "node:fs";
import { writeBook } from "../../src/files/new-book";
import { readBook } from "../../src/files/read-book";
import { buildOnce, ledger, temporaryFolder } from "./run";

/** Several workbooks in one call. */
let place: ReturnType<typeof temporaryFolder>;
beforeAll(buildOnce, 300_000);
beforeEach(() => {
  place = temporaryFolder();
});
afterEach(() => place.remove());

const book = (grams: number): Promise<Uint8Array> =>
  writeBook({ sheets: [{ name: "Log", cells: new Map([["A1", { value: grams }], ["B1", { value: 0, formula: 'ALGAL.FEEDLOAD_N(A1,"Cod")' }]]) }], names: [], date1904: false });

const nitrogen = async (file: string): Promise<unknown> => (await readBook(fs.readFileSync(file))).sheets[0]?.cells.get("B1")?.value;

test("each goes into the folder under its own name, with a line each and one at the end; one that is refused does not stop the rest", async () => {
  for (const grams of [1, 2, 3]) fs.writeFileSync(place.at(`tank ${grams}.xlsx`), await book(grams));
  fs.writeFileSync(place.at("tank 2.xlsx"), "no workbook");
  const ran = ledger("calc", place.at("tank 1.xlsx"), place.at("tank 2.xlsx"), place.at("none.xlsx"), place.at("tank 3.xlsx"), "-o", place.at("out"));
  expect(ran.out.trim().split("\n")).toEqual([
    "1/4 tank 1.xlsx: 1 formula cell calculated, 1 changed, 0 errors.",
    "2/4 tank 2.xlsx: not calculated.",
    "3/4 none.xlsx: not calculated.",
    "4/4 tank 3.xlsx: 1 formula cell calculated, 1 changed, 0 errors.",
    "4 workbooks: 2 calculated, 2 refused.",
  ]);
  expect(ran.err.trim().split("\n").map((line) => line.split(": ")[0])).toEqual([place.at("tank 2.xlsx"), place.at("none.xlsx")]);
  expect(ran.code).toBe(1);
  expect(fs.readdirSync(place.at("out")).sort()).toEqual(["tank 1.xlsx", "tank 3.xlsx"]);
  expect(Number(await nitrogen(place.at("out/tank 3.xlsx")))).toBeCloseTo(3 * Number(await nitrogen(place.at("out/tank 1.xlsx"))), 12);
});

test("one that has to be stopped does not stop the rest either", async () => {
  fs.writeFileSync(place.at("endless.xlsx"), await writeBook({ sheets: [{ name: "Log", cells: new Map([["A1", { value: 0, formula: "SUM(MAKEARRAY(20000,20000,LAMBDA(r,c,r*c)))" }]]) }], names: [], date1904: false }));
  fs.writeFileSync(place.at("good.xlsx"), await book(1));
  const ran = ledger("calc", place.at("endless.xlsx"), place.at("good.xlsx"), "-o", place.at("out"));
  expect(ran.out.trim().split("\n")).toEqual(["1/2 endless.xlsx: not calculated.", "2/2 good.xlsx: 1 formula cell calculated, 1 changed, 0 errors.", "2 workbooks: 1 calculated, 1 refused."]);
  expect(ran.err).toContain(`${place.at("endless.xlsx")}: `);
  expect(ran.code).toBe(1);
}, 120_000);

test.each([
  ["two of the same name", ["tank.xlsx", "other/tank.xlsx"], "out", 2, "Two of the workbooks are named tank.xlsx"],
  ["no folder", ["tank.xlsx", "b.xlsx"], "", 2, "Say in which folder"],
  ["the name of a workbook in the place of the folder", ["tank.xlsx", "b.xlsx"], "c.xlsx", 2, "Say in which folder"],
  ["a file in the place of the folder", ["tank.xlsx", "b.xlsx"], "other/notes", 1, "not a folder"],
])("refuses %s in one sentence", async (_what, names, folder, code, sentence) => {
  fs.mkdirSync(place.at("other"));
  fs.writeFileSync(place.at("other/notes"), "");
  for (const name of names) fs.writeFileSync(place.at(name), await book(1));
  const ran = ledger("calc", ...names.map((name) => place.at(name)), ...(folder === "" ? [] : ["-o", place.at(folder)]));
  expect([ran.code, ran.out]).toEqual([code, ""]);
  expect(ran.err).toContain(sentence);
  expect(ran.err).not.toContain("fault");
});
